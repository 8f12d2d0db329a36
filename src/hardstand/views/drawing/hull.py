"""Outlines of convex solids: seen from a side, and cut by a plane across the fuselage."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from hardstand.views.drawing.shapes import Point

Floats = NDArray[np.float64]
AXES = {"plan": (0, 1), "elevation": (0, 2), "section": (1, 2)}
_ROUND = 24  # points that stand for a circle; seen from the end it is drawn from these too


def hull(points: Iterable[Point]) -> tuple[Point, ...]:
    """The convex hull of points in a plane, corners only (monotone chain).

    >>> hull([(0.0, 0.0), (2.0, 0.0), (1.0, 0.5), (2.0, 2.0), (0.0, 2.0)])
    ((0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0))
    """
    ordered = sorted({(round(float(x), 6), round(float(y), 6)) for x, y in points})
    if len(ordered) < 3:
        return tuple(ordered)
    return tuple(_half(ordered) + _half(ordered[::-1]))


def _half(points: Sequence[Point]) -> list[Point]:
    chain: list[Point] = []
    for x, y in points:
        while len(chain) > 1:
            (x0, y0), (x1, y1) = chain[-2], chain[-1]
            if (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) > 0.0:
                break
            chain.pop()
        chain.append((x, y))
    return chain[:-1]


def box_corners(half_mm: Floats) -> Floats:
    """The corners (8, 3) of a box about its middle."""
    signs = np.array([(a, b, c) for a in (-1, 1) for b in (-1, 1) for c in (-1, 1)], dtype=float)
    return signs * half_mm


def tube_corners(axis: int, half_length_mm: float, radius_mm: float) -> Floats:
    """Points (48, 3) on both rims of a cylinder about its middle, along one of its axes."""
    angle = np.linspace(0.0, 2.0 * np.pi, _ROUND, endpoint=False)
    rim = np.zeros((_ROUND, 3))
    rim[:, (axis + 1) % 3] = radius_mm * np.cos(angle)
    rim[:, (axis + 2) % 3] = radius_mm * np.sin(angle)
    along = np.zeros(3)
    along[axis] = half_length_mm
    return np.vstack([rim - along, rim + along])


def seen(corners_mm: Floats, view: str) -> tuple[Point, ...]:
    """The outline of a convex solid (its corners, (V, 3)) seen in a view."""
    first, second = AXES[view]
    return hull((row[first], row[second]) for row in corners_mm)


def cut(corners_mm: Floats, x_mm: float) -> tuple[Point, ...]:
    """The outline in (y, z) where the plane at a station cuts a convex solid; empty beside it.

    >>> [len(cut(box_corners(np.array([5.0, 2.0, 1.0])), x)) for x in (0.0, 6.0)]
    [4, 0]
    """
    before = corners_mm[corners_mm[:, 0] <= x_mm]
    behind = corners_mm[corners_mm[:, 0] > x_mm]
    if not len(before) or not len(behind):
        return ()
    start, end = before[:, None, :], behind[None, :, :]
    share = (x_mm - start[..., 0]) / (end[..., 0] - start[..., 0])
    meet = start + share[..., None] * (end - start)
    return hull((y, z) for _, y, z in meet.reshape(-1, 3))
