"""Outlines as millimetre cells: which cells lie wholly inside, and cells as few rectangles."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.problem import Rectangle

Cells = NDArray[np.bool_]


def cells_inside(
    outline_mm: tuple[tuple[float, float], ...], origin_mm: tuple[int, int], shape: tuple[int, int]
) -> Cells:
    """Which cells of 1 mm lie wholly inside a simple polygon (n, m), cell 0, 0 at origin_mm.

    A cell is inside when its middle is and no side passes through it; touching is inside. A
    rectangle of whole millimetres is inside the polygon exactly when all its cells are.

    >>> cells_inside(((0, 0), (4, 0), (4, 2), (0, 4)), (0, 0), (4, 4)).sum(axis=0).tolist()
    [4, 4, 2, 0]
    """
    x = origin_mm[0] + np.arange(shape[0], dtype=np.float64)[:, None]
    y = origin_mm[1] + np.arange(shape[1], dtype=np.float64)[None, :]
    inside = np.zeros(shape, dtype=bool)
    crossed = np.zeros(shape, dtype=bool)
    ends = zip(outline_mm, (*outline_mm[1:], outline_mm[0]), strict=True)
    for (x0, y0), (x1, y1) in ends:
        above = (y0 > y + 0.5) != (y1 > y + 0.5)
        if y0 != y1:
            inside ^= above & (x + 0.5 < x0 + (y + 0.5 - y0) * (x1 - x0) / (y1 - y0))
        near = (x + 1 > min(x0, x1)) & (x < max(x0, x1)) if x0 != x1 else (x < x0) & (x + 1 > x0)
        near_y = (y + 1 > min(y0, y1)) & (y < max(y0, y1)) if y0 != y1 else (y < y0) & (y + 1 > y0)
        # The corners' least and greatest side of the line: through the cell when they differ.
        across = (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)
        low = across + min(0.0, x1 - x0) - max(0.0, y1 - y0)
        high = across + max(0.0, x1 - x0) - min(0.0, y1 - y0)
        crossed |= near & near_y & (low < -1e-9) & (high > 1e-9)
    return inside & ~crossed


def counted(blocked: Cells) -> NDArray[np.int32]:
    """How many cells are blocked before each corner (n + 1, m + 1), for `windows_free`."""
    sums = np.zeros((blocked.shape[0] + 1, blocked.shape[1] + 1), dtype=np.int32)
    np.cumsum(np.cumsum(blocked, axis=0, dtype=np.int32), axis=1, out=sums[1:, 1:])
    return sums


def windows_free(sums: NDArray[np.int32], width: int, height: int) -> Cells:
    """Where a window of width by height cells holds no blocked cell (n - width + 1, ...).

    >>> windows_free(counted(np.array([[False, True, False, False]])), 1, 2).tolist()
    [[False, False, True]]
    """
    n, m = sums.shape[0] - width, sums.shape[1] - height
    if n <= 0 or m <= 0:
        return np.zeros((max(0, n), max(0, m)), dtype=bool)
    in_window = sums[width:, height:] - sums[:n, height:]
    in_window -= sums[width:, :m]
    in_window += sums[:n, :m]
    return np.asarray(in_window == 0)


def as_rectangles(cells: Cells, origin_mm: tuple[int, int]) -> list[Rectangle]:
    """The true cells as rectangles that cover them once: runs along y, joined along x while equal.

    >>> as_rectangles(np.array([[True, True], [True, True], [False, True]]), (10, 0))
    [Rectangle(x0_mm=10, x1_mm=12, y0_mm=0, y1_mm=2), Rectangle(x0_mm=12, x1_mm=13, y0_mm=1, y1_mm=2)]
    """
    found: list[Rectangle] = []
    growing: dict[tuple[int, int], int] = {}
    for column in range(cells.shape[0] + 1):
        runs = set(_runs(cells[column])) if column < cells.shape[0] else set()
        for run in sorted(set(growing) - runs):
            x0 = growing.pop(run)
            found.append(
                Rectangle(
                    origin_mm[0] + x0,
                    origin_mm[0] + column,
                    origin_mm[1] + run[0],
                    origin_mm[1] + run[1],
                )
            )
        for run in runs:
            growing.setdefault(run, column)
    return found


def _runs(line: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Stretches of true values as (first, past the last)."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], line, [False])).astype(np.int8)))
    return [(int(a), int(b)) for a, b in edges.reshape(-1, 2)]
