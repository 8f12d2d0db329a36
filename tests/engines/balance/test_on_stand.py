"""Weigh-ins on a two-point stand against moments worked out by hand."""

from __future__ import annotations

import pytest

from hardstand.engines.balance.model import WeighedIn
from tests.aeroplanes import SMALL, assessed, of_code

STAND = """
[[weighing]]
id = "stand"
state = "empty"
method = "stand"
stand_x_mm = {stand}
tips = "{tips}"
"""


def stand(stand: float, tips: str, weight: str = "") -> str:
    """A weigh-in on a stand."""
    return STAND.format(stand=stand, tips=tips) + weight


def weighed(measurements: str) -> WeighedIn:
    """The weigh-in of the small aeroplane."""
    found: WeighedIn = assessed(SMALL, measurements).results["balance.weighings"].weighed[0]
    return found


@pytest.mark.parametrize("at_mm", [0.0, 300.0])
def test_a_weight_that_levels_it_gives_the_cg(at_mm: float) -> None:
    """M x + w s = (M + w) stand, also with the weight at the datum itself."""
    found = weighed(stand(950.0, "tail", f"weight_g = 60\nweight_x_mm = {at_mm}\n"))
    assert found.x_mm == pytest.approx(((8900.0 + 60.0) * 950.0 - 60.0 * at_mm) / 8900.0)


@pytest.mark.parametrize(
    "tips, stand_mm, wrong",
    [("nose", 980.0, 0.0), ("tail", 930.0, 0.0), ("nose", 930.0, 1.0), ("tail", 980.0, 1.0)],
)
def test_tipping_tells_the_side(tips: str, stand_mm: float, wrong: float) -> None:
    """On the right side it agrees and is silent; on the wrong one it asks, by as much as that is."""
    measurements = stand(stand_mm, tips)
    found = weighed(measurements)
    built = assessed().figure("balance.built-cg-x@empty").value
    assert found.residual_mm == pytest.approx(wrong * (stand_mm - built))
    said = of_code(assessed(SMALL, measurements), "balance.weigh-in-cg")
    assert [one.severity for one in said] == ["measure"] * int(wrong)
    assert (found.chance < 0.05) == bool(wrong)


def test_tipping_bounds_but_does_not_move_the_cg() -> None:
    """The CG and its uncertainty stay those of the parts."""
    plain, tipped = assessed(), assessed(SMALL, stand(930.0, "tail"))
    for figure in ("balance.cg-x@empty", "balance.mass@full"):
        assert tipped.figure(figure).as_json() == plain.figure(figure).as_json()
