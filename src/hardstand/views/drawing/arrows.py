"""Arrows of dimensions and section planes."""

from __future__ import annotations

import math

from hardstand.views.drawing.kinds import Line
from hardstand.views.drawing.shapes import Path, Point, area


def arrow(
    tip: Point, direction_deg: float, length: float, half_width: float, kind: Line = "solid"
) -> Path:
    """A filled arrow whose tip lies at a point; 0 degrees points to the right, 90 down the sheet.

    >>> arrow((10.0, 0.0), 0.0, 7.0, 2.0).strokes[0][0]
    (10.0, 0.0)
    """
    angle = math.radians(direction_deg)
    x, y = math.cos(angle), math.sin(angle)
    foot = tip[0] - x * length, tip[1] - y * length
    return area(
        kind,
        (
            tip,
            (foot[0] - y * half_width, foot[1] + x * half_width),
            (foot[0] + y * half_width, foot[1] - x * half_width),
        ),
    )
