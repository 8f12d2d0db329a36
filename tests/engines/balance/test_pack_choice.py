from __future__ import annotations

import itertools

import numpy as np
import pytest

from hardstand.engines.balance.pack_choice import choose_packs
from hardstand.engines.balance.pack_places import BallastPlaces, PackPlaces

PACKS = np.array([172.0, 268.0, 198.0, 118.0])
LOW = np.array(
    [[330.0, 333.0, np.nan, 320.0], [330.0, 333.0, np.nan, 320.0], [260.0, np.nan, 255.0, 250.0]]
)
HIGH = LOW + np.array([[68.0, 60.0, 0.0, 80.0]] * 2 + [[30.0, 0.0, 40.0, 60.0]])
STOCK = np.array([2, 2, 1, 2])
BALLAST = BallastPlaces(np.array([2240.0, 80.0]), np.array([300.0, 60.0]))


def _by_hand(fixed_g: float, fixed_cg_mm: float, low: float, high: float) -> float:
    """Return the least ballast that brings any way into its range, by trying fine steps."""
    least = np.inf
    for packs in itertools.product(range(4), repeat=3):
        used = np.bincount(packs, minlength=4)
        if np.any(used > STOCK) or np.any(np.isnan(LOW[range(3), packs])):
            continue
        mass = PACKS[list(packs)]
        for part in np.linspace(0.0, 1.0, 11):
            at = LOW[range(3), packs] + part * (HIGH - LOW)[range(3), packs]
            for place, most in zip(BALLAST.at_mm, BALLAST.most_g, strict=True):
                amount = np.arange(0.0, most + 0.25, 0.25)
                total = fixed_g + mass.sum() + amount
                cg = (fixed_g * fixed_cg_mm + mass @ at + amount * place) / total
                inside = amount[(cg >= low) & (cg <= high)]
                least = min(least, float(inside.min(initial=np.inf)))
    return least


@pytest.mark.parametrize("fixed_cg_mm", [1322.0, 1316.0, 1345.0])
def test_the_least_ballast_is_that_of_trying_everything(fixed_cg_mm: float) -> None:
    """The best way needs no more ballast than a plain search in steps of a quarter gram finds."""
    found = choose_packs(
        12_700.0, fixed_cg_mm, PackPlaces(PACKS, STOCK, LOW, HIGH), BALLAST,
        target_mm=1295.0, range_mm=(1293.0, 1297.0),
    )  # fmt: skip
    by_hand = _by_hand(12_700.0, fixed_cg_mm, 1293.0, 1297.0)
    assert found.admissible[0]
    assert by_hand - 0.26 <= found.ballast_g[0] <= by_hand + 1e-9


def test_every_way_returned_balances_where_it_says() -> None:
    """Putting packs and ballast where a row says gives its CG, mass and distance."""
    places = PackPlaces(PACKS, STOCK, LOW, HIGH, alike=((0, 1),))
    found = choose_packs(
        12_700.0, 1310.0, places, BALLAST, target_mm=1295.0, range_mm=(1291.0, 1299.0)
    )
    mass = PACKS[found.pack]
    at = np.append(BALLAST.at_mm, 0.0)[found.ballast_place]
    total = 12_700.0 + mass.sum(axis=1) + found.ballast_g
    moment = 12_700.0 * 1310.0 + np.sum(mass * found.at_mm, axis=1) + found.ballast_g * at
    assert found.cg_mm == pytest.approx(moment / total)
    assert found.added_g == pytest.approx(total - 12_700.0)
    assert found.distance_mm == pytest.approx(np.abs(found.cg_mm - 1295.0))
    assert np.all(found.pack[:, 0] == found.pack[:, 1])
    rows = np.arange(3)
    assert np.all(found.at_mm >= LOW[rows, found.pack] - 1e-9)
    assert np.all(found.at_mm <= HIGH[rows, found.pack] + 1e-9)
    inside = found.admissible
    assert np.all(np.diff(inside.astype(int)) <= 0)
    assert np.all(np.diff(found.ballast_g[inside]) >= -1e-6)
    assert found.front[0]
    assert not np.any(found.front & ~inside)


def test_without_any_admissible_way_the_nearest_comes_first() -> None:
    """No ballast place and a CG out of reach: the best row is the one nearest to the target."""
    none = BallastPlaces(np.zeros(0), np.zeros(0))
    found = choose_packs(
        12_700.0, 1400.0, PackPlaces(PACKS, STOCK, LOW, HIGH), none,
        target_mm=1295.0, range_mm=(1293.0, 1297.0),
    )  # fmt: skip
    assert not np.any(found.admissible)
    assert found.distance_mm[0] == pytest.approx(found.distance_mm.min())
    assert np.all(found.ballast_place == -1)
    assert np.any(found.front)


def test_a_target_outside_its_range_is_refused() -> None:
    """The target must be one that the range allows."""
    with pytest.raises(ValueError, match="outside its range"):
        choose_packs(
            12_700.0, 1300.0, PackPlaces(PACKS, STOCK, LOW, HIGH), BALLAST,
            target_mm=1300.0, range_mm=(1293.0, 1297.0),
        )  # fmt: skip
