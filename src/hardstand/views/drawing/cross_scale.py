"""The scale across the fuselage (y, or z in elevation) at the left of a view."""

from __future__ import annotations

import math

from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.ruler import figure, round_step
from hardstand.views.drawing.shapes import Path, Placement, Shape, Text, line


def cross_scale(
    name: str, low_mm: float, high_mm: float, right: float, on: Placement, medium: Medium
) -> tuple[Shape, ...]:
    """An upright scale whose line stands at `right`, with its figures to the left of it."""
    unit = medium.unit
    major = round_step(22.0 * unit / on.scale)
    minor = major / 5.0
    shapes: list[Shape] = [line("thin", (right, on.point(0.0, low_mm)[1]), (right, on.point(0.0, high_mm)[1]))]
    ticks = []
    size = medium.height("tick")
    for number in range(math.ceil(low_mm / minor), math.floor(high_mm / minor) + 1):
        y = on.point(0.0, number * minor)[1]
        long = 8.0 if number % 5 == 0 else 4.0
        ticks.append(((right, y), (right + long * unit, y)))
        if number % 5 == 0:
            at = (right - 4.0 * unit, y + 0.36 * size)
            shapes.append(Text("tick", at, figure(round(number * minor, 6)), "end"))
    top = on.point(0.0, high_mm)[1] - 8.0 * unit
    shapes.append(Text("micro", (right - 4.0 * unit, top), name, "end"))
    return (*shapes, Path("thin", tuple(ticks)))
