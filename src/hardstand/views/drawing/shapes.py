"""What is drawn: paths, circles, texts, and groups of them that stand for one thing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from hardstand.views.drawing.kinds import Line, Use

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Path:
    """A line through points, or an area; `strokes` are apart from one another but one element."""

    line: Line
    strokes: tuple[tuple[Point, ...], ...]
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle about a point."""

    line: Line
    centre: Point
    radius: float


@dataclass(frozen=True, slots=True)
class Text:
    """A text at a point of its base line. `upright` is read from the right side of the sheet."""

    use: Use
    at: Point
    text: str
    anchor: Anchor = "start"
    halo: bool = True
    upright: bool = False
    quiet: bool = False


@dataclass(frozen=True, slots=True)
class Group:
    """Shapes that stand for one thing. `about` is its address; `part` which appearance of it.

    `data` are further facts for whoever selects in the drawing, as name and value.
    """

    about: str
    part: str
    shapes: tuple[Shape, ...]
    title: str = ""
    data: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Hatched:
    """Ground to be hatched inside an outline; how densely is decided by the medium when it is placed.

    `band` leaves the middle open: only a band inside the edges is hatched. `above` takes the outline
    as an open line and hatches a band above it: the forbidden side of a limit.
    """

    outline: tuple[Point, ...]
    rising: bool = True
    band: bool = True
    above: bool = False


Shape = Path | Circle | Text | Hatched | Group


@dataclass(frozen=True, slots=True)
class Placement:
    """From model millimetres to the sheet: `scale` in sheet units per mm, `at` where (0, 0) falls.

    The model's second axis goes up, the sheet's down. `mirrored` turns the first axis round.
    """

    scale: float
    at: Point
    mirrored: bool = False

    def point(self, u_mm: float, v_mm: float) -> Point:
        """A point of the model on the sheet.

        >>> Placement(0.5, (10.0, 100.0)).point(100.0, 20.0)
        (60.0, 90.0)
        """
        across = -u_mm if self.mirrored else u_mm
        return self.at[0] + across * self.scale, self.at[1] - v_mm * self.scale

    def points(self, points_mm: Iterable[Point]) -> tuple[Point, ...]:
        """Points of the model on the sheet."""
        return tuple(self.point(u, v) for u, v in points_mm)


def placed(shapes: Sequence[Shape], on: Placement) -> tuple[Shape, ...]:
    """Shapes recorded in model millimetres as they lie on the sheet. Lettering keeps its height.

    >>> placed([Circle("outline", (100.0, 0.0), 50.0)], Placement(0.5, (0.0, 0.0)))[0].radius
    25.0
    """
    return tuple(_placed(one, on) for one in shapes)


def _placed(shape: Shape, on: Placement) -> Shape:
    if isinstance(shape, Hatched):
        return replace(shape, outline=on.points(shape.outline))
    if isinstance(shape, Path):
        return replace(shape, strokes=tuple(on.points(one) for one in shape.strokes))
    if isinstance(shape, Circle):
        return replace(shape, centre=on.point(*shape.centre), radius=shape.radius * on.scale)
    if isinstance(shape, Text):
        return replace(shape, at=on.point(*shape.at))
    return replace(shape, shapes=placed(shape.shapes, on))


def line(kind: Line, *points: Point) -> Path:
    """An open line through points."""
    return Path(kind, (points,))


def area(kind: Line, points: Iterable[Point]) -> Path:
    """A closed line."""
    return Path(kind, (tuple(points),), closed=True)


def rectangle(kind: Line, left: float, top: float, right: float, bottom: float) -> Path:
    """An upright rectangle by two corners."""
    return area(kind, ((left, top), (right, top), (right, bottom), (left, bottom)))


def flat(shapes: Iterable[Shape]) -> list[Path | Circle | Text | Hatched]:
    """All shapes without their groups, in the order of drawing."""
    found: list[Path | Circle | Text | Hatched] = []
    for one in shapes:
        found += flat(one.shapes) if isinstance(one, Group) else [one]
    return found
