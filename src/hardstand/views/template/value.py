"""A template as a value: marks by layer, in the aeroplane's x (aft) and y (to starboard), mm."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Layer = Literal["cut", "engrave", "reference"]
LAYERS: tuple[Layer, ...] = ("cut", "engrave", "reference")
Point = tuple[float, float]
Box = tuple[float, float, float, float]
_STEP_DEG = 1.0  # of an arc drawn as a line: 0.0004 mm short on a radius of 10 mm


class TemplateError(ValueError):
    """A tray that cannot be made into a template as it is asked for."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A closed line through corners."""

    layer: Layer
    about: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Round:
    """A circle."""

    layer: Layer
    about: str
    centre: Point
    diameter: float


@dataclass(frozen=True, slots=True)
class Slot:
    """A cut with round ends whose centres are `start` and `end`."""

    layer: Layer
    about: str
    start: Point
    end: Point
    width: float

    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Where its straight sides end: the second and the fourth are followed by a half circle.

        >>> Slot("cut", "s", (0.0, 0.0), (10.0, 0.0), 4.0).corners()
        ((0.0, -2.0), (10.0, -2.0), (10.0, 2.0), (0.0, 2.0))
        """
        (x0, y0), (x1, y1) = self.start, self.end
        long = math.hypot(x1 - x0, y1 - y0)
        across, along = (x1 - x0) / long * self.width / 2.0, (y1 - y0) / long * self.width / 2.0
        return ((x0 + along, y0 - across), (x1 + along, y1 - across),
                (x1 - along, y1 + across), (x0 - along, y0 + across))  # fmt: skip


@dataclass(frozen=True, slots=True)
class Stroke:
    """An open line through points."""

    layer: Layer
    about: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Word:
    """A name at the middle of it; `room` is what it may take along its own direction."""

    layer: Layer
    about: str
    at: Point
    text: str
    room: float
    upright: bool = False


Mark = Ring | Round | Slot | Stroke | Word


@dataclass(frozen=True, slots=True)
class Opening:
    """One opening of the tray as the list shows it; lengths in mm, as declared (before the kerf).

    needed_mm: the round opening that its leads need, None where no lead names it; too_narrow: the
    fit engine found it so.
    """

    number: int
    id: str
    purpose: str
    cut: str
    at: Point
    leads: int
    bundle_mm: float | None
    needed_mm: float | None
    too_narrow: bool


@dataclass(frozen=True, slots=True)
class Template:
    """A tray's template. `size_mm` is its length and width, `remarks` what is to be said of it."""

    aeroplane: str
    tray: str
    name: str
    thickness_mm: float
    kerf_mm: float
    size_mm: Point
    marks: tuple[Mark, ...]
    openings: tuple[Opening, ...]
    remarks: tuple[str, ...]

    def of(self, layer: Layer) -> tuple[Mark, ...]:
        """The marks of one layer, in their order."""
        return tuple(one for one in self.marks if one.layer == layer)

    def bounds(self) -> Box:
        """Lowest x and y, highest x and y of all that is drawn but words."""
        points = [p for one in self.marks if not isinstance(one, Word) for p in line_of(one)]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return min(xs), min(ys), max(xs), max(ys)


def line_of(mark: Ring | Round | Slot | Stroke) -> tuple[Point, ...]:
    """A mark as a line through points; closed ones end where they begin.

    >>> len(line_of(Round("cut", "h", (0.0, 0.0), 10.0)))
    361
    """
    if isinstance(mark, Stroke):
        return mark.points
    if isinstance(mark, Ring):
        return (*mark.points, mark.points[0])
    if isinstance(mark, Round):
        return arc(mark.centre, mark.diameter / 2.0, 0.0, 360.0)
    first, second, third, fourth = mark.corners()
    turn = math.degrees(math.atan2(mark.end[1] - mark.start[1], mark.end[0] - mark.start[0]))
    ends = (arc(mark.end, mark.width / 2.0, turn - 90.0, turn + 90.0),
            arc(mark.start, mark.width / 2.0, turn + 90.0, turn + 270.0))  # fmt: skip
    return (first, second, *ends[0][1:-1], third, fourth, *ends[1][1:-1], first)


def arc(centre: Point, radius: float, start_deg: float, end_deg: float) -> tuple[Point, ...]:
    """An arc as a line through points on it."""
    count = max(2, round(abs(end_deg - start_deg) / _STEP_DEG) + 1)
    angles = [math.radians(start_deg + (end_deg - start_deg) * k / (count - 1)) for k in range(count)]
    return tuple((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles)
