"""Outlines in plan as convex pieces, and columns of them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.shapes import polytope

if TYPE_CHECKING:
    from shapely import Polygon

_SAME_AREA = 1e-9


def convex_pieces(polygon: Polygon) -> list[Floats]:
    """A polygon, holes allowed, cut into convex ones: corners (V, 2) of each, not closed.

    Triangles that together are convex are put together again, so an L gives two pieces.

    >>> from shapely import Polygon
    >>> corner = Polygon([(0, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4)])
    >>> len(convex_pieces(corner)), len(convex_pieces(Polygon([(0, 0), (1, 0), (1, 1), (0, 1)])))
    (2, 1)
    """
    import shapely

    if _is_convex(polygon):
        return [_corners(polygon)]
    pieces = list(shapely.constrained_delaunay_triangles(polygon).geoms)
    merged: list[Any] = []
    while pieces:
        grown = pieces.pop()
        joined = True
        while joined:
            joined = False
            for k, other in enumerate(pieces):
                both = shapely.union(grown, other)
                if both.geom_type == "Polygon" and _is_convex(both):
                    grown, joined = both, True
                    del pieces[k]
                    break
        merged.append(grown)
    return [_corners(one) for one in merged]


def _is_convex(polygon: Any) -> bool:
    return not polygon.interiors and bool(
        polygon.convex_hull.area - polygon.area <= _SAME_AREA * polygon.convex_hull.area
    )


def _corners(polygon: Any) -> Floats:
    return np.asarray(polygon.convex_hull.exterior.coords, dtype=np.float64)[:-1]


def columns(polygon: Polygon, bottom_mm: float, top_mm: float) -> list[Body]:
    """A polygon in plan drawn out from one height to another, as convex bodies."""
    return [_column(corners, bottom_mm, top_mm) for corners in convex_pieces(polygon)]


def _column(corners: Floats, bottom_mm: float, top_mm: float) -> Body:
    low = np.column_stack([corners, np.full(len(corners), bottom_mm)])
    high = np.column_stack([corners, np.full(len(corners), top_mm)])
    return polytope(np.vstack([low, high]))


def wedges(
    profile_mm: Sequence[tuple[float, float]], y_mm: tuple[float, float], ceiling_mm: float
) -> list[Body]:
    """What is above a line of (x, z) points, over a band of y and up to a ceiling, as wedges.

    >>> [len(body.corners_mm) for body in wedges([(0, 5), (10, 8), (30, 2)], (-4, 4), 100)]
    [8, 8]
    """
    found = []
    for (x0, z0), (x1, z1) in pairwise(profile_mm):
        corners = [
            (x, y, z) for x, low in ((x0, z0), (x1, z1)) for y in y_mm for z in (low, ceiling_mm)
        ]
        found.append(polytope(corners))
    return found
