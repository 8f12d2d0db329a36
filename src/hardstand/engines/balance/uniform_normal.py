"""The chance that the sum of a uniform and a normal quantity lies under a limit."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

# Under this width of the uniform part, in units of the normal one, the difference below loses more
# digits than the midpoint formula errs.
_NARROW = 1e-4


def _normal_below(z: Array) -> Array:
    """Return the standard normal distribution function, same shape."""
    turned = np.asarray(-z / math.sqrt(2.0), dtype=float)
    below = np.array([math.erfc(one) for one in turned.ravel().tolist()], dtype=float)
    return np.asarray(0.5 * below.reshape(turned.shape), dtype=float)


def _integral_below(z: Array) -> Array:
    """Return the integral of that function from minus infinity: z Phi(z) + phi(z)."""
    density = np.exp(-0.5 * z * z) / math.sqrt(2.0 * math.pi)
    return np.asarray(z * _normal_below(z) + density, dtype=float)


def chance_below(limit: ArrayLike, lower: ArrayLike, upper: ArrayLike, sigma: ArrayLike) -> Array:
    """Return the probability that uniform(lower, upper) + normal(0, sigma) is below a limit.

    Exact convolution: with I(z) = z Phi(z) + phi(z),

        P = sigma/(upper - lower) (I((limit - lower)/sigma) - I((limit - upper)/sigma)),

    which becomes the plain normal or the plain uniform when one part vanishes (and a step when
    both do, one half exactly on it).

    Parameters: all broadcast together, one unit for all; upper >= lower, sigma >= 0.

    Returns probabilities 0 to 1, the broadcast shape. Raises `ValueError` for a range or sigma
    that is negative.

    Example: on the middle it is one half; far wider uniform, it is the uniform's share.

    >>> float(chance_below(5.0, 0.0, 10.0, 2.0))
    0.5
    >>> round(float(chance_below(2.5, 0.0, 10.0, 0.01)), 3)
    0.25

    Source: the convolution integral of the two densities, done in closed form.
    """
    t, a, b, s = np.broadcast_arrays(
        *(np.asarray(value, dtype=float) for value in (limit, lower, upper, sigma))
    )
    width = b - a
    if np.any(width < 0.0) or np.any(s < 0.0):
        raise ValueError("a range and a standard uncertainty must not be negative")
    with np.errstate(divide="ignore", invalid="ignore"):
        step = np.where(t == 0.5 * (a + b), 0.5, np.where(t > 0.5 * (a + b), 1.0, 0.0))
        uniform = np.where(width > 0.0, np.clip((t - a) / width, 0.0, 1.0), step)
        narrow = width < _NARROW * s
        normal = np.zeros_like(t)
        normal[narrow] = _normal_below((t - 0.5 * (a + b))[narrow] / s[narrow])
        both = s / width * (_integral_below((t - a) / s) - _integral_below((t - b) / s))
    chance = np.where(s > 0.0, np.where(narrow, normal, both), uniform)
    return np.asarray(np.clip(chance, 0.0, 1.0))
