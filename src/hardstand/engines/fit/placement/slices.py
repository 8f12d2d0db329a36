"""What a solid takes in plan between two heights, as whole rectangles of the grid."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.layout.problem import Rectangle
from hardstand.engines.fit.layout.raster import as_rectangles
from hardstand.engines.fit.placement.grid import SHIFT_MM

_RIM = 24
_SLACK = 1e-6


def corners_mm(body: Body) -> Floats:
    """Corners (V, 3) whose hull holds the core of a solid; a cylinder's rim is drawn from without."""
    if body.kind == "polytope":
        own = body.corners_mm
    elif body.kind == "cylinder":
        angle = np.arange(_RIM) * 2.0 * np.pi / _RIM
        radius = body.half_mm[0] / np.cos(np.pi / _RIM)
        rim = np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])
        own = np.vstack([np.column_stack([rim, np.full(_RIM, z)]) for z in (-body.half_mm[2],
                                                                           body.half_mm[2])])
    else:
        signs = np.array([(x, y, z) for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)])
        own = signs * body.half_mm
    return np.asarray(body.centre_mm + own @ body.rotation.T)


def shadow(body: Body, low_mm: float, high_mm: float, grow_mm: float) -> Any:
    """The plan of what lies of a solid between two heights, grown all round; None where nothing does.

    >>> from hardstand.engines.fit.shapes import box
    >>> shadow(box((0, 0, 5), (10, 4, 10)), 2.0, 8.0, 1.0).bounds
    (-6.0, -3.0, 6.0, 3.0)
    >>> shadow(box((0, 0, 5), (10, 4, 10)), 11.0, 18.0, 1.0) is None
    True
    """
    import shapely

    points = corners_mm(body)
    low, high = low_mm - body.margin_mm, high_mm + body.margin_mm
    z = points[:, 2]
    if z.min() >= high or z.max() <= low:
        return None
    found = [points[(z > low) & (z < high), :2]]
    for level in (low, high):
        below, above = np.flatnonzero(z <= level), np.flatnonzero(z >= level)
        a, b = (one.ravel() for one in np.meshgrid(below, above, indexing="ij"))
        rise = z[b] - z[a]
        share = np.divide(level - z[a], rise, out=np.zeros(len(a)), where=rise > 0.0)
        found.append(points[a, :2] + share[:, None] * (points[b, :2] - points[a, :2]))
    hull = shapely.MultiPoint(np.vstack(found)).convex_hull
    return hull.buffer(max(body.margin_mm + grow_mm, _SLACK), join_style="mitre")


def outside(area: Any, window: Rectangle) -> list[Rectangle]:
    """What is not in an area in the aeroplane's plan, as rectangles of the grid within a window.

    >>> from shapely import box
    >>> [(r.x0_mm, r.x1_mm) for r in outside(box(-5.5, 0.5, 5.5, 9.5), Rectangle(-9, 9, 0, 11))]
    [(-9, -5), (6, 9), (-5, 6), (-5, 6)]
    """
    import shapely

    w = window
    everywhere = shapely.box(
        w.x0_mm - SHIFT_MM, w.y0_mm - SHIFT_MM, w.x1_mm - SHIFT_MM, w.y1_mm - SHIFT_MM
    )
    x0, y0, x1, y1 = (value + SHIFT_MM for value in area.bounds)
    if area.is_empty or abs((x1 - x0) * (y1 - y0) - area.area) > _SLACK * max(1.0, area.area):
        return rectangles(everywhere.difference(area), window)
    ax, ay, bx, by = math.ceil(x0 - _SLACK), math.ceil(y0 - _SLACK), math.floor(x1), math.floor(y1)
    sides = (
        Rectangle(w.x0_mm, min(ax, w.x1_mm), w.y0_mm, w.y1_mm),
        Rectangle(max(bx, w.x0_mm), w.x1_mm, w.y0_mm, w.y1_mm),
        Rectangle(max(ax, w.x0_mm), min(bx, w.x1_mm), w.y0_mm, min(ay, w.y1_mm)),
        Rectangle(max(ax, w.x0_mm), min(bx, w.x1_mm), max(by, w.y0_mm), w.y1_mm),
    )
    return [one for one in sides if one.x0_mm < one.x1_mm and one.y0_mm < one.y1_mm]


def rectangles(area: Any, window: Rectangle) -> list[Rectangle]:
    """An area in the aeroplane's plan as rectangles of the grid that cover it, within a window.

    >>> from shapely import box
    >>> rectangles(box(0.2, 0.0, 9.0, 4.0), Rectangle(-50, 50, -50, 50))
    [Rectangle(x0_mm=0, x1_mm=10, y0_mm=0, y1_mm=5)]
    """
    import shapely

    x0, y0, x1, y1 = (value + SHIFT_MM for value in area.bounds)
    at = Rectangle(
        max(window.x0_mm, math.floor(x0 + _SLACK)), min(window.x1_mm, math.ceil(x1 - _SLACK)),
        max(window.y0_mm, math.floor(y0 + _SLACK)), min(window.y1_mm, math.ceil(y1 - _SLACK)),
    )  # fmt: skip
    if at.x0_mm >= at.x1_mm or at.y0_mm >= at.y1_mm:
        return []
    if abs((x1 - x0) * (y1 - y0) - area.area) <= _SLACK * max(1.0, area.area):
        return [at]
    low_x, low_y = np.meshgrid(
        np.arange(at.x0_mm, at.x1_mm) - SHIFT_MM, np.arange(at.y0_mm, at.y1_mm) - SHIFT_MM,
        indexing="ij",
    )  # fmt: skip
    cells: Any = shapely.box(low_x + _SLACK, low_y + _SLACK, low_x + 1 - _SLACK, low_y + 1 - _SLACK)
    shapely.prepare(area)
    return as_rectangles(shapely.intersects(area, cells), (at.x0_mm, at.y0_mm))
