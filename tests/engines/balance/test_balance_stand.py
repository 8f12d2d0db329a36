from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.balance_stand import StandErrors, bounds_from_tipping, levelled
from hardstand.engines.balance.shifts import after_adding

ERRORS = StandErrors(1.0, 2.0, 3.0, 25.0, pad_half_width_mm=2.0)


def test_the_weight_puts_the_common_cg_over_the_stand() -> None:
    """Adding the weight back to the CG found gives the stand's station."""
    found = levelled(1295.0, 80.0, 150.0, 13_340.0, ERRORS)
    assert found.x_mm > 1295.0
    assert after_adding(13_340.0, found.x_mm, 80.0, 150.0).cg_mm == pytest.approx(1295.0)


def test_slopes_and_uncertainty_are_those_of_differences() -> None:
    """Each slope agrees with a difference, and the uncertainty is their root sum of squares."""
    base = np.array([1295.0, 80.0, 150.0, 13_340.0])
    found = levelled(1295.0, 80.0, 150.0, 13_340.0, ERRORS)

    def at(values: np.ndarray) -> float:
        stand, weight, weight_at, mass = values.tolist()
        return levelled(stand, weight, weight_at, mass, ERRORS).x_mm

    slopes = [(at(base + step) - at(base - step)) / 0.02 for step in 0.01 * np.eye(4)]
    stated = [
        found.by_stand,
        found.by_weight_mm_per_g,
        found.by_weight_station,
        found.by_mass_mm_per_g,
    ]
    assert stated == pytest.approx(slopes, abs=1e-7)
    u = [np.hypot(1.0, 2.0 / np.sqrt(3.0)), 2.0, 3.0, 25.0]
    assert found.u_x_mm == pytest.approx(np.sqrt(np.sum((np.array(stated) * u) ** 2)))


def test_a_tip_alone_bounds_one_side() -> None:
    """Tail down on the stand puts the CG behind it and says nothing of the other side."""
    bounds = bounds_from_tipping([1290.0], ["tail"], 1.0, pad_half_width_mm=3.0)
    assert bounds.low_mm == pytest.approx(1285.0)
    assert bounds.high_mm == np.inf


def test_contradictions_and_nonsense_are_refused() -> None:
    """Tips that exclude each other, a missing tip and a massless aeroplane raise."""
    with pytest.raises(ValueError, match="contradict"):
        bounds_from_tipping([1290.0, 1310.0], ["nose", "tail"], 1.0)
    with pytest.raises(ValueError, match="needs one tip"):
        bounds_from_tipping([1290.0, 1310.0], ["nose"], 1.0)
    with pytest.raises(ValueError, match="more than 0 g"):
        levelled(1295.0, 80.0, 150.0, 0.0, ERRORS)
