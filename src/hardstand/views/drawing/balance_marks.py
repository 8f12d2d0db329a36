"""The marks of the CG (quartered disc) and of the neutral point (ring with a dot)."""

from __future__ import annotations

import math

from hardstand.views.drawing.kinds import Line
from hardstand.views.drawing.shapes import Circle, Point, Shape, area

_STEPS = 8


def cg_mark(at: Point, radius: float, *, accent: bool = False) -> tuple[Shape, ...]:
    """The CG: a disc with two opposite quarters filled."""
    solid: Line = "accent-solid" if accent else "solid"
    quarters = tuple(area(solid, (at, *_arc(at, radius, start))) for start in (90.0, 270.0))
    edge: Line = "accent" if accent else "outline"
    return (Circle("paper", at, radius), *quarters, Circle(edge, at, radius))


def neutral_point_mark(at: Point, radius: float) -> tuple[Shape, ...]:
    """The neutral point: a ring with a dot."""
    return (Circle("item", at, radius), Circle("solid", at, radius * 0.28))


def _arc(at: Point, radius: float, start_deg: float) -> list[Point]:
    angles = (math.radians(start_deg + 90.0 * step / _STEPS) for step in range(_STEPS + 1))
    return [(at[0] + radius * math.cos(one), at[1] - radius * math.sin(one)) for one in angles]
