"""Where the liquid stands in one tank, by fill and attitude."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.fuel.liquid import Liquid
from hardstand.engines.fuel.solids import Solid
from hardstand.engines.fuel.volume_below import volume_below_ml
from hardstand.engines.fuel.volume_integrals import integrals_below

Floats = NDArray[np.float64]
BISECTIONS = 60  # halves the bracket to below the spacing of double precision


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


@dataclass(frozen=True, eq=False)
class Gauge:
    """What a dipstick for one tank in one attitude would have engraved: volume below each height.

    Attributes: solid; up (3,); height_mm (H,), of the corners, rising; below_ml (3 H - 2,), the
    volume below each of them and at the two thirds between neighbours.
    """

    solid: Solid
    up: Floats
    height_mm: Floats
    below_ml: Floats

    def filled(self, volume_ml: ArrayLike) -> Liquid:
        """Return the liquid for each of F volumes, from 0 to what the tank holds.

        Raises ValueError for a volume outside the tank's (beyond one part in a million, which is
        taken as full).
        """
        wanted = np.atleast_1d(np.asarray(volume_ml, dtype=np.float64))
        capacity = self.below_ml[-1]
        slack = 1e-6 * capacity
        if np.any(~((wanted >= -slack) & (wanted <= capacity + slack))):
            raise ValueError(f"a volume lies outside the tank's 0 to {capacity:.1f} ml")
        wanted = np.clip(wanted, 0.0, capacity)
        interval = np.searchsorted(self.below_ml[::3], wanted) - 1
        interval = np.clip(interval, 0, self.height_mm.size - 2)
        nodes = self.below_ml[3 * interval[:, None] + np.arange(4)]
        share = _root_of_cubic(nodes, wanted)
        level = self.height_mm[interval] + share * np.diff(self.height_mm)[interval]
        part = integrals_below(self.solid, self.up, level)
        return Liquid(wanted, level, part.centroid_mm, part.spread_mm_mm)


def _root_of_cubic(nodes: Floats, wanted: Floats) -> Floats:
    """Return where on 0 to 1 the rising cubic through four equally spaced nodes has a value."""
    cubic = nodes @ np.linalg.inv(np.vander(np.arange(4) / 3.0, increasing=True)).T
    low, high = np.zeros_like(wanted), np.ones_like(wanted)
    for _ in range(BISECTIONS):
        middle = 0.5 * (low + high)
        value = ((cubic[:, 3] * middle + cubic[:, 2]) * middle + cubic[:, 1]) * middle + cubic[:, 0]
        under = value < wanted
        low, high = np.where(under, middle, low), np.where(under, high, middle)
    return np.asarray(0.5 * (low + high), dtype=np.float64)


def gauge(solid: Solid, up: ArrayLike) -> Gauge:
    """Engrave the dipstick of a tank for one attitude.

    Between the heights of neighbouring corners the volume below a level is a cubic in the level,
    so four levels in each such interval give it exactly. One open space is assumed: no baffle holds
    fuel back, air gets in everywhere. Parameters: solid, the inside of the tank; up (3,), unit
    vector from `up_direction`.

    >>> from hardstand.engines.fuel.solids import box
    >>> gauge(box([300, 80, 70]), up_direction(0.0)).below_ml.round(3).tolist()
    [0.0, 560.0, 1120.0, 1680.0]
    """
    upward = np.asarray(up, dtype=np.float64)
    height = np.unique(solid.triangles_mm.reshape(-1, 3) @ upward)
    # Corners of equal height differ by rounding; intervals that thin would only cost time.
    height = height[np.append(True, np.diff(height) > 1e-9 * np.ptp(height))]
    thirds = np.array([0.0, 1.0, 2.0]) / 3.0
    levels = np.append(height[:-1, None] + np.diff(height)[:, None] * thirds, height[-1])
    return Gauge(solid, upward, height, volume_below_ml(solid, upward, levels))


def liquid_in(solid: Solid, volume_ml: ArrayLike, up: ArrayLike) -> Liquid:
    """Find the liquid's level, centroid and spread in a tank for each of F volumes.

    Parameters: solid, the inside of the tank in place; volume_ml (F,), from 0 to what the tank
    holds; up (3,), unit vector from `up_direction`. Returns `Liquid`; assumptions as `gauge`,
    errors as `Gauge.filled`.

    >>> from hardstand.engines.fuel.solids import box
    >>> half = liquid_in(box([300, 80, 70]), [840.0], up_direction(0.0))
    >>> half.level_mm.round(6).tolist(), half.centroid_mm.round(6).tolist()
    ([0.0], [[0.0, 0.0, -17.5]])
    """
    return gauge(solid, up).filled(volume_ml)
