"""The choices that no other choice beats in every respect at once."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray


def pareto_front(cost: ArrayLike) -> NDArray[np.bool_]:
    """Return which rows are on the front (R,): none other is as low in all columns, lower in one.

    Exact and vectorised: rows are visited from the smallest sum on, and each takes away all that it
    beats, so that the work is rows times rows on the front. Of equal rows all are kept.
    Parameters: cost (R, C), each column the lower the better; rows with an infinity are never on.

    >>> pareto_front([[1, 5], [2, 2], [3, 3], [5, 1]]).tolist()
    [True, True, False, True]
    """
    values = np.asarray(cost, dtype=np.float64)
    front = np.zeros(len(values), dtype=np.bool_)
    left = np.flatnonzero(np.all(np.isfinite(values), axis=1))
    left = left[np.argsort(values[left].sum(axis=1), kind="stable")]
    while left.size:
        best = values[left[0]]
        equal = np.all(values[left] == best, axis=1)
        front[left[equal]] = True
        left = left[np.any(values[left] < best, axis=1)]
    return front
