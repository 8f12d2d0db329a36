"""How far rectangles in plan lie inside an outline, with sign, and how that follows their sides."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.figures import Input

if TYPE_CHECKING:
    from shapely import Polygon

Floats = NDArray[np.float64]
_STEP_MM = 1e-3
_DENSE_MM = 1.0


def spare_within(outline: Polygon, rectangle_mm: Floats) -> Floats:
    """Spare (N,) of rectangles (N, 4: low x, low y, high x, high y) within an outline, any shape.

    Positive: the least distance of the rectangle to the outline. Negative: the farthest that any
    of it hangs over, exact where a corner does; over a notch found to 0.5 mm.

    >>> from shapely import Polygon
    >>> tray = Polygon([(0, 0), (100, 0), (100, 60), (0, 60)])
    >>> spare_within(tray, np.array([[5.0, 10.0, 50.0, 40.0], [-3.0, 10.0, 50.0, 40.0]])).tolist()
    [5.0, -3.0]
    """
    import shapely

    shapely.prepare(outline)
    flat: Any = shapely.box(*rectangle_mm.T)
    spare: Floats = np.asarray(shapely.distance(flat, outline.boundary))
    beyond = np.flatnonzero(~shapely.covers(outline, flat))
    if len(beyond):
        over = shapely.segmentize(shapely.difference(flat[beyond], outline), _DENSE_MM)
        points, of = shapely.get_coordinates(over, return_index=True)
        farthest = np.zeros(len(beyond))
        np.maximum.at(farthest, of, shapely.distance(shapely.points(points), outline))
        spare[beyond] = -farthest
    return np.asarray(spare, dtype=np.float64)


def slopes_within(outline: Polygon, rectangle_mm: Floats) -> tuple[Floats, Floats]:
    """The spare (N,) of rectangles (N, 4), and how it changes (N, 4).

    That is with x, with y, and with half the rectangle's extent in x and in y. Where it is equally
    near two edges, the larger change counts: it errs to the safe side.
    """
    x, y = _STEP_MM * np.array([1.0, 0.0, 1.0, 0.0]), _STEP_MM * np.array([0.0, 1.0, 0.0, 1.0])
    wide, long = np.array([-1.0, 0.0, 1.0, 0.0]), np.array([0.0, -1.0, 0.0, 1.0])
    steps = np.array([x, y, _STEP_MM * wide, _STEP_MM * long])
    tried = rectangle_mm[:, None] + np.concatenate([np.zeros((1, 4)), steps, -steps])
    spare = spare_within(outline, tried.reshape(-1, 4)).reshape(-1, len(steps) * 2 + 1)
    here = spare[:, :1]
    up, down = (spare[:, 1:5] - here) / _STEP_MM, (here - spare[:, 5:]) / _STEP_MM
    return here[:, 0], np.where(np.abs(up) >= np.abs(down), up, down)


def footprint_mm(centre_mm: Any, extent_mm: Any) -> Floats:
    """The rectangle in plan (4,) about a middle with full extents, both given with x and y first.

    >>> footprint_mm((10.0, 0.0, 5.0), (6.0, 4.0, 2.0)).tolist()
    [7.0, -2.0, 13.0, 2.0]
    """
    (x, y), (length, width) = centre_mm[:2], extent_mm[:2]
    half = np.array([length / 2.0, width / 2.0])
    return np.array([x - half[0], y - half[1], x + half[0], y + half[1]], dtype=np.float64)


def plane_slopes(frame: ItemFrame, axes: tuple[int, int], by_side: Floats) -> dict[Input, float]:
    """Slopes by an item's inputs from those of its rectangle in a plane of two axes (4,).

    `by_side` is as `slopes_within` gives it. On a tray the middle rises with the item's height.
    """
    chosen = list(axes)
    slopes = {one: float(way[chosen] @ by_side[:2]) for one, way in frame.places}
    grows = np.abs(frame.rotation[chosen]) / 2.0
    for k, one in enumerate(frame.sizes):
        lift = float(frame.lift[k] * by_side[1]) if axes[1] == 2 else 0.0
        slopes[one] = float(by_side[2:] @ grows[:, k]) + lift
    return {one: slope for one, slope in slopes.items() if slope != 0.0}
