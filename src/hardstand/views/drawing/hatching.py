"""Hatching at 45 degrees, as lines cut to an outline: no clip paths, so nothing to collide."""

from __future__ import annotations

import math
from collections.abc import Sequence

from hardstand.views.drawing.kinds import Line
from hardstand.views.drawing.shapes import Path, Point

_DIAGONAL = math.sqrt(0.5)


def hatching(
    outline: Sequence[Point],
    step: float,
    *,
    band: float | None = None,
    rising: bool = True,
    kind: Line = "hatch",
) -> Path | None:
    """The hatching of an outline on the sheet, lines `step` apart; None where it is too small for any.

    `band` leaves the middle of a region open: only that much inside its edges is hatched. `rising`
    lines run from lower left to upper right; the neighbour of a hatched region gets the others.
    """
    turn = 1.0 if rising else -1.0
    # Turned so that the hatching is level: along = distance on a line, across = which line.
    flat = [((x - turn * y) * _DIAGONAL, (turn * x + y) * _DIAGONAL) for x, y in outline]
    low, high = min(y for _, y in flat), max(y for _, y in flat)
    strokes: list[tuple[Point, ...]] = []
    for number in range(math.floor(low / step) + 1, math.ceil(high / step)):
        across = number * step
        for start, end in _inside(flat, across):
            for a, b in _ends(start, end, band):
                strokes.append((_back(a, across, turn), _back(b, across, turn)))
    return Path(kind, tuple(strokes)) if strokes else None


def _inside(flat: Sequence[Point], across: float) -> list[tuple[float, float]]:
    """Where a level line lies inside an outline, by the even-odd rule."""
    meets = []
    for (x0, y0), (x1, y1) in zip(flat, [*flat[1:], flat[0]], strict=True):
        if (y0 > across) != (y1 > across):
            meets.append(x0 + (across - y0) / (y1 - y0) * (x1 - x0))
    meets.sort()
    return [(a, b) for a, b in zip(meets[::2], meets[1::2], strict=False) if b - a > 0.05]


def _ends(start: float, end: float, band: float | None) -> list[tuple[float, float]]:
    reach = math.inf if band is None else band / _DIAGONAL
    if end - start <= 2.0 * reach:
        return [(start, end)]
    return [(start, start + reach), (end - reach, end)]


def _back(along: float, across: float, turn: float) -> Point:
    return (along + turn * across) * _DIAGONAL, (across - turn * along) * _DIAGONAL


def beside(points: Sequence[Point], depth: float, step: float, *, upward: bool = True) -> Path | None:
    """A band of hatching above (or below) a line: the forbidden side of a limit."""
    by = -depth if upward else depth
    return hatching([*points, *((x, y + by) for x, y in reversed(points))], step)
