"""Where a sheet is inked: edges as a raster whose sums answer at once whether a box is free."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.views.drawing.boxes import Bools, Box, Floats


class Inked:
    """Edges on the sheet, rastered in cells of one design pixel.

    A box is told to be free or not with an error of one cell: ample for a name beside an edge.
    """

    def __init__(self, lines: Floats, room: Box, cell: float) -> None:
        self._origin = np.array(room[:2])
        self._cell = cell
        shape = np.ceil((np.array(room[2:]) - self._origin) / cell).astype(int) + 2
        marked = np.zeros((int(shape[1]), int(shape[0])), dtype=np.int32)
        starts, steps = lines[:, :2], lines[:, 2:] - lines[:, :2]
        lengths = np.hypot(steps[:, 0], steps[:, 1])
        counts = np.ceil(lengths / cell).astype(int) + 1
        which = np.repeat(np.arange(len(lines)), counts)
        first = np.repeat(np.cumsum(counts) - counts, counts)
        share = (np.arange(len(which)) - first) / np.maximum(counts[which] - 1, 1)
        points = starts[which] + share[:, None] * steps[which]
        column, row = self._cells(points).T
        here = (column >= 0) & (row >= 0) & (column < marked.shape[1]) & (row < marked.shape[0])
        marked[row[here], column[here]] = 1
        self._sums = np.zeros((marked.shape[0] + 1, marked.shape[1] + 1), dtype=np.int64)
        self._sums[1:, 1:] = marked.cumsum(axis=0).cumsum(axis=1)

    def _cells(self, points: Floats) -> NDArray[np.intp]:
        return np.asarray(np.floor((points - self._origin) / self._cell), dtype=np.intp)

    def under(self, boxes: Floats) -> Bools:
        """Which of N boxes (N, 4) have an edge inside them.

        >>> ink = Inked(np.array([[0.0, 5.0, 20.0, 5.0]]), (0.0, 0.0, 20.0, 20.0), 1.0)
        >>> ink.under(np.array([[2.0, 2.0, 8.0, 8.0], [2.0, 10.0, 8.0, 14.0]])).tolist()
        [True, False]
        """
        high, wide = self._sums.shape
        left, top = self._cells(boxes[:, :2]).T
        right, bottom = self._cells(boxes[:, 2:]).T
        left, right = np.clip(left, 0, wide - 1), np.clip(right + 1, 0, wide - 1)
        top, bottom = np.clip(top, 0, high - 1), np.clip(bottom + 1, 0, high - 1)
        sums = self._sums
        inside = sums[bottom, right] - sums[top, right] - sums[bottom, left] + sums[top, left]
        return np.asarray(inside > 0)
