from __future__ import annotations

import pytest

from hardstand.description.fuel import State
from hardstand.engines.fuel.volumes import volumes_ml
from tests.aeroplanes import SMALL, as_built, swapped

TRAP = """
[[item]]
id = "trap"
part = "main-tank"
at_mm = [700, 0, 20]
[[tank]]
id = "trap"
item = "trap"
capacity_ml = 100
header = true
"""
WITH_TRAP = SMALL + TRAP
HEADER_ONLY = swapped(SMALL, "inside_mm = [250, 100, 60]", "header = true")


def state(**fields: object) -> State:
    """A loading state with the named fields."""
    return State.model_validate({"id": "s", **fields})


def test_the_header_is_full_until_said_otherwise() -> None:
    """`fuel_pct` is of the main tank; the header keeps its own filling."""
    tanks = as_built(WITH_TRAP).tanks
    states = [state(fuel_pct=40.0), state(), state(header_pct=25.0)]
    assert volumes_ml(tanks, states).tolist() == [[600.0, 100.0], [0.0, 100.0], [0.0, 25.0]]


def test_an_aeroplane_with_nothing_but_headers_has_their_fuel() -> None:
    """Without main tanks `fuel_pct` says nothing and is no fault."""
    tanks = as_built(HEADER_ONLY).tanks
    assert volumes_ml(tanks, [state(fuel_pct=50.0)]).tolist() == [[1500.0]]


@pytest.mark.parametrize(
    "off, held",
    [("tank-main", [0.0, 100.0]), ("trap", [1500.0, 0.0]), ("gear-nose", [1500.0, 100.0])],
)
def test_a_tank_that_is_off_holds_nothing(off: str, held: list[float]) -> None:
    """Fuel goes with the tank; taking something else off leaves it."""
    tanks = as_built(WITH_TRAP).tanks
    found = volumes_ml(tanks, [state(fuel_pct=100.0, without=(off,)), state(fuel_pct=100.0)])
    assert found.tolist() == [held, [1500.0, 100.0]]
