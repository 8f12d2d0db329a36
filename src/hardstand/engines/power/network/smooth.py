"""Bends without corners: the functions that the laws of the elements are made of.

A corner makes a solver jump from side to side; a bend a few millivolts wide is also what a real
device has. All work element by element on arrays of any shape.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def bend(x: Floats) -> tuple[Floats, Floats]:
    """Zero far below 0 and x far above: ln(1 + e^x), and its slope.

    >>> value, slope = bend(np.array([-100.0, 0.0, 100.0]))
    >>> value.round(3).tolist(), slope.round(3).tolist()
    ([0.0, 0.693, 100.0], [0.0, 0.5, 1.0])

    Source: closed form.
    """
    small = np.exp(-np.abs(x))
    value = np.maximum(x, 0.0) + np.log1p(small)
    return value, np.where(x >= 0.0, 1.0, small) / (1.0 + small)


def step(x: Floats) -> tuple[Floats, Floats]:
    """Zero far below 0 and one far above: the slope of `bend`, and its own slope.

    >>> value, slope = step(np.array([-100.0, 0.0, 100.0]))
    >>> value.round(3).tolist(), slope.round(3).tolist()
    ([0.0, 0.5, 1.0], [0.0, 0.25, 0.0])
    """
    small = np.exp(-np.abs(x))
    value = np.where(x >= 0.0, 1.0, small) / (1.0 + small)
    return value, value * (1.0 - value)


def rise(x: Floats) -> tuple[Floats, Floats]:
    """One from x = 1 on, x (2 - x) from there to 0 and 2 x below, and its slope.

    >>> value, slope = rise(np.array([-1.0, 0.5, 3.0]))
    >>> value.tolist(), slope.tolist()
    ([-2.0, 0.75, 1.0], [2.0, 1.0, 0.0])
    """
    inside = np.clip(x, 0.0, 1.0)
    return inside * (2.0 - inside) + 2.0 * np.minimum(x, 0.0), 2.0 - 2.0 * inside


def omega(x: Floats) -> tuple[Floats, Floats]:
    """The w of w + ln w = x, and its slope: a junction with a resistance in series.

    Newton's method on the exponent where w is small and on w where it is large; five rounds reach
    the last digits for x from -700 to 1e9.

    >>> value, slope = omega(np.array([1.0, 100.0 + np.log(100.0)]))
    >>> value.round(9).tolist(), slope.round(3).tolist()
    ([1.0, 100.0], [0.5, 0.99])

    Source: the Wright omega function; R. M. Corless and D. J. Jeffrey, The Wright omega Function,
    Artificial Intelligence, Automated Reasoning, and Symbolic Computation (2002) 76 to 89.
    """
    x = np.maximum(x, -700.0)
    bent = bend(x)[0]
    w = np.where(x > 1.0, np.maximum(x - np.log(np.maximum(x, 1.0)), 0.5), np.exp(np.minimum(x, 1)))
    w = np.where((x > -2.0) & (x <= 1.0), 0.567 * bent / 0.693, w)
    for _ in range(5):
        miss = x - w - np.log(w)
        w = w * (1.0 + miss / (1.0 + w) * (1.0 + miss / (2.0 * (1.0 + w) ** 2)))
    return w, w / (1.0 + w)
