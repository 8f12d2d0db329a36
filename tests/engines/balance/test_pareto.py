from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.pareto import pareto_front


@given(st.lists(st.tuples(*[st.integers(0, 6)] * 3), min_size=1, max_size=40))
def test_the_front_is_that_of_the_definition(rows: list[tuple[int, int, int]]) -> None:
    """A row is on the front exactly when no other row is as low everywhere and lower somewhere."""
    values = np.array(rows, dtype=float)
    expected = [
        not any(np.all(other <= row) and np.any(other < row) for other in values) for row in values
    ]
    assert pareto_front(values).tolist() == expected


def test_rows_without_a_finite_cost_are_left_out() -> None:
    """An infinity keeps a row off the front, even alone."""
    assert pareto_front([[np.inf, 0.0], [1.0, 1.0]]).tolist() == [False, True]
