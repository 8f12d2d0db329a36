from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.build_up import BuildUp, Observations, build_up, observed_weigh_in
from hardstand.engines.balance.reconcile import reconcile
from hardstand.engines.balance.slips import (
    Slip,
    fixed_slips,
    item_slips,
    measuring_slip,
    missing_item_slip,
    offset_slip,
)
from hardstand.engines.balance.suspects import Suspect, rank_suspects, residual_station_mm

MASS = np.array(
    [172, 198, 118, 268, 30, 92, 105, 168, 1378, 392, 548, 652, 652, 2760, 884, 896, 305, 372, 236]
).astype(float)
X = [398, 284, 398, 598, 1172, 880, 930, 1310, 1668, 2075, 575, 1392, 1392, 1302, 1352, 1352]
Y = [-44, 0, 40, 0, 0, 0, -60, -78, 0, 0, 0, -300, 300, 0, -455, 455, 0, 0, 0]
AT = np.array([[*X, 2070, 690, 1480], Y]).T.astype(float)
WEIGHING = np.diag([5.0**2 * 3, 1.0, 0.4])
LEVEL_MM_PER_DEG = -5.4


def _prior(mass: np.ndarray = MASS, at: np.ndarray = AT) -> BuildUp:
    """Return what was written down for the items."""
    return build_up(mass, at, 1.0 + 0.003 * mass, np.full(len(mass), 2.0))


def _slips(prior: BuildUp, seen: Observations) -> list[Slip]:
    """Return every slip the search knows."""
    level = np.array([0.0, prior.total_g * LEVEL_MM_PER_DEG, 0.0])
    return [
        *item_slips(prior, seen),
        *fixed_slips(prior, seen),
        offset_slip(seen, range(len(prior.mass_g)), 2.0),
        measuring_slip("level", "deg", level, 0.2),
        missing_item_slip(prior, seen),
    ]


def _search(
    entered_g: np.ndarray, entered_mm: np.ndarray, shift_mm: float = 0.0, extra_g: float = 0.0
) -> list[Suspect]:
    """Weigh the true aeroplane (its exact figures) and search the entries for the slip."""
    true = _prior(MASS + extra_g)
    prior = _prior(entered_g, entered_mm)
    x_mm, y_mm = true.cg_mm.tolist()
    seen = observed_weigh_in(prior, true.total_g, x_mm + shift_mm, y_mm, WEIGHING)
    return rank_suspects(prior, seen, _slips(prior, seen), first=8)


def test_a_wrong_mass_is_found_with_its_size() -> None:
    """A pack entered 100 g too light stands among the first, with 100 g as its implied error."""
    entered = MASS.copy()
    entered[3] -= 100.0
    found = {(s.kind, s.item): s for s in _search(entered, AT)}
    suspect = found["mass", 3]
    assert suspect.size == pytest.approx(100.0, abs=1.0)
    assert suspect.size_over_u == pytest.approx(100.0 / (1.0 + 0.003 * 168.0), rel=0.02)
    assert suspect.chi_square_left < 0.1
    assert suspect.log_odds > 10.0


def test_a_wrong_station_is_found_with_its_size() -> None:
    """A turbine entered 90 mm too far forward: few items could move the CG like that."""
    entered = AT.copy()
    entered[8, 0] -= 90.0
    found = {(s.kind, s.item): s for s in _search(MASS, entered)}
    assert found["place along x", 8].size == pytest.approx(90.0, abs=1.0)


def test_an_item_counted_twice_beats_all_slips_of_free_size() -> None:
    """A main gear leg that is in the list a second time is named first, with its own mass."""
    best = _search(np.append(MASS, 652.0), np.vstack([AT, [1392, 300]]))[0]
    assert best.kind == "counted twice"
    assert best.item in (12, 19)
    assert best.size == -652.0


def test_an_item_in_ounces_is_named() -> None:
    """A fin of 305 g entered as 10.76 (ounces) is put down to the unit."""
    entered = MASS.copy()
    entered[16] = 305.0 / 28.349523125
    best = _search(entered, AT)[0]
    assert (best.kind, best.item) == ("ounces entered as grams", 16)


def test_a_wing_entered_on_the_other_side_is_named() -> None:
    """Two wings on one side give a lateral residual that only a changed side explains exactly."""
    entered = AT.copy()
    entered[14, 1] = 455.0
    best = _search(MASS, entered)[0]
    assert best.kind == "place on the other side"
    assert best.item in (14, 15)


def test_a_level_error_is_found() -> None:
    """An aeroplane weighed 2 degrees nose down has a residual along x without one in mass or y."""
    found = {s.kind: s for s in _search(MASS, AT, shift_mm=2.0 * LEVEL_MM_PER_DEG)}
    assert found["level"].size == pytest.approx(2.0, abs=0.05)


def test_a_tare_error_shows_in_every_weighing() -> None:
    """All 19 items weighed 12 g light: the shared offset is first and gives the 12 g."""
    best = _search(MASS, AT, extra_g=12.0)[0]
    assert best.kind == "scale offset"
    assert best.size == pytest.approx(12.0, abs=0.2)


def test_a_missing_item_is_placed_where_it_is() -> None:
    """Leaving an item out of the list gives its mass, and the residual station its place."""
    keep = np.arange(len(MASS)) != 9
    prior, true = _prior(MASS[keep], AT[keep]), _prior()
    x_mm, y_mm = true.cg_mm.tolist()
    seen = observed_weigh_in(prior, true.total_g, x_mm, y_mm, WEIGHING)
    found = rank_suspects(prior, seen, _slips(prior, seen), first=3)
    assert found[0].kind == "missing item"
    assert found[0].size == pytest.approx(392.0)
    station = residual_station_mm(prior.total_g, prior.cg_mm[0], true.total_g, true.cg_mm[0])
    assert station == pytest.approx(2075.0)
    with pytest.raises(ValueError, match="equal masses"):
        residual_station_mm(10.0, 1.0, 10.0, 2.0)


def test_the_gain_is_what_freeing_that_entry_takes_off_chi_square() -> None:
    """Giving an item's mass a boundless prior lowers the innovation's chi-square by its gain."""
    entered = MASS.copy()
    entered[5] += 60.0
    prior, true = _prior(entered), _prior()
    x_mm, y_mm = true.cg_mm.tolist()
    seen = observed_weigh_in(prior, true.total_g, x_mm, y_mm, WEIGHING)
    chi_square = reconcile(prior, seen).chi_square
    for suspect in rank_suspects(prior, seen, item_slips(prior, seen), first=12):
        column = suspect.item + {"mass": 0, "place along x": 19, "place along y": 38}[suspect.kind]
        free = prior.covariance.copy()
        free[column, column] = 1e12
        freed = reconcile(BuildUp(prior.mass_g, prior.at_mm, free), seen)
        assert suspect.chi_square_left == pytest.approx(freed.chi_square, abs=1e-3)
        assert suspect.gain == pytest.approx(chi_square - suspect.chi_square_left)
        assert suspect.u_size > 0.0
        change = np.concatenate([freed.after.mass_g, *freed.after.at_mm.T])[column]
        before = np.concatenate([prior.mass_g, *prior.at_mm.T])[column]
        assert suspect.size == pytest.approx(change - before, rel=1e-4, abs=1e-3)


def test_nothing_wrong_gives_no_odds_for_any_slip() -> None:
    """With build-up and weighing in agreement no slip is likelier than none."""
    assert all(s.log_odds <= 1e-9 for s in _search(MASS, AT))
