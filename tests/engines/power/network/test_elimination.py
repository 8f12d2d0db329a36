"""Eliminating in an order laid down beforehand, against a dense solver."""

from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.power.network.elimination import eliminate, plan


@pytest.mark.parametrize("seed", range(8))
def test_the_same_as_a_dense_solver(seed: int) -> None:
    """For random meshed networks with unsymmetrical entries, each case is what numpy finds."""
    random = np.random.default_rng(seed)
    count, cases = int(random.integers(2, 25)), 7
    pairs = [(int(a), int(b)) for a, b in random.integers(0, count + 1, (2 * count, 2))]
    laid = plan(count, pairs)
    dense = np.zeros((cases, count, count))
    for row, column in laid.at:
        values = random.uniform(0.1, 1.0, cases)
        dense[:, row, column] = values if row == column else -values
    dense[:, range(count), range(count)] += np.abs(dense).sum(axis=1)  # columns dominated
    right = random.uniform(-1.0, 1.0, (cases, count))
    solved = eliminate(
        laid.steps,
        [dense[:, row, column] for row, column in laid.at],
        list(right.T),
    )
    expected = np.linalg.solve(dense, right[..., None])[..., 0]
    np.testing.assert_allclose(np.array(solved).T, expected, rtol=1e-9)


def test_what_all_cases_share_stays_shared() -> None:
    """Entries that are the same in all cases are not blown up to the number of cases."""
    laid = plan(3, [(0, 1), (1, 2)], {2})
    matrix = [np.array([3.0 if row == column else -1.0]) for row, column in laid.at]
    right = [np.zeros(1), np.zeros(1), np.linspace(0.0, 1.0, 50)]
    eliminate(laid.steps, matrix, right)
    assert all(len(entry) == 1 for entry in matrix)


def test_a_tree_fills_nothing() -> None:
    """A network without loops needs no entry besides its own."""
    pairs = [(at, (at - 1) // 3) for at in range(1, 200)]
    assert len(plan(200, pairs).at) == 200 + 2 * len(pairs)
