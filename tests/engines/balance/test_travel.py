from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.model import Travel
from tests.aeroplanes import SMALL, WEIGHED, assessed, swapped, without_rows

AFT = swapped(SMALL, "at_mm = [960, 0, 20]", "at_mm = [1300, 0, 20]")
BOTH = AFT + '[[state]]\nid = "take-off"\nfuel_pct = 100\n'
TRAP = """
[[item]]
id = "trap"
part = "main-tank"
at_mm = [500, 0, 20]
mass_g = 20
[[tank]]
id = "trap"
item = "trap"
capacity_ml = 100
header = true
"""


def travel(text: str, measurements: str = "") -> Travel:
    """The travel of an aeroplane's CG."""
    found: Travel = assessed(text, measurements).results["balance.travel"]
    return found


@pytest.mark.parametrize("measurements", ["", WEIGHED.format(nose=1085, left=3935, right=3925)])
def test_the_locus_runs_through_the_described_states(measurements: str) -> None:
    """At full and at the reserve of 20 % it is where those states are, weighed or not."""
    found = assessed(BOTH, measurements)
    up, down = travel(BOTH, measurements).loci
    assert (up.gear, up.base, down.gear, down.base) == ("up", "full", "down", "take-off")
    for state, step in (("full", 0), ("low", up.flown - 1)):
        row = found.results["balance.headline"].row(state)
        np.testing.assert_allclose(
            up.cg_mm[step], found.results["balance.headline"].cg_mm[row], rtol=1e-9
        )
    assert down.mass_g[0] == pytest.approx(found.figure("balance.mass@take-off").value)


def test_the_travel_is_between_the_ends_in_flight() -> None:
    """A tank behind the CG empties: foremost at the reserve, aftmost full, nothing below counts."""
    (locus,) = travel(AFT).loci
    assert (locus.flown, locus.foremost, locus.aftmost) == (21, 20, 0)
    assert locus.travel_mm == pytest.approx(locus.cg_mm[0, 0] - locus.cg_mm[20, 0])
    assert locus.cg_mm[-1, 0] < locus.cg_mm[20, 0]
    assert locus.aft_mm is not None
    assert locus.mac_pct is not None
    figures = travel(AFT).figures
    assert figures.figure("balance.fuel-travel-mm@gear-up").value == pytest.approx(locus.travel_mm)
    share = locus.mac_pct[0] - locus.mac_pct[20]
    assert figures.figure("balance.fuel-travel@gear-up").value == pytest.approx(share)


def test_what_both_ends_share_cancels() -> None:
    """The travel is far better known than the CG itself, and its slope by the tank is a difference."""
    found = assessed(AFT)
    figure = found.figure("balance.fuel-travel-mm@gear-up")
    assert figure.u < 0.25 * found.figure("balance.cg-x@full").u
    slope = dict(figure.parents)["item.tank-main.mass_centre_mm.x"]
    ends = [
        travel(swapped(SMALL, "at_mm = [960, 0, 20]", f"at_mm = [{x}, 0, 20]")).loci[0].travel_mm
        for x in (1299.5, 1300.5)
    ]
    assert slope == pytest.approx(ends[1] - ends[0], rel=1e-3)


def test_the_header_is_last() -> None:
    """A trap in the nose stays full until the main tank is dry: then the CG goes aft."""
    (locus,) = travel(AFT + TRAP).loci
    dry = int(np.argmax(locus.fuel_pct == 0.0))
    assert np.all(locus.fuel_g[: dry + 1] >= 100.0 * 0.8 - 1e-9)
    assert locus.fuel_g[-1] == 0.0
    assert np.all(np.diff(locus.cg_mm[: dry + 1, 0]) < 0.0)
    assert np.all(np.diff(locus.cg_mm[dry:, 0]) > 0.0)


def test_without_fuel_or_without_a_wing() -> None:
    """Nothing to burn: no travel. No mean chord: millimetres only."""
    assert assessed(without_rows(SMALL, "tank")).results["balance.travel"] is None
    found = travel(without_rows(SMALL, "panel"))
    assert found.figures.addresses == ("balance.fuel-travel-mm@gear-up",)
    assert found.loci[0].mac_pct is None
