"""Solids made from solids: the part below a plane, and one scaled to hold a stated volume."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from hardstand.engines.fuel.solids import Solid
from hardstand.engines.fuel.volume_integrals import corners_cut, integrals


def clip(solid: Solid, up: ArrayLike, level_mm: float) -> Solid:
    """Return the part of a convex solid below a plane, closed by its cut face.

    Parameters: up (3,), unit vector; level_mm, height of the plane from the origin along `up`.
    Raises ValueError when nothing is left.

    >>> from hardstand.engines.fuel.solids import box
    >>> integrals(clip(box([10, 10, 10]), [0, 0, 1], 0.0)).volume_ml.round(6).tolist()
    [0.5]
    """
    triangles = solid.triangles_mm
    height = triangles @ np.asarray(up, dtype=np.float64) - level_mm
    if height.min() >= 0.0:
        raise ValueError("the plane leaves nothing of the solid")
    count, tip, rolled = corners_cut(triangles, height)
    one, two = count == 1, count == 2
    first, last = tip[:, 1], tip[:, 2]
    pieces = [
        triangles[count == 3],
        tip[one],
        np.stack([first, rolled[:, 1], rolled[:, 2]], axis=1)[two],
        np.stack([first, rolled[:, 2], last], axis=1)[two],
    ]
    # A triangle's cut edge runs first -> last when its lone corner is kept, else last -> first.
    start = np.concatenate([first[one], last[two]])
    end = np.concatenate([last[one], first[two]])
    if start.size:
        hub = np.broadcast_to(start.mean(axis=0), start.shape)
        pieces.append(np.stack([hub, end, start], axis=1))
    return Solid(np.concatenate(pieces))


def scaled_to_volume(solid: Solid, volume_ml: float) -> Solid:
    """Return the solid shrunk or grown about its centroid until it holds `volume_ml` (> 0).

    A tank's outside box is bigger than what it holds; this makes the inside from it.

    >>> from hardstand.engines.fuel.solids import box
    >>> integrals(scaled_to_volume(box([330, 80, 70]), 1650.0)).volume_ml.round(6).tolist()
    [1650.0]
    """
    if not volume_ml > 0.0:
        raise ValueError(f"a tank's volume must be above 0 ml, not {volume_ml}")
    whole = integrals(solid)
    factor = np.cbrt(volume_ml / whole.volume_ml[0])
    centre = whole.centroid_mm[0]
    return Solid(centre + factor * (solid.triangles_mm - centre))
