from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.build_up import (
    build_up,
    observed_items,
    observed_weigh_in,
    together,
)


def test_the_weigh_in_rows_are_the_slopes_of_the_moments() -> None:
    """Mass and moments about the build-up's CG change with each entry as the matrix says."""
    rng = np.random.default_rng(1)
    mass, at = rng.uniform(20, 900, 6), rng.normal(800, 400, (6, 2))
    prior = build_up(mass, at, np.full(6, 2.0), np.full(6, 2.0))
    x, y = prior.cg_mm.tolist()
    seen = observed_weigh_in(prior, prior.total_g, x, y, np.eye(3))
    assert seen.residual == pytest.approx(np.zeros(3), abs=1e-9)

    def values(theta: np.ndarray) -> np.ndarray:
        m, r = theta[:6], theta[6:].reshape(2, 6).T - prior.cg_mm
        return np.concatenate([[m.sum()], m @ r])

    theta = np.concatenate([mass, at[:, 0], at[:, 1]])
    for column in range(18):
        step = np.eye(18)[column]
        slope = 0.5 * (values(theta + step) - values(theta - step))
        assert seen.matrix[:, column] == pytest.approx(slope, abs=1e-7)


def test_the_covariance_of_moments_follows_from_that_of_the_cg() -> None:
    """Sampled (mass, x, y) turned into moments scatter as the rows' covariance states."""
    prior = build_up([500.0, 700.0], [[0, 20], [900, -10]], [2.0, 3.0], [2.0, 2.0])
    covariance = np.array([[25.0, 1.0, 0.5], [1.0, 2.0, 0.3], [0.5, 0.3, 0.4]])
    x, y = (prior.cg_mm + np.array([6.0, -2.0])).tolist()
    seen = observed_weigh_in(prior, 1210.0, x, y, covariance)
    draw = np.random.default_rng(4).multivariate_normal([1210.0, x, y], covariance, 50_000)
    moments = np.column_stack([draw[:, 0], draw[:, :1] * (draw[:, 1:] - prior.cg_mm)])
    sampled, u = np.cov(moments.T), np.sqrt(np.diag(seen.covariance))
    assert sampled / np.outer(u, u) == pytest.approx(seen.covariance / np.outer(u, u), abs=0.03)


def test_observations_put_together_keep_their_order_and_independence() -> None:
    """Rows of two observations follow one another without covariance between them."""
    prior = build_up([500.0, 700.0], [[0, 0], [900, 0]], [2.0, 3.0], [2.0, 2.0])
    whole = observed_weigh_in(prior, 1210.0, 530.0, float("nan"), np.eye(3))
    item = observed_items(prior, [1], [705.0], [0.5])
    both = together(whole, item)
    assert both.residual.tolist() == [*whole.residual.tolist(), 5.0]
    assert both.covariance[2].tolist() == [0.0, 0.0, 0.25]
    assert both.matrix.shape == (3, 6)


def test_shared_offsets_tie_masses_together() -> None:
    """A tare error of 2 g on two weighings gives them a covariance of 4 g squared."""
    prior = build_up(
        [500.0, 700.0, 9.0], np.zeros((3, 2)), [3.0, 3.0, 1.0], [[1.0, 2.0]] * 3, [[2.0, 2.0, 0.0]]
    )
    assert prior.covariance[0, :3].tolist() == [13.0, 4.0, 0.0]
    assert prior.u[3:].tolist() == [1.0, 1.0, 1.0, 2.0, 2.0, 2.0]
