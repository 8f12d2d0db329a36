"""Points that are near one another, found along x."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Index = NDArray[np.intp]
_AT_ONCE = 64


def pairs_within(points: Floats, reach_mm: float) -> Index:
    """Every pair (P, 2) of points (N, 3), mm, no farther apart than a reach, the lower number first.

    >>> pairs_within(np.array([[0.0, 0.0, 0.0], [9.0, 0.0, 0.0], [3.0, 4.0, 0.0]]), 5.0).tolist()
    [[0, 2]]
    """
    order = np.argsort(points[:, 0], kind="stable")
    x, y, z = points[order].T
    last = np.searchsorted(x, x + reach_mm, side="right")
    found = [np.zeros((0, 2), dtype=np.intp)]
    for start in range(0, len(points), _AT_ONCE):
        stop = min(start + _AT_ONCE, len(points))
        here, there = slice(start, stop), slice(start, int(last[stop - 1]))
        away = (x[here, None] - x[there]) ** 2
        away += (y[here, None] - y[there]) ** 2
        away += (z[here, None] - z[there]) ** 2
        one, other = np.nonzero(away <= reach_mm**2)
        later = one < other
        found.append(np.column_stack([one[later], other[later]]) + start)
    pairs = order[np.vstack(found)]
    pairs.sort(axis=1)
    return np.asarray(pairs[np.lexsort((pairs[:, 1], pairs[:, 0]))])
