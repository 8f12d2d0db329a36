from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.weighing import WeighingErrors, weigh_in

CONTACTS = np.array([[560.0, 0.0, -314.0], [1392.0, -300.0, -314.0], [1392.0, 300.0, -314.0]])
READINGS = np.array([1565.0, 5905.0, 5890.0])
ERRORS = WeighingErrors(5.0, 1.0, 6.0, 0.2, u_offset_g=2.0)


def test_sampling_agrees_with_the_stated_covariance() -> None:
    """8 000 weighings with drawn errors scatter in mass, x and y as the covariance says."""
    rng, trials = np.random.default_rng(11), 8_000
    pitch_deg, roll_deg = 1.5, -0.5
    stated = weigh_in(READINGS, CONTACTS, -6.0, ERRORS, pitch_deg=pitch_deg, roll_deg=roll_deg)
    results = np.empty((trials, 3))
    for trial in range(trials):
        contact = CONTACTS.copy()
        contact[:, :2] += rng.normal(0.0, 1.0, (3, 2))
        found = weigh_in(
            READINGS + rng.normal(0.0, 5.0, 3) + rng.normal(0.0, 2.0),
            contact,
            -6.0 + rng.normal(0.0, 6.0),
            ERRORS,
            pitch_deg=pitch_deg + rng.normal(0.0, 0.2),
            roll_deg=roll_deg + rng.normal(0.0, 0.2),
        )
        results[trial] = found.mass_g, found.x_mm, found.y_mm
    seen = np.cov(results.T)
    u = np.sqrt(np.diag(stated.covariance))
    assert np.sqrt(np.diag(seen)) == pytest.approx(u, rel=5.0 / np.sqrt(2 * trials))
    assert seen / np.outer(u, u) == pytest.approx(
        stated.covariance / np.outer(u, u), abs=8.0 / np.sqrt(trials)
    )
    assert (stated.u_mass_g, stated.u_x_mm, stated.u_y_mm) == pytest.approx(tuple(u))


def test_a_degree_of_nose_down_moves_the_uncorrected_answer_forward() -> None:
    """With the CG 311 mm above the wheels one degree is 5.4 mm; stating it puts the answer back."""
    level = weigh_in(READINGS, CONTACTS, -3.0, ERRORS)
    tilted = weigh_in(READINGS, CONTACTS, -3.0, ERRORS, pitch_deg=-1.0)
    assert tilted.x_mm - level.x_mm == pytest.approx(5.43, abs=0.005)
    assert level.by_level_mm_per_deg[0, 0] == pytest.approx(-5.43, abs=0.005)


def test_two_scales_give_x_and_leave_y_open() -> None:
    """With both main wheels on one scale x is as with three scales and y is nan."""
    three = weigh_in(READINGS, CONTACTS, -6.0, ERRORS)
    two = weigh_in([1565.0, 11_795.0], [[560.0, 0.0, -314.0], [1392.0, 0.0, -314.0]], -6.0, ERRORS)
    assert two.x_mm == pytest.approx(three.x_mm)
    assert np.isnan(two.y_mm)
    assert np.isnan(two.u_y_mm)
    assert np.isfinite(two.u_x_mm)


def test_scales_at_one_station_are_refused() -> None:
    """Two scales under one station can't tell where the CG is."""
    with pytest.raises(ValueError, match="two different stations"):
        weigh_in([10.0, 10.0], [[5.0, -1.0, 0.0], [5.0, 1.0, 0.0]], 1.0, ERRORS)
