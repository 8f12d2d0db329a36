from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fuel.emptying import share_out


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
