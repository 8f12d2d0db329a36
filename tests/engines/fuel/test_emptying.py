from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fuel.emptying import Tank, share_out, tanks_state
from hardstand.engines.fuel.level import up_direction
from hardstand.engines.fuel.solids import box, cylinder


@given(st.lists(st.floats(0.0, 1.0), min_size=1, max_size=10))
def test_shares_add_up_and_empty_in_order(fractions: list[float]) -> None:
    """Shares sum to the total; equal numbers keep equal fractions; no tank empties out of turn."""
    capacity = np.array([140.0, 1650.0, 1200.0, 500.0])
    total = np.array(fractions) * capacity.sum()
    volume = share_out(total, capacity, [1, 1, 1, 2], [True, False, False, False])
    filled = volume / capacity
    assert volume.sum(axis=1) == pytest.approx(total, abs=1e-9)
    assert filled[:, 1] == pytest.approx(filled[:, 2], abs=1e-12)
    first, second, header = filled[:, 1] > 0.0, filled[:, 3], filled[:, 0]
    assert np.all(second[first] >= 1.0 - 1e-12)
    assert np.all(header[second > 0.0] >= 1.0 - 1e-12)


def test_headers_stay_full_until_the_last() -> None:
    """A trap with the lowest number of all is still the last to empty, because it is a header."""
    volume = share_out([340.0, 140.0, 70.0], [200.0, 140.0], [5, 1], [False, True])
    assert volume.tolist() == [[200.0, 140.0], [0.0, 140.0], [0.0, 70.0]]


@pytest.mark.parametrize("total_ml", [-1.0, 341.0, float("nan")])
def test_fuel_that_cannot_be_on_board_is_refused(total_ml: float) -> None:
    """A total below nothing, above all tanks or not a number raises."""
    with pytest.raises(ValueError, match=r"between 0 and 340\.0 ml"):
        share_out([total_ml], [200.0, 140.0], [1, 2], [False, False])


def test_level_tanks_give_the_masses_and_middles_of_the_fills() -> None:
    """Level box tanks and a trap: masses and heights follow from base area and volume."""
    tanks = [
        Tank(box([330.0, 80.0, 62.5]).moved([1310.0, -78.0, 25.0]), 1),
        Tank(box([330.0, 80.0, 62.5]).moved([1310.0, 78.0, 25.0]), 1),
        Tank(cylinder(60.0, 50.0, axis=2).moved([1010.0, 0.0, 15.0]), 2, header=True),
    ]
    trap_ml = np.pi * 30.0**2 * 50.0 / 1000.0
    state = tanks_state([trap_ml, 1650.0 + trap_ml, 3300.0 + trap_ml], tanks, [0, 0, 1], 0.802)
    assert state.mass_g[:, 0] == pytest.approx([0.0, 825.0 * 0.802, 1650.0 * 0.802])
    assert state.mass_g[:, 2] == pytest.approx(trap_ml * 0.802)
    assert state.centroid_mm[:, 0, 2] == pytest.approx([-6.25, 9.375, 25.0], abs=1e-5)
    assert state.level_mm[1, :2] == pytest.approx([25.0, 25.0])
    assert state.inertia_kgm2.shape == (3, 3, 3, 3)


def test_nose_up_moves_the_fuel_aft_in_part_filled_tanks_only() -> None:
    """Full and empty tanks don't care about the attitude; a part-filled one does."""
    tanks = [Tank(box([330.0, 80.0, 60.0]), 1)]
    level, raised = (
        tanks_state([300.0, 1584.0], tanks, up_direction(p), 0.8).centroid_mm[:, 0, 0]
        for p in (0.0, 6.0)
    )
    assert raised[0] > level[0] + 20.0
    assert raised[1] == pytest.approx(level[1], abs=1e-6)
