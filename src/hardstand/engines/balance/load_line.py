"""The vertical on which the CG of an aeroplane on scales must lie, in the aeroplane's axes.

The scales push straight up, so the CG lies on the vertical through their common centre of load.
x = sum R x / sum R as in FAA-H-8083-1B, Aircraft Weight and Balance Handbook (2016), chapter 3,
value from memory; the lean with the attitude follows from statics.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class LoadLine:
    """The vertical through the scales' centre of load.

    Attributes: mass_g; centre_mm (3,), a point of the line; lean (2,), how far x and y move per mm
    of z along it; by_reading_mm_per_g (K, 2), how x and y at a fixed z follow each reading; share
    (K,), each scale's part of the load, which is how they follow each contact point.
    """

    mass_g: float
    centre_mm: Floats
    lean: Floats
    by_reading_mm_per_g: Floats
    share: Floats


def scale_u_g(u_g: ArrayLike, resolution_g: ArrayLike) -> Floats:
    """Return a reading's standard uncertainty, rounding included: resolution / root 12 added.

    Rounding to a step of `resolution_g` spreads the truth evenly over one step. Source: JCGM
    100:2008, F.2.2.1, value from memory.

    >>> scale_u_g(2.0, 5.0).round(3).item()
    2.466
    """
    rounding = np.asarray(resolution_g, dtype=np.float64) / np.sqrt(12.0)
    return np.asarray(np.hypot(np.asarray(u_g, dtype=np.float64), rounding), dtype=np.float64)


def load_line(
    reading_g: ArrayLike, contact_mm: ArrayLike, pitch_deg: float = 0.0, roll_deg: float = 0.0
) -> LoadLine:
    """Find the line on which the CG lies.

    Parameters: reading_g (K,), tare off; contact_mm (K, 3), where each wheel touches its scale;
    pitch_deg nose up positive, roll_deg starboard down positive, of the aeroplane on the scales.
    Returns `LoadLine`. Raises ValueError for a negative reading or a total of 0.

    >>> load_line([1000, 2000, 2000], [[0, 0, 0], [900, -300, 0], [900, 300, 0]]).centre_mm.tolist()
    [720.0, 0.0, 0.0]
    """
    reading = np.asarray(reading_g, dtype=np.float64)
    contact = np.asarray(contact_mm, dtype=np.float64)
    mass = float(reading.sum())
    if np.any(~(reading >= 0.0)) or not mass > 0.0:
        raise ValueError("scale readings must not be negative and must add up to more than 0 g")
    pitch, roll = np.radians(pitch_deg), np.radians(roll_deg)
    share = reading / mass
    centre = share @ contact
    lean = np.array([-np.tan(pitch) / np.cos(roll), -np.tan(roll)])
    offset = contact - centre
    by_reading = (offset[:, :2] - offset[:, 2:] * lean) / mass
    return LoadLine(mass, centre, lean, by_reading, share)


def lean_by_degree(pitch_deg: float, roll_deg: float = 0.0) -> Floats:
    """Return how the lean (x, y) changes per degree of pitch and of roll, (2, 2): lean by angle.

    >>> lean_by_degree(0.0).round(5).tolist()
    [[-0.01745, 0.0], [0.0, -0.01745]]
    """
    pitch, roll = np.radians(pitch_deg), np.radians(roll_deg)
    slope = np.array(
        [
            [
                -1.0 / np.cos(pitch) ** 2 / np.cos(roll),
                -np.tan(pitch) * np.tan(roll) / np.cos(roll),
            ],
            [0.0, -1.0 / np.cos(roll) ** 2],
        ]
    )
    return np.asarray(np.radians(slope) + 0.0, dtype=np.float64)
