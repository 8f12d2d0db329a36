"""The CG's height from two weighings: one about level, one with the nose raised.

Each weighing gives a line on which the CG lies; in the aeroplane's axes they cross at the CG. With
the first level this is z = [(x_m - x) - (N / M) B] / tan(theta) above the main contact line, the
handbook formula (common practice, no source). Caution: fuel runs aft when the nose is raised, so
weigh with the tanks empty or full, wheels chocked, two people.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.balance.load_line import LoadLine, lean_by_degree, load_line

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class CgHeight:
    """Where two weighings cross: x_mm, z_mm, and u_z_mm, the height's standard uncertainty."""

    x_mm: float
    z_mm: float
    u_z_mm: float


def wheel_contacts(
    axle_mm: ArrayLike, radius_mm: ArrayLike, pitch_deg: float, roll_deg: float = 0.0
) -> Floats:
    """Return where round wheels touch the ground in an attitude, in the aeroplane's axes (K, 3).

    A wheel touches straight below its axle, which with the nose raised is further aft in the
    aeroplane. Parameters: axle_mm (K, 3), middle of each tyre; radius_mm (K,) or one, under load;
    angles as in `load_line`.

    >>> wheel_contacts([[560.0, 0.0, -250.0]], 60.0, 10.0).round(2).tolist()
    [[570.42, 0.0, -309.09]]
    """
    pitch, roll = np.radians(pitch_deg), np.radians(roll_deg)
    down = np.array([np.sin(pitch), np.sin(roll) * np.cos(pitch), -np.cos(roll) * np.cos(pitch)])
    radius = np.asarray(radius_mm, dtype=np.float64)
    axle = np.asarray(axle_mm, dtype=np.float64)
    return np.asarray(axle + radius[..., None] * down, dtype=np.float64)


@dataclass(frozen=True, eq=False)
class Attitude:
    """One weighing: reading_g (K,), contact_mm (K, 3) in that attitude, pitch_deg nose up."""

    reading_g: ArrayLike
    contact_mm: ArrayLike
    pitch_deg: float

    def line(self) -> LoadLine:
        """Return the line on which this weighing puts the CG."""
        return load_line(self.reading_g, self.contact_mm, self.pitch_deg)


def cg_height(
    level: Attitude,
    raised: Attitude,
    *,
    u_reading_g: float,
    u_contact_mm: float,
    u_pitch_deg: float,
) -> CgHeight:
    """Find the CG's height from two weighings on the same wheels.

    Valid for pitch alone (no roll), legs that don't move under the shift of load, fuel that stays.
    Parameters: the two weighings, wheels in the same order; standard uncertainties of each reading
    (of both weighings, independent), of each contact station (the same error in both, as it is the
    same leg) and of each pitch. Returns `CgHeight`.
    Raises ValueError for less than 3 degrees between the two, where the crossing is worth nothing.

    >>> first = Attitude([1500, 11500], [[0, 0, 0], [1000, 0, 0]], 0.0)
    >>> second = Attitude([1240, 11760], [[0, 0, 0], [1000, 0, 0]], 5.0)
    >>> found = cg_height(first, second, u_reading_g=5, u_contact_mm=1, u_pitch_deg=0.1)
    >>> round(found.z_mm, 1), round(found.u_z_mm, 1)
    (228.6, 8.6)
    """
    if abs(raised.pitch_deg - level.pitch_deg) < 3.0:
        raise ValueError("raise the nose by 3 degrees or more between the two weighings")
    one, two = level.line(), raised.line()
    between = one.lean[0] - two.lean[0]
    # x = centre + lean (z - centre z) on both lines.
    foot_one, foot_two = (
        line.centre_mm[0] - line.lean[0] * line.centre_mm[2] for line in (one, two)
    )
    z_mm = (foot_two - foot_one) / between
    errors = [u_contact_mm * (two.share - one.share) / between]
    for line, attitude in ((one, level), (two, raised)):
        # At the crossing's height: what moves the line's x there moves z by that over `between`.
        errors.append(u_reading_g * line.by_reading_mm_per_g[:, 0] / between)
        turn = lean_by_degree(attitude.pitch_deg)[0, 0] * (z_mm - line.centre_mm[2])
        errors.append(np.array([u_pitch_deg * turn / between]))
    spread = np.concatenate(errors)
    x_mm = foot_one + one.lean[0] * z_mm
    return CgHeight(float(x_mm), float(z_mm), float(np.sqrt(spread @ spread)))
