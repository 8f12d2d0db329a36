"""Outlines and lines cut to an upright box.

Outlines: Sutherland and Hodgman 1974, Reentrant polygon clipping. Lines: Liang and Barsky 1984, A new
concept and method for line clipping.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from hardstand.views.drawing.boxes import Box
from hardstand.views.drawing.shapes import Point


def clipped(outline: Sequence[Point], box: Box) -> tuple[Point, ...]:
    """What of a closed outline lies in a box (low and high of both axes); empty where nothing does.

    >>> clipped([(-5.0, 1.0), (5.0, 1.0), (5.0, 2.0), (-5.0, 2.0)], (0.0, 0.0, 3.0, 3.0))
    ((0.0, 1.0), (3.0, 1.0), (3.0, 2.0), (0.0, 2.0))
    """
    points = list(outline)
    for axis, bound, sense in ((0, box[0], 1.0), (1, box[1], 1.0), (0, box[2], -1.0), (1, box[3], -1.0)):
        kept: list[Point] = []
        for one, other in zip([*points[-1:], *points[:-1]], points, strict=True):
            a, b = sense * (one[axis] - bound), sense * (other[axis] - bound)
            if (a >= 0.0) != (b >= 0.0):
                share = a / (a - b)
                kept.append((one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])))
            if b >= 0.0:
                kept.append(other)
        points = kept
    if points and points[0] != min(points):
        start = points.index(min(points))
        points = points[start:] + points[:start]
    return tuple(points) if len(points) > 2 else ()


def clipped_line(points: Sequence[Point], box: Box) -> tuple[tuple[Point, ...], ...]:
    """What of an open line lies in a box, as strokes.

    >>> clipped_line([(-5.0, 1.0), (5.0, 1.0)], (0.0, 0.0, 3.0, 3.0))
    (((0.0, 1.0), (3.0, 1.0)),)
    """
    strokes: list[tuple[Point, ...]] = []
    for one, other in pairwise(points):
        piece = _piece(one, other, box)
        if piece is None:
            continue
        if strokes and strokes[-1][-1] == piece[0]:
            strokes[-1] = (*strokes[-1], piece[1])
        else:
            strokes.append(piece)
    return tuple(strokes)


def _piece(one: Point, other: Point, box: Box) -> tuple[Point, Point] | None:
    enter, leave = 0.0, 1.0
    for axis in (0, 1):
        step = other[axis] - one[axis]
        low, high = box[axis] - one[axis], box[axis + 2] - one[axis]
        if step == 0.0:
            if low > 0.0 or high < 0.0:
                return None
            continue
        first, last = sorted((low / step, high / step))
        enter, leave = max(enter, first), min(leave, last)
    if enter >= leave:
        return None
    start, end = (
        one if share == 0.0 else other if share == 1.0
        else (one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1]))
        for share in (enter, leave)
    )  # fmt: skip
    return start, end
