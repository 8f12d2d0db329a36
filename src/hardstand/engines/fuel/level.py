"""Where the liquid stands in one tank: level, centroid and inertia by fill and attitude."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.fuel.solids import Solid
from hardstand.engines.fuel.volume_integrals import integrals_below

Floats = NDArray[np.float64]
BISECTIONS = 60  # halves the bracket to below the spacing of double precision
KG_PER_G = 1e-3
M2_PER_MM2 = 1e-6


@dataclass(frozen=True, eq=False)
class Liquid:
    """The liquid in one tank at F fills.

    Attributes: volume_ml (F,); level_mm (F,), the surface's height from the aeroplane's origin
    along the upward direction; centroid_mm (F, 3) and spread_mm_mm (F, 3, 3), as in
    `VolumeIntegrals`, in the aeroplane's axes.
    """

    volume_ml: Floats
    level_mm: Floats
    centroid_mm: Floats
    spread_mm_mm: Floats

    def mass_g(self, density_g_per_ml: float) -> Floats:
        """Return the mass (F,), g, for a density in g per ml."""
        return self.volume_ml * density_g_per_ml

    def inertia_kgm2(self, density_g_per_ml: float) -> Floats:
        """Return the inertia tensor about the liquid's own centroid (F, 3, 3), kg m2.

        The liquid counts as frozen in place. Off the diagonal stand the products with a minus.
        """
        trace = np.trace(self.spread_mm_mm, axis1=-2, axis2=-1)
        tensor = trace[:, None, None] * np.eye(3) - self.spread_mm_mm
        mass_kg = self.mass_g(density_g_per_ml)[:, None, None] * KG_PER_G
        return np.asarray(mass_kg * tensor * M2_PER_MM2, dtype=np.float64)


def up_direction(
    pitch_deg: float, roll_deg: float = 0.0, forward_g: float = 0.0, load_factor: float = 1.0
) -> Floats:
    """Return the direction opposite to the apparent gravity, in the aeroplane's axes (3,).

    Parameters: pitch_deg, nose up positive; roll_deg, starboard wing down positive; forward_g, the
    acceleration along the nose as a multiple of g (a take-off run 0.5 or so; fuel is left behind);
    load_factor, the share of gravity that is felt: 1 on the ground and in steady flight.
    Raises ValueError when nothing is felt at all, as then there is no level.

    >>> up_direction(10.0).round(4).tolist()
    [-0.1736, 0.0, 0.9848]
    """
    pitch, roll = np.radians(pitch_deg), np.radians(roll_deg)
    up = np.array([-np.sin(pitch), -np.sin(roll) * np.cos(pitch), np.cos(roll) * np.cos(pitch)])
    felt = load_factor * up + np.array([-forward_g, 0.0, 0.0])
    size = float(np.linalg.norm(felt))
    if size < 1e-9:
        raise ValueError("without any felt gravity the fuel has no level")
    return np.asarray(felt / size, dtype=np.float64)


def liquid_in(solid: Solid, volume_ml: ArrayLike, up: ArrayLike) -> Liquid:
    """Find the liquid's level, centroid and spread in a tank for each of F volumes.

    Between the heights of neighbouring corners the volume below a level is a cubic in the level,
    so four levels in each such interval give it exactly and the root is found in that cubic. One
    open space is assumed: no baffle holds fuel back, air gets in everywhere.

    Parameters: solid, the inside of the tank in place; volume_ml (F,), from 0 to what the tank
    holds; up (3,), unit vector from `up_direction`. Returns `Liquid`. Raises ValueError for a
    volume outside the tank's (beyond one part in a million, which is taken as full).

    >>> from hardstand.engines.fuel.solids import box
    >>> half = liquid_in(box([300, 80, 70]), [840.0], up_direction(0.0))
    >>> half.level_mm.round(6).tolist(), half.centroid_mm.round(6).tolist()
    ([0.0], [[0.0, 0.0, -17.5]])
    """
    upward = np.asarray(up, dtype=np.float64)
    wanted = np.atleast_1d(np.asarray(volume_ml, dtype=np.float64))
    height = np.unique(solid.triangles_mm.reshape(-1, 3) @ upward)
    # Corners of equal height differ by rounding; intervals that thin would only cost time.
    height = height[np.append(True, np.diff(height) > 1e-9 * np.ptp(height))]
    thirds = np.array([0.0, 1.0, 2.0]) / 3.0
    levels = np.append(height[:-1, None] + np.diff(height)[:, None] * thirds, height[-1])
    below = integrals_below(solid, upward, levels).volume_ml
    capacity = below[-1]
    slack = 1e-6 * capacity
    if np.any(~((wanted >= -slack) & (wanted <= capacity + slack))):
        raise ValueError(f"a volume lies outside the tank's 0 to {capacity:.1f} ml")
    wanted = np.clip(wanted, 0.0, capacity)
    interval = np.clip(np.searchsorted(below[::3], wanted) - 1, 0, height.size - 2)
    nodes = below[3 * interval[:, None] + np.arange(4)]
    cubic = nodes @ np.linalg.inv(np.vander(np.arange(4) / 3.0, increasing=True)).T
    low, high = np.zeros_like(wanted), np.ones_like(wanted)
    for _ in range(BISECTIONS):
        middle = 0.5 * (low + high)
        value = ((cubic[:, 3] * middle + cubic[:, 2]) * middle + cubic[:, 1]) * middle + cubic[:, 0]
        under = value < wanted
        low, high = np.where(under, middle, low), np.where(under, high, middle)
    level = height[interval] + 0.5 * (low + high) * np.diff(height)[interval]
    part = integrals_below(solid, upward, level)
    return Liquid(wanted, level, part.centroid_mm, part.spread_mm_mm)
