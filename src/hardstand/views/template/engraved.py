"""What is engraved: the centreline, the stations along the edge, and which way is forward."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from hardstand.views.template.strokes import size_of, strokes
from hardstand.views.template.value import Point, Stroke

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

STEP_MM, LONG_MM = 10.0, 50.0  # between marks, and between those with a figure
_SHORT, _LONG, _FIGURE, _APART = 2.5, 5.0, 3.0, 1.5
_WORD, _WORD_HEIGHT, _ARROW, _CLEAR = "FWD TOP", 4.0, 12.0, 3.0


def engraved(plate: Polygon, openings: Sequence[Polygon]) -> tuple[Stroke, ...]:
    """The engraving of a plate with openings; nothing of it lies in an opening or off the plate."""
    from shapely import unary_union

    solid = plate.difference(unary_union(openings)) if openings else plate
    marks = [*_centreline(solid), *_stations(plate, solid)]
    return (*marks, *_forward(solid, marks))


def _centreline(solid: BaseGeometry) -> Iterator[Stroke]:
    from shapely import LineString

    low, _, high, _ = solid.bounds
    for piece in _lines(solid.intersection(LineString([(low - 1.0, 0.0), (high + 1.0, 0.0)]))):
        yield Stroke("engrave", "centreline", piece)


def _stations(plate: Polygon, solid: BaseGeometry) -> Iterator[Stroke]:
    """Marks inward from both edges every 10 mm; every 50 mm longer, with the station to port."""
    from shapely import LineString, box

    left, low, right, high = plate.bounds
    for number in range(math.ceil(left / STEP_MM), math.floor(right / STEP_MM) + 1):
        x = number * STEP_MM
        if x - left < 1.0 or right - x < 1.0:  # an end is a station by itself
            continue
        pieces = _lines(plate.intersection(LineString([(x, low - 1.0), (x, high + 1.0)])))
        ends = sorted(y for piece in pieces for _, y in piece)
        if not ends:
            continue
        long = math.isclose(x % LONG_MM, 0.0)
        reach = _LONG if long else _SHORT
        for start, end in ((ends[0], ends[0] + reach), (ends[-1], ends[-1] - reach)):
            for piece in _lines(solid.intersection(LineString([(x, start), (x, end)]))):
                yield Stroke("engrave", "station", piece)
        if long:
            text = f"{x:.0f}".replace("-", "−")
            wide, tall = size_of(text, _FIGURE)
            aside = wide / 2.0 + _APART
            at = min(max(x, left + aside), right - aside)
            middle = (at, ends[0] + _LONG + _APART + tall / 2.0)
            if solid.covers(box(at - wide / 2.0, middle[1] - tall, at + wide / 2.0, middle[1] + tall)):
                yield from _text(text, middle, _FIGURE, "station")


def _forward(solid: BaseGeometry, marks: Iterable[Stroke]) -> Iterator[Stroke]:
    """An arrow forward and which face is up, where there is room; the arrow alone where there is not."""
    from shapely import MultiLineString, box

    taken: Any = MultiLineString([one.points for one in marks])
    left, low, right, high = solid.bounds
    wide = size_of(_WORD, _WORD_HEIGHT)[0]
    for room, text in ((_ARROW + 3.0 + wide, _WORD), (_ARROW, "")):
        for across in (0.72, 0.28, 0.62, 0.38, 0.82, 0.18):
            for along in (0.5, 0.35, 0.65, 0.2, 0.8):
                x, y = left + along * (right - left), low + across * (high - low)
                at = box(x - room / 2.0 - 2.0, y - _CLEAR, x + room / 2.0 + 2.0, y + _CLEAR)
                if solid.covers(at) and not at.intersects(taken):
                    tip = x - room / 2.0
                    yield from _arrow((tip, y))
                    yield from _text(text, (tip + _ARROW + 3.0 + wide / 2.0, y), _WORD_HEIGHT, "forward")
                    return


def _arrow(tip: Point) -> Iterator[Stroke]:
    x, y = tip
    yield Stroke("engrave", "forward", ((x + _ARROW, y), (x, y)))
    yield Stroke("engrave", "forward", ((x + 4.0, y - 1.6), (x, y), (x + 4.0, y + 1.6)))


def _text(text: str, middle: Point, height_mm: float, about: str) -> Iterator[Stroke]:
    for one in strokes(text, middle, height_mm):
        yield Stroke("engrave", about, one)


def _lines(found: Any) -> list[tuple[Point, ...]]:
    """The lines of whatever an intersection is, in rising order."""
    import shapely

    lines = [one for one in shapely.get_parts(found) if one.geom_type == "LineString" and one.length > 0.01]
    return sorted(tuple((float(x), float(y)) for x, y in one.coords) for one in lines)
