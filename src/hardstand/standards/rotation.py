"""Turning in the aeroplane's axes: x aft, y to starboard, z up, all in degrees.

`turn_deg` is about z, positive from x to y. `tilt_deg` is (roll about x, pitch about y), applied
before the turn. Angles that are whole quarter turns give exact zeros and ones.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def _exact(angle_deg: float) -> tuple[float, float]:
    quarter, rest = divmod(angle_deg, 90.0)
    if rest == 0.0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    angle = np.radians(angle_deg)
    return float(np.cos(angle)), float(np.sin(angle))


def rotation(turn_deg: float, tilt_deg: Sequence[float] = (0.0, 0.0)) -> Array:
    """Rotation matrix, shape (3, 3), from an item's own axes to the aeroplane's; not to be written to.

    >>> rotation(90.0)[:, 0].tolist()
    [0.0, 1.0, 0.0]
    """
    return _matrix(float(turn_deg), float(tilt_deg[0]), float(tilt_deg[1]))


@lru_cache(maxsize=256)  # hundreds of items stand in a handful of attitudes
def _matrix(turn_deg: float, roll_deg: float, pitch_deg: float) -> Array:
    ct, st = _exact(turn_deg)
    cr, sr = _exact(roll_deg)
    cp, sp = _exact(pitch_deg)
    about_z = np.array([[ct, -st, 0.0], [st, ct, 0.0], [0.0, 0.0, 1.0]])
    about_y = np.array([[cp, 0.0, sp], [0.0, 1.0, 0.0], [-sp, 0.0, cp]])
    about_x = np.array([[1.0, 0.0, 0.0], [0.0, cr, -sr], [0.0, sr, cr]])
    product: Array = about_z @ about_y @ about_x + 0.0
    product.setflags(write=False)
    return product


def turned(
    vector: Sequence[float], turn_deg: float, tilt_deg: Sequence[float] = (0.0, 0.0)
) -> tuple[float, float, float]:
    """A vector of an item's own axes in the aeroplane's, any unit.

    >>> turned((10.0, 0.0, 0.0), 180.0)
    (-10.0, 0.0, 0.0)
    """
    x, y, z = (
        float(one) for one in rotation(turn_deg, tilt_deg) @ np.asarray(vector, dtype=np.float64)
    )
    return x, y, z


def box_extent_mm(
    size_mm: Sequence[float], turn_deg: float, tilt_deg: Sequence[float] = (0.0, 0.0)
) -> tuple[float, float, float]:
    """Extent along x, y and z of a box of `size_mm` once turned and tilted, mm.

    >>> box_extent_mm((60.0, 40.0, 20.0), 90.0)
    (40.0, 60.0, 20.0)
    """
    x, y, z = (
        float(one)
        for one in np.abs(rotation(turn_deg, tilt_deg)) @ np.asarray(size_mm, dtype=np.float64)
    )
    return x, y, z
