"""Closed outlines in a plane: that they enclose something and do not cross themselves."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

PlanarPoint = tuple[float, float]
Edge = tuple[int, PlanarPoint, PlanarPoint]  # the number of its first point, from 1, and its ends

LEAST_AREA_MM2 = 1e-6


def simple_outline(points: tuple[PlanarPoint, ...]) -> tuple[PlanarPoint, ...]:
    """An outline as written, or a ValueError in plain words where it is no simple closed curve.

    The last point is joined to the first; repeating the first at the end, or any point at once
    after itself, changes nothing. Refused are an outline without area, one that crosses or touches
    itself, and one that runs back along its own edge.

    >>> simple_outline(((0.0, 0.0), (10.0, 0.0), (10.0, 5.0)))
    ((0.0, 0.0), (10.0, 0.0), (10.0, 5.0))
    >>> simple_outline(((0.0, 0.0), (10.0, 5.0), (10.0, 0.0), (0.0, 5.0)))
    Traceback (most recent call last):
    ValueError: the outline crosses itself: from point 1 to 2 and from point 3 to 4
    """
    edges = _edges(points)
    if len(edges) < 3:
        raise ValueError("the outline needs three or more points that differ")
    count = len(edges)
    for (i, one), (j, other) in combinations(enumerate(edges), 2):
        follows = j == i + 1 or (i == 0 and j == count - 1)
        if _beside(one, other) or not _meet(one, other, follows=follows):
            continue
        what = "runs back on" if follows else "crosses"
        raise ValueError(f"the outline {what} itself: from {_named(one, points)} "
                         f"and from {_named(other, points)}")
    if abs(area_mm2(points)) < LEAST_AREA_MM2:
        raise ValueError("the outline encloses no area")
    return points


def area_mm2(points: Sequence[PlanarPoint]) -> float:
    """The enclosed area, mm2, positive where the points go round from x to y.

    Source: shoelace formula (closed form).

    >>> area_mm2([(0.0, 0.0), (10.0, 0.0), (10.0, 5.0)])
    25.0
    """
    ahead = [*points[1:], points[0]]
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, ahead, strict=True)) / 2.0


def _edges(points: Sequence[PlanarPoint]) -> list[Edge]:
    """The edges that have a length, each with the number of its first point."""
    ahead = [*points[1:], points[0]]
    pairs = zip(points, ahead, strict=True)
    return [(number, a, b) for number, (a, b) in enumerate(pairs, 1) if a != b]


def _beside(one: Edge, other: Edge) -> bool:
    """Whether the upright rectangles around two edges have nothing in common."""
    (_, a, b), (_, c, d) = one, other
    return (max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0])
            or max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]))


def _meet(one: Edge, other: Edge, *, follows: bool) -> bool:
    """Whether two edges touch; neighbours may share their corner, but not run back on each other."""
    (_, a, b), (_, c, d) = one, other
    if follows:
        if b != c:  # the last edge and the first
            a, b, c, d = c, d, a, b
        along = (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1])
        return _side(a, b, d) == 0.0 and along < 0.0
    return _side(a, b, c) * _side(a, b, d) <= 0.0 and _side(c, d, a) * _side(c, d, b) <= 0.0


def _side(a: PlanarPoint, b: PlanarPoint, p: PlanarPoint) -> float:
    """On which side of the line from a to b a point lies, as -1.0, 0.0 or 1.0."""
    turn = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
    return (turn > 0.0) - (turn < 0.0)


def _named(edge: Edge, points: Sequence[PlanarPoint]) -> str:
    return f"point {edge[0]} to {edge[0] % len(points) + 1}"
