"""The bends that laws are made of, against a library and against their own slopes."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray

from hardstand.engines.power.network import smooth

Floats = NDArray[np.float64]


@pytest.mark.parametrize("function", [smooth.bend, smooth.step, smooth.rise, smooth.omega])
def test_slopes_are_slopes(function: Callable[[Floats], tuple[Floats, Floats]]) -> None:
    """The second value is what differences of the first one give, away from corners of the slope."""
    x = np.linspace(-20.0, 20.0, 4001)
    x = x[(np.abs(x) > 1e-3) & (np.abs(x - 1.0) > 1e-3)]
    above, below = function(x + 1e-6)[0], function(x - 1e-6)[0]
    assert function(x)[1] == pytest.approx((above - below) / 2e-6, rel=1e-6, abs=1e-8)


def test_no_overflow_far_away() -> None:
    """Far from the bend all is finite, and no warning is given."""
    x = np.array([-1e9, -1e3, 1e3, 1e9])
    for function in (smooth.bend, smooth.step, smooth.rise, smooth.omega):
        value, slope = function(x)
        assert np.isfinite(value).all()
        assert np.isfinite(slope).all()


def test_omega_against_a_library() -> None:
    """The Wright omega function of scipy, to the last digits over the whole range that is used."""
    special = pytest.importorskip("scipy.special")
    x = np.concatenate([np.linspace(-600.0, 1000.0, 5001), np.geomspace(1.0, 1e9, 500)])
    assert smooth.omega(x)[0] == pytest.approx(special.wrightomega(x), rel=1e-13)
