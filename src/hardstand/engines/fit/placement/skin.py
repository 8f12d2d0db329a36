"""Where the skin of a bay leaves no room for a part at its height, as cells of the grid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hardstand.engines.fit.bay_shape import BayShape, within_outline
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.layout.problem import Rectangle
from hardstand.engines.fit.layout.raster import as_rectangles
from hardstand.engines.fit.placement.grid import SHIFT_MM

_STEP_MM = 5


def beyond_skin(
    shape: BayShape, heights_mm: Sequence[float], least_mm: float, window: Rectangle
) -> list[Rectangle]:
    """Rectangles of the grid in which a part is nearer to the skin than `least_mm`.

    heights_mm: at which the part is looked at: its lowest and highest where the sections are convex.
    Beyond the bay's ends nothing is said. The skin is looked at every 5 mm and at its stations, where
    it may turn; between two looks a cell counts by its worst corner.
    """
    stations = shape.stations_mm + SHIFT_MM
    looks = np.concatenate(
        [
            np.arange(window.x0_mm, window.x1_mm, _STEP_MM), [window.x1_mm],
            np.floor(stations), np.ceil(stations),
        ]
    )  # fmt: skip
    nodes = np.unique(looks[(looks >= window.x0_mm) & (looks <= window.x1_mm)]).astype(int)
    x = np.asarray(nodes - SHIFT_MM, dtype=np.float64)
    y = np.asarray(np.arange(window.y0_mm, window.y1_mm + 1) - SHIFT_MM, dtype=np.float64)
    least = np.full((len(x), len(y)), np.inf)
    for z in heights_mm:
        np.minimum(least, _depths(shape, x, y, z), out=least)
    short = least < least_mm
    cells = short[1:, 1:] | short[:-1, 1:] | short[1:, :-1] | short[:-1, :-1]
    between = as_rectangles(cells, (0, window.y0_mm))
    return [replace(r, x0_mm=int(nodes[r.x0_mm]), x1_mm=int(nodes[r.x1_mm])) for r in between]


def _depths(shape: BayShape, x: Floats, y: Floats, z: float) -> Floats:
    """How far (X, Y) points at one height lie within the skin, as `BayShape.depth` has it."""
    stations = shape.stations_mm
    after = np.clip(np.searchsorted(stations, x), 1, len(stations) - 1)
    points = np.column_stack([y, np.full(len(y), z)])
    used = np.unique(np.concatenate([after - 1, after]))
    at = {int(k): within_outline(shape.outlines[int(k)], points)[0] for k in used}
    first = np.array([at[int(k) - 1] for k in after])
    last = np.array([at[int(k)] for k in after])
    span = (stations[after] - stations[after - 1])[:, None]
    share = np.clip((x[:, None] - stations[after - 1][:, None]) / span, 0.0, 1.0)
    steep = np.sqrt(1.0 + ((last - first) / span) ** 2)
    return np.where(shape.covers(x)[:, None], (first + share * (last - first)) / steep, np.inf)
