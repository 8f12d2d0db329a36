"""Dimensions of a tray, and from an item to the edges of the tray it stands on."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.places import Tray
from hardstand.views.drawing.boxes import bounds
from hardstand.views.drawing.dimensions import dimension
from hardstand.views.drawing.equipment import corners
from hardstand.views.drawing.hull import seen
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.shapes import Group, Placement, Point, Shape


def length(value_mm: float) -> str:
    """A length of a drawing to 0.1 mm, the unit left to the title block as ISO 129-1 asks.

    >>> length(280.0), length(14.25)
    ('280', '14.2')
    """
    return f"{value_mm:.1f}".removesuffix(".0")


def tray_dimensions(tray: Tray, on: Placement, medium: Medium) -> Group:
    """Length below a tray, width to its right: of the rectangle around its outline."""
    x0, y0, x1, y1 = bounds(tray.outline_mm)
    below = on.point(0.0, y0)[1] + 34.0 * medium.unit
    beside = on.point(x1, 0.0)[0] + 40.0 * medium.unit
    level = dimension(on.point(x0, y0), on.point(x1, y0), below, length(x1 - x0), medium)
    upright = dimension(on.point(x1, y1), on.point(x1, y0), beside, length(y1 - y0), medium,
                        upright=True)  # fmt: skip
    return Group(f"tray.{tray.id}", "dimension", (*level, *upright))


def edge_dimensions(item: PlacedItem, tray: Tray, on: Placement, medium: Medium) -> Group:
    """From an item's box to the edges of its tray, on the lines through its middle, all four ways."""
    left, low, right, high = bounds(seen(corners(item), "plan"))
    x, y = (left + right) / 2.0, (low + high) / 2.0
    xs, ys = _meets(tray.outline_mm, y, 1), _meets(tray.outline_mm, x, 0)
    shapes: list[Shape] = []
    for edge, face in ((_last(xs, left), left), (_first(xs, right), right)):
        if edge is not None and abs(edge - face) > 0.05:
            at = on.point(0.0, y)[1]
            shapes += dimension(on.point(edge, y), on.point(face, y), at, length(abs(edge - face)),
                                medium, accent=True, over=True)  # fmt: skip
    for edge, face in ((_last(ys, low), low), (_first(ys, high), high)):
        if edge is not None and abs(edge - face) > 0.05:
            at = on.point(x, 0.0)[0]
            shapes += dimension(on.point(x, edge), on.point(x, face), at, length(abs(edge - face)),
                                medium, upright=True, accent=True, over=True)  # fmt: skip
    return Group(f"item.{item.id}", "dimension", tuple(shapes))


def _meets(outline: Sequence[Point], level: float, axis: int) -> list[float]:
    """Where an outline crosses a line on which one coordinate stands still, in rising order."""
    found = []
    for one, other in zip(outline, (*outline[1:], outline[0]), strict=True):
        a, b = one[axis], other[axis]
        if (a > level) != (b > level):
            share = (level - a) / (b - a)
            found.append(one[1 - axis] + share * (other[1 - axis] - one[1 - axis]))
    return sorted(found)


def _last(values: Sequence[float], before: float) -> float | None:
    return max((one for one in values if one <= before), default=None)


def _first(values: Sequence[float], after: float) -> float | None:
    return min((one for one in values if one >= after), default=None)
