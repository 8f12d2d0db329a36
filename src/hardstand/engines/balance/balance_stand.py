"""A two-point stand under the wing: which way it tips, and what levels it, give the CG.

Both supports stand at one station; the aeroplane, held level, tips towards its CG. A weight at a
known station that just levels it gives the CG exactly: M x + w s = (M + w) x_stand. Common
practice, no source (a moment balance). Only valid level, as the CG stands above or below the
supports. Caution: two people, hands under the nose and tail; tanks and trap in the stated state.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class StandBounds:
    """Where the CG must be: between low_mm and high_mm (an infinity where nothing bounds it).

    Both are already widened by twice their standard uncertainty and the support's half-width.
    """

    low_mm: float
    high_mm: float


@dataclass(frozen=True)
class StandCg:
    """A levelled stand's answer: x_mm, its standard uncertainty, and how x follows each input.

    Attributes: by_stand and by_weight_station in mm per mm, by_weight_mm_per_g, by_mass_mm_per_g.
    """

    x_mm: float
    u_x_mm: float
    by_stand: float
    by_weight_mm_per_g: float
    by_weight_station: float
    by_mass_mm_per_g: float


@dataclass(frozen=True)
class StandErrors:
    """Standard uncertainties: u_stand_mm, u_weight_g, u_weight_station_mm, u_mass_g.

    pad_half_width_mm: half of the length over which a support bears, an even spread.
    """

    u_stand_mm: float
    u_weight_g: float
    u_weight_station_mm: float
    u_mass_g: float
    pad_half_width_mm: float = 0.0


def levelled(
    stand_mm: float, weight_g: float, weight_at_mm: float, mass_g: float, errors: StandErrors
) -> StandCg:
    """Return the CG of an aeroplane that a weight just levels: x = x_stand + (w / M)(x_stand - s).

    Parameters: stand_mm, the supports' station; weight_g (0 when it balances by itself) at
    weight_at_mm; mass_g of the aeroplane without the weight. Returns `StandCg`.
    Raises ValueError for a mass that isn't above 0 or a negative weight.

    >>> found = levelled(1295.0, 50.0, 200.0, 13341.0, StandErrors(1.0, 1.0, 2.0, 20.0))
    >>> round(found.x_mm, 1), round(found.u_x_mm, 1)
    (1299.1, 1.0)
    """
    if not mass_g > 0.0 or not weight_g >= 0.0:
        raise ValueError("the aeroplane must weigh more than 0 g and the weight not less")
    arm_mm = stand_mm - weight_at_mm
    ratio = weight_g / mass_g
    slopes = np.array([1.0 + ratio, arm_mm / mass_g, -ratio, -ratio * arm_mm / mass_g])
    stand_u = np.hypot(errors.u_stand_mm, errors.pad_half_width_mm / np.sqrt(3.0))
    u = np.array([stand_u, errors.u_weight_g, errors.u_weight_station_mm, errors.u_mass_g])
    u_x = float(np.sqrt(np.sum((slopes * u) ** 2)))
    return StandCg(stand_mm + ratio * arm_mm, u_x, *(float(slope) for slope in slopes))


def bounds_from_tipping(
    stand_mm: ArrayLike,
    tips: list[Literal["nose", "tail"]],
    u_stand_mm: float,
    pad_half_width_mm: float = 0.0,
) -> StandBounds:
    """Return where the CG must be, from the way the aeroplane tips on one or several stations.

    Nose down: the CG is ahead of the supports; tail down: behind them. Parameters: stand_mm (K,),
    tips (K,), "nose" or "tail"; u_stand_mm of each station; pad_half_width_mm, half of the length
    over which a support bears. Returns `StandBounds`.
    Raises ValueError when two tips contradict each other beyond their uncertainties.

    >>> bounds_from_tipping([1290.0, 1300.0], ["tail", "nose"], u_stand_mm=1.0)
    StandBounds(low_mm=1288.0, high_mm=1302.0)
    """
    stand = np.atleast_1d(np.asarray(stand_mm, dtype=np.float64))
    if len(tips) != stand.size or not set(tips) <= {"nose", "tail"}:
        raise ValueError('each station needs one tip, "nose" or "tail"')
    margin = 2.0 * u_stand_mm + pad_half_width_mm
    tail = np.array([tip == "tail" for tip in tips], dtype=bool)
    low = float(np.max(stand[tail], initial=-np.inf)) - margin
    high = float(np.min(stand[~tail], initial=np.inf)) + margin
    if low > high:
        raise ValueError(f"the stand tips contradict: CG behind {low:g} and ahead of {high:g} mm")
    return StandBounds(low, high)
