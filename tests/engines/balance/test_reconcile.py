from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.build_up import (
    BuildUp,
    build_up,
    observed_items,
    observed_weigh_in,
    together,
)
from hardstand.engines.balance.reconcile import (
    chi_square_chance,
    chi_square_limit,
    innovation_covariance,
    reconcile,
)


def _prior(seed: int = 0) -> BuildUp:
    """Return 30 items of an aeroplane, 20 of them weighed with one tare."""
    rng = np.random.default_rng(seed)
    mass = np.exp(rng.uniform(np.log(20), np.log(2700), 30))
    at = np.column_stack([rng.uniform(100, 2200, 30), rng.normal(0, 200, 30)])
    common = np.zeros((1, 30))
    common[0, :20] = 1.5
    return build_up(mass, at, 2.0 + 0.005 * mass, np.full(30, 2.0), common)


WEIGHING = np.array([[75.0, -0.5, 0.0], [-0.5, 1.9, 0.1], [0.0, 0.1, 0.6]])


def test_it_is_the_whitened_least_squares_solution() -> None:
    """Prior and measurements stacked, whitened and solved by numpy and scipy give the same."""
    linalg = pytest.importorskip("scipy.linalg")
    prior = _prior()
    x, y = prior.cg_mm.tolist()
    seen = together(
        observed_weigh_in(prior, prior.total_g + 30.0, x + 3.0, y - 1.0, WEIGHING),
        observed_items(prior, [4, 7], prior.mass_g[[4, 7]] + [6.0, -9.0], [1.0, 2.0]),
    )
    found = reconcile(prior, seen)
    white_prior = np.linalg.inv(np.linalg.cholesky(prior.covariance))
    white_seen = np.linalg.inv(np.linalg.cholesky(seen.covariance))
    system = np.vstack([white_prior, white_seen @ seen.matrix])
    right = np.concatenate([np.zeros(90), white_seen @ seen.residual])
    for step in (np.linalg.lstsq(system, right, rcond=None)[0], linalg.lstsq(system, right)[0]):
        assert found.after.mass_g == pytest.approx(prior.mass_g + step[:30], abs=1e-7)
        assert found.after.at_mm == pytest.approx(prior.at_mm + step[30:].reshape(2, 30).T)
        # The minimum of the sum of squares is the innovation's chi-square.
        assert found.chi_square == pytest.approx(np.sum((system @ step - right) ** 2))
    assert found.after.covariance == pytest.approx(np.linalg.inv(system.T @ system), abs=1e-6)


def test_a_perfect_weighing_is_believed_and_a_hopeless_one_is_not() -> None:
    """The updated total follows the better of build-up and weighing."""
    prior = _prior()
    x, y = (prior.cg_mm + np.array([2.0, 0.5])).tolist()
    for covariance, expected in ((1e-8, x), (1e8, prior.cg_mm[0])):
        seen = observed_weigh_in(prior, prior.total_g + 20.0, x, y, np.eye(3) * covariance)
        assert reconcile(prior, seen).cg_mm[0] == pytest.approx(expected, abs=2e-3)


def test_the_updated_cg_is_at_least_as_sure_as_either_alone() -> None:
    """Its variance lies below the build-up's and below the weighing's."""
    prior = _prior()
    x, y = prior.cg_mm.tolist()
    seen = observed_weigh_in(prior, prior.total_g, x, y, WEIGHING)
    found = reconcile(prior, seen)
    alone = reconcile(prior, observed_weigh_in(prior, prior.total_g, x, y, 1e9 * WEIGHING))
    for axis in range(3):
        after = found.covariance_whole[axis, axis]
        assert after < alone.covariance_whole[axis, axis]
        assert after < WEIGHING[axis, axis] * 1.0001


def test_chi_square_is_as_big_as_it_should_be_when_nothing_is_wrong() -> None:
    """Over 2 000 sound aeroplanes the innovation exceeds its 5 % limit in about 5 % of cases."""
    prior, rng, alarms = _prior(), np.random.default_rng(8), 0
    limit = chi_square_limit(0.05, 3)
    root = np.linalg.cholesky(prior.covariance)
    for _ in range(2_000):
        draw = root @ rng.normal(size=90)
        mass, at = prior.mass_g + draw[:30], prior.at_mm + draw[30:].reshape(2, 30).T
        total = mass.sum()
        g, x, y = rng.multivariate_normal([total, *(mass @ at / total)], WEIGHING).tolist()
        seen = observed_weigh_in(prior, g, x, y, WEIGHING)
        spread = innovation_covariance(prior, seen)
        alarms += int(seen.residual @ np.linalg.solve(spread, seen.residual) > limit)
    # Five standard deviations of a count of 2 000 at 5 %.
    assert abs(alarms - 100) < 5 * np.sqrt(95)


def test_limit_and_chance_are_each_other_turned_round() -> None:
    """The chance of exceeding the limit for a chance is that chance; without freedom it is sure."""
    for degrees in (1, 3, 7):
        limit = chi_square_limit(0.01, degrees)
        assert chi_square_chance(limit, degrees) == pytest.approx(0.01)
    assert chi_square_chance(0.0, 0) == 1.0
