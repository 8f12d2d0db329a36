from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.moments import roll_up, sensitivity
from hardstand.engines.balance.uncertainty import next_measurement, propagate


def _aeroplane() -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return 40 masses of 20 to 2700 g with their places and standard uncertainties."""
    rng = np.random.default_rng(20)
    mass = np.exp(rng.uniform(np.log(20), np.log(2700), 40))
    at = np.column_stack(
        [rng.uniform(100, 2200, 40), rng.normal(0, 150, 40), rng.normal(0, 60, 40)]
    )
    return mass, at, np.concatenate([2.0 + 0.005 * mass, np.full(120, 2.0)])


def test_sampling_agrees_with_first_order() -> None:
    """40 000 random aeroplanes scatter as propagated, within five times the sampling error."""
    mass, at, u = _aeroplane()
    common = np.zeros((1, 160))
    common[0, :25] = 3.0
    figures = propagate(sensitivity(mass, at, np.ones((1, 40))).matrix(), u, common)
    rng, trials = np.random.default_rng(5), 40_000
    draw = rng.normal(size=(trials, 160)) * u + rng.normal(size=(trials, 1)) @ common
    sampled = roll_up(
        mass + draw[:, :40],
        at + draw[:, 40:].reshape(trials, 3, 40).transpose(0, 2, 1),
        np.ones((trials, 40)),
    )
    seen = np.cov(np.column_stack([sampled.mass_g, sampled.cg_mm]).T)
    sampling_error = 5.0 / np.sqrt(2.0 * trials)
    assert np.sqrt(np.diag(seen)) == pytest.approx(figures.u[0], rel=sampling_error)
    correlation = seen / np.sqrt(np.outer(np.diag(seen), np.diag(seen)))
    stated = figures.covariance[0] / np.outer(figures.u[0], figures.u[0])
    assert correlation == pytest.approx(stated, abs=5.0 / np.sqrt(trials))


def test_a_shared_offset_adds_up_and_independent_errors_do_not() -> None:
    """Nine weighings sharing a 2 g tare error are 18 g out together, independent ones 6 g."""
    ones = np.ones((1, 9))
    assert propagate(ones, np.zeros(9), 2.0 * ones).u[0] == pytest.approx(18.0)
    assert propagate(ones, np.full(9, 2.0)).u[0] == pytest.approx(6.0)


def test_next_measurement_keeps_its_promise() -> None:
    """The uncertainty foretold for each measurement is what propagating with it gives."""
    mass, at, u = _aeroplane()
    row = sensitivity(mass, at, np.ones((1, 40))).matrix()[0, 1]
    common = np.zeros((1, 160))
    common[0, :25] = 3.0
    found = next_measurement(row, u, np.full(160, 1.0), common)
    assert found.u_now == pytest.approx(propagate(row[None], u, common).u[0])
    for item in (*found.order[:3].tolist(), 3, 60):
        better, without = u.copy(), common.copy()
        better[item], without[0, item] = 1.0, 0.0
        assert found.u_after[item] == pytest.approx(propagate(row[None], better, without).u[0])
    assert np.argmin(found.u_after) == found.order[0]


def test_work_turns_the_order_round_and_a_worse_scale_gains_nothing() -> None:
    """Gain per second decides where times are given; a worse scale than before gains nothing."""
    quick = next_measurement([1.0, 1.0], [3.0, 2.0], [0.0, 0.0], work_s=[600.0, 60.0])
    assert quick.order.tolist() == [1, 0]
    worse = next_measurement([1.0, 1.0], [3.0, 2.0], [5.0, 5.0], common=[[1.0, 1.0]])
    assert worse.variance_removed.tolist() == [0.0, 0.0]
