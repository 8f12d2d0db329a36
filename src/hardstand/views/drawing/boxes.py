"""Upright boxes on the sheet: of texts, and whether boxes and lines get in one another's way."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.lettering import CAPITAL, DESCENT, width
from hardstand.views.drawing.shapes import Point, Text

Box = tuple[float, float, float, float]  # left, top, right, bottom
Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


def text_box(text: Text, medium: Medium) -> Box:
    """The box that a text takes, from its capitals to what hangs below the line."""
    long, size = width(text.text, text.use, medium), medium.height(text.use)
    back = {"start": 0.0, "middle": long / 2.0, "end": long}[text.anchor]
    x, y = text.at
    if text.upright:  # turned a quarter to the left: the text runs up the sheet
        return x - CAPITAL * size, y - long + back, x + DESCENT * size, y + back
    return x - back, y - CAPITAL * size, x - back + long, y + DESCENT * size


def bounds(points: Iterable[Point]) -> Box:
    """The box around points.

    >>> bounds([(0.0, 5.0), (2.0, 1.0)])
    (0.0, 1.0, 2.0, 5.0)
    """
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def grown(box: Box, by: float) -> Box:
    """A box with a margin all round."""
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def stacked(boxes: Iterable[Box]) -> Floats:
    """Boxes as an array (N, 4)."""
    return np.array(list(boxes), dtype=np.float64).reshape(-1, 4)


def overlap(one: Floats, other: Floats) -> Bools:
    """Which of N boxes overlap which of M: (N, M). Boxes that only touch do not.

    >>> overlap(stacked([(0, 0, 2, 2)]), stacked([(1, 1, 3, 3), (2, 0, 3, 3)])).tolist()
    [[True, False]]
    """
    a, b = one[:, None, :], other[None, :, :]
    beside = (a[..., 2] <= b[..., 0]) | (b[..., 2] <= a[..., 0])
    above = (a[..., 3] <= b[..., 1]) | (b[..., 3] <= a[..., 1])
    return np.asarray(~(beside | above))


def crossed(box: Floats, segment: Floats) -> Bools:
    """Which of N boxes have something of which of M segments (x0, y0, x1, y1) inside: (N, M).

    >>> crossed(stacked([(0, 0, 2, 2)]), stacked([(-1, 1, 5, 1), (-1, 3, 5, 3)])).tolist()
    [[True, False]]
    """
    ends = np.hstack([np.minimum(segment[:, :2], segment[:, 2:]), np.maximum(segment[:, :2], segment[:, 2:])])
    near = overlap(box, ends)
    middle, half = (box[:, :2] + box[:, 2:]) / 2.0, (box[:, 2:] - box[:, :2]) / 2.0
    step = segment[:, 2:] - segment[:, :2]
    # The line through a segment misses a box where all corners lie on one side of it.
    off = step[:, 0] * (middle[:, 1, None] - segment[:, 1]) - step[:, 1] * (middle[:, 0, None] - segment[:, 0])
    reach = np.abs(step[:, 0]) * half[:, 1, None] + np.abs(step[:, 1]) * half[:, 0, None]
    return np.asarray(near & ((np.abs(off) < reach) | (reach == 0.0)))


def meets(one: Floats, other: Floats) -> Bools:
    """Which of N segments (x0, y0, x1, y1) cross which of M: (N, M). Ends that only touch do not.

    >>> meets(np.array([[0.0, 0.0, 2.0, 2.0]]), np.array([[0.0, 2.0, 2.0, 0.0], [3.0, 0.0, 3.0, 2.0]])).tolist()
    [[True, False]]
    """
    a, b = one[:, None, :2], one[:, None, 2:]
    c, d = other[None, :, :2], other[None, :, 2:]

    def side(start: Floats, end: Floats, point: Floats) -> Floats:
        step, away = end - start, point - start
        return np.asarray(step[..., 0] * away[..., 1] - step[..., 1] * away[..., 0])

    parted = side(a, b, c) * side(a, b, d) < 0.0
    return np.asarray(parted & (side(c, d, a) * side(c, d, b) < 0.0))
