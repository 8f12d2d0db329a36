"""Only the volume of a closed solid below many levels: what a dipstick needs."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.fuel.solids import Solid

Floats = NDArray[np.float64]
MM3_PER_ML = 1000.0


def volume_below_ml(solid: Solid, up: ArrayLike, level_mm: ArrayLike) -> Floats:
    """Return only the volume of the part below each level (L,), ml, as `integrals_below` does.

    >>> from hardstand.engines.fuel.solids import box
    >>> volume_below_ml(box([10, 20, 30]), [0, 0, 1], [-5.0, 15.0]).round(6).tolist()
    [2.0, 6.0]
    """
    upward = np.asarray(up, dtype=np.float64)
    level = np.atleast_1d(np.asarray(level_mm, dtype=np.float64))
    middle = solid.triangles_mm.mean(axis=(0, 1))
    centred = solid.triangles_mm - middle
    height = (centred @ upward)[None] - (level - middle @ upward)[:, None, None]
    # Divergence theorem with the field (height above the plane) x up, which is 0 on the cut face.
    side_one, side_two = centred[:, 1] - centred[:, 0], centred[:, 2] - centred[:, 0]
    shadow = 0.5 * np.cross(side_one, side_two) @ upward
    return np.asarray(_mean_under(height) @ shadow / MM3_PER_ML, dtype=np.float64)


def _mean_under(height_mm: Floats) -> Floats:
    """Return the mean over triangles of the height where negative, from corners (..., T, 3)."""
    low, middle, high = np.moveaxis(np.sort(height_mm, axis=-1), -1, 0)
    lone_under, lone_above = (low < 0.0) & (middle >= 0.0), (middle < 0.0) & (high > 0.0)
    tip = low**3 / np.where(lone_under, (middle - low) * (high - low), 1.0)
    above = high**3 / np.where(lone_above, (high - low) * (high - middle), 1.0)
    whole = np.where(high <= 0.0, low + middle + high, 0.0)
    cut = np.where(lone_under, tip, np.where(lone_above, low + middle + high - above, whole))
    return np.asarray(cut / 3.0, dtype=np.float64)
