"""Linear dimensions as ISO 129-1 draws them: extension lines, arrows, the figure above the line.

Figures read from below, or from the right side of the sheet. Where a dimension is too short for its
arrows they stand outside and point inward.
"""

from __future__ import annotations

from hardstand.views.drawing.arrows import arrow
from hardstand.views.drawing.kinds import Line, Medium, Use
from hardstand.views.drawing.lettering import width
from hardstand.views.drawing.shapes import Point, Shape, Text, line

SHORT = 26.0  # design pixels under which the arrows stand outside
_ARROW, _HALF = 7.0, 2.2
_BEYOND, _GAP = 4.0, 2.0  # how far an extension line goes on past the dimension, and begins off the edge


def dimension(
    one: Point,
    other: Point,
    at: float,
    figure: str,
    medium: Medium,
    *,
    upright: bool = False,
    accent: bool = False,
    over: bool = False,
) -> tuple[Shape, ...]:
    """A dimension between two points of the drawing on the sheet.

    `at` is where the dimension line lies: its y for a level one, its x for an upright one. The
    extension lines run from the points to it. `over` keeps the figure over the middle of its line even
    where it is wider.
    """
    unit = medium.unit
    thin: Line = "accent-thin" if accent else "thin"
    first, last = (one, other) if _along(one, upright) <= _along(other, upright) else (other, one)
    a, b = _along(first, upright), _along(last, upright)
    short = b - a < SHORT * unit
    out = 16.0 * unit if short else 0.0
    shapes: list[Shape] = []
    for point in (first, last):
        off = point[0] if upright else point[1]
        if abs(at - off) > (_GAP + _BEYOND) * unit:
            toward = 1.0 if at > off else -1.0
            begin, end = off + toward * _GAP * unit, at + toward * _BEYOND * unit
            shapes.append(line(thin, *(_point(_along(point, upright), one, upright)
                                       for one in (begin, end))))  # fmt: skip
    shapes.append(line(thin, _point(a - out, at, upright), _point(b + out, at, upright)))
    turn = 90.0 if upright else 0.0
    solid: Line = "accent-solid" if accent else "solid"
    toward_deg = (0.0, 180.0) if short else (180.0, 0.0)
    for place, direction in zip((a, b), toward_deg, strict=True):
        tip = _point(place, at, upright)
        shapes.append(arrow(tip, direction + turn, _ARROW * unit, _HALF * unit, solid))
    return (*shapes, _figure(a, b, at, figure, medium, upright=upright, accent=accent, out=-1.0 if over else out))


def _figure(
    a: float, b: float, at: float, figure: str, medium: Medium,
    *, upright: bool, accent: bool, out: float,
) -> Text:  # fmt: skip
    """The figure over the middle of its line, or beside the line where that is too short for it."""
    use: Use = "measured" if accent else "dimension"
    long, unit = width(figure, use, medium), medium.unit
    middle = (a + b) / 2.0
    if out >= 0.0 and long > b - a - 2.0 * unit:
        # read upward, so past the upper end; level, past the right end
        middle = a - out - long / 2.0 - 3.0 * unit if upright else b + out + long / 2.0 + 3.0 * unit
    return Text(use, _point(middle, at - 4.0 * unit, upright), figure, "middle", upright=upright)


def _along(point: Point, upright: bool) -> float:
    return point[1] if upright else point[0]


def _point(along: float, off: float, upright: bool) -> Point:
    return (off, along) if upright else (along, off)
