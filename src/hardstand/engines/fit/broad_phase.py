"""Which pairs of many bodies can be near one another at all: by their boxes along the axes."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.stack import Index, spans, stack


def near_pairs(bodies: Sequence[Body], reach_mm: float) -> tuple[Index, Index]:
    """Index pairs (M,), (M,) with i < j, in order: every pair nearer than `reach_mm` is among them.

    Pairs whose boxes along the axes are nearer but whose bodies are not may be among them too.
    Raises ValueError if `reach_mm` is negative or not a number.

    >>> from hardstand.engines.fit.shapes import box
    >>> row = [box((x, 0.0, 0.0), (10.0, 10.0, 10.0)) for x in (0.0, 12.0, 50.0)]
    >>> [index.tolist() for index in near_pairs(row, 5.0)]
    [[0], [1]]
    """
    return near_spans(*spans(stack(bodies)), reach_mm)


def near_spans(low: Floats, high: Floats, reach_mm: float) -> tuple[Index, Index]:
    """The same for bodies of which only the lowest and highest corners (N, 3) are given.

    They are sorted by their lower end on the axis along which they spread most, and each is compared
    with those that begin before it ends.
    """
    if not reach_mm >= 0.0:
        raise ValueError("the reach must be a number, zero or more")
    if len(low) < 2:
        return np.zeros(0, dtype=np.intp), np.zeros(0, dtype=np.intp)
    axis = int(np.argmax(np.std(low + high, axis=0)))
    order = np.argsort(low[:, axis], kind="stable")
    begins = low[order, axis]
    # A hair more than the reach, so that rounding never drops a pair exactly at it.
    reach = reach_mm + 1e-9 * (
        1.0 + max(float(np.abs(low).max()), float(np.abs(high).max())) + reach_mm
    )
    last = np.searchsorted(begins, high[order, axis] + reach, side="right")
    count = last - np.arange(len(low)) - 1
    first = np.repeat(np.arange(len(low)), count)
    start = np.cumsum(count) - count
    second = first + 1 + np.arange(len(first)) - start[first]
    i, j = order[first], order[second]
    apart = np.maximum(np.maximum(low[i] - high[j], low[j] - high[i]), 0.0)
    near = np.einsum("mk,mk->m", apart, apart) <= reach * reach
    i, j = np.minimum(i[near], j[near]), np.maximum(i[near], j[near])
    sequence = np.lexsort((j, i))
    return i[sequence], j[sequence]
