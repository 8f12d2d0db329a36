from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.shifts import (
    after_adding,
    after_moving,
    after_removing,
    after_swapping,
    ballast_to_reach_g,
    distance_to_move_mm,
    mass_to_move_g,
)

MASS = st.floats(1000.0, 30_000.0)
STATION = st.floats(-500.0, 2500.0)


@given(MASS, STATION, STATION, STATION)
def test_the_ballast_found_brings_the_cg_to_the_target(
    mass_g: float, cg_mm: float, target_mm: float, at_mm: float
) -> None:
    """Adding it back gives the target exactly; infinity stands only where the side is wrong."""
    ballast = float(ballast_to_reach_g(mass_g, cg_mm, target_mm, at_mm))
    if np.isfinite(ballast) and ballast < 1e9:
        assert after_adding(mass_g, cg_mm, ballast, at_mm).cg_mm == pytest.approx(
            target_mm, abs=1e-6
        )
    elif not np.isfinite(ballast):
        # or where the place is so near to the target that the ballast is beyond all numbers
        wrong_side = (target_mm - cg_mm) * (at_mm - target_mm) <= 0.0
        assert wrong_side or abs(at_mm - target_mm) < 1e-290


@given(MASS, STATION, STATION, st.floats(10.0, 900.0), STATION)
def test_the_moves_found_bring_the_cg_to_the_target(
    mass_g: float, cg_mm: float, target_mm: float, moved_g: float, from_mm: float
) -> None:
    """Moving one mass by the distance found, or the mass found over that distance, does it."""
    distance = float(distance_to_move_mm(mass_g, cg_mm, target_mm, moved_g))
    to_mm = from_mm + distance
    assert after_moving(mass_g, cg_mm, moved_g, from_mm, to_mm).cg_mm == pytest.approx(
        target_mm, abs=1e-6
    )
    if abs(distance) > 1.0:
        again = mass_to_move_g(mass_g, cg_mm, target_mm, from_mm, to_mm)
        assert again == pytest.approx(moved_g, rel=1e-6)


def test_removing_undoes_adding_and_swapping_is_both() -> None:
    """Taking out what was put in gives the first balance again, in batch."""
    stations = np.linspace(-300.0, 2200.0, 11)
    added = after_adding(13_000.0, 250.0, 180.0, stations)
    back = after_removing(added.mass_g, added.cg_mm, 180.0, stations)
    assert back.mass_g == pytest.approx(np.full(11, 13_000.0))
    assert back.cg_mm == pytest.approx(np.full(11, 250.0))
    step = after_removing(13_000.0, 250.0, 268.0, -715.0)
    both = after_adding(step.mass_g, step.cg_mm, 172.0, -647.0)
    swapped = after_swapping(13_000.0, 250.0, 268.0, -715.0, 172.0, -647.0)
    assert swapped.cg_mm == pytest.approx(both.cg_mm)


def test_impossible_changes_are_told() -> None:
    """Wrong side and zero arm give infinity, an empty aeroplane raises, no need gives 0."""
    assert ballast_to_reach_g(1000.0, 10.0, 20.0, [15.0, 20.0, 30.0]).tolist() == [
        np.inf,
        np.inf,
        1000.0,
    ]
    assert mass_to_move_g(1000.0, 10.0, 20.0, 5.0, [0.0, 5.0]).tolist() == [np.inf, np.inf]
    assert ballast_to_reach_g(1000.0, 20.0, 20.0, 20.0) == 0.0
    assert distance_to_move_mm(1000.0, 10.0, 20.0, 0.0) == np.inf
    with pytest.raises(ValueError, match="leaves no mass"):
        after_removing(100.0, 0.0, 100.0, 5.0)
