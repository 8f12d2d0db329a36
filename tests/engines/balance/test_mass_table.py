"""Who is on board in which state, against sums done by hand."""

from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.model import MassTable
from tests.aeroplanes import SMALL, assessed, of_code, swapped

ALL = '"body", "nose", "tail", "tank-main", "gear-nose", "gear-left", "gear-right"'


def table(text: str = SMALL) -> MassTable:
    """The mass table of an aeroplane."""
    found: MassTable = assessed(text).results["balance.masses"]
    return found


def test_sums_by_hand() -> None:
    """Parts 8900 g, fuel 1200 and 240 g, and nothing changes its mass by retracting."""
    np.testing.assert_allclose(table().mass_g.sum(axis=1), [8900.0, 10_100.0, 9140.0])


def test_legs_swing_where_they_are_said_to() -> None:
    """Gear up moves x by the nose leg's 200 g times 130 mm, z by all three legs' swings."""
    one = table(SMALL.replace("fuel_pct = 100", "fuel_pct = 0"))
    moment = np.einsum("sn,sni->si", one.mass_g, one.at_mm)
    shift = moment[1] - moment[0]
    np.testing.assert_allclose(
        shift, [200.0 * 130.0, 0.0, 200.0 * 110.0 + 2.0 * 250.0 * 120.0], atol=1e-6
    )


@pytest.mark.parametrize(
    "off, left", [("gear-nose", 9800.0), ("body", 4100.0), ("tank-main", 8800.0)]
)
def test_what_is_off_weighs_nothing_and_takes_its_own_along(off: str, left: float) -> None:
    """A leg that is off does not swing; a tank that is off takes its fuel with it."""
    one = table(swapped(SMALL, 'id = "full"', f'id = "full"\nwithout = ["{off}"]'))
    assert one.mass_g[1].sum() == pytest.approx(left)
    swings = [n for n, name in enumerate(one.names) if name.startswith("nose-leg")]
    assert np.any(one.mass_g[1, swings]) == (off != "gear-nose")


def test_a_state_that_weighs_nothing_has_no_row() -> None:
    """The other states stay, and it is said which one is left out."""
    found = assessed(swapped(SMALL, 'id = "low"', f'id = "low"\nwithout = [{ALL}]'))
    assert found.results["balance.masses"].state_ids == ("empty", "full")
    assert ("low",) in {one.about for one in of_code(found, "balance.missing")}


def test_the_places_of_a_leg_are_uncertain_too() -> None:
    """What swings is known to the usual tolerance at both ends, and only counts with the gear up."""
    full, empty = (
        dict(assessed().figure(f"balance.cg-x@{one}").parents) for one in ("full", "empty")
    )
    assert full["leg.nose-leg.up_mm.x"] == pytest.approx(200.0 / 10_100.0)
    assert full["leg.nose-leg.down_mm.x"] == pytest.approx(-200.0 / 10_100.0)
    assert "leg.nose-leg.up_mm.x" not in empty
