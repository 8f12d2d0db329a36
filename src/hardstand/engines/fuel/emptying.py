"""How the fuel on board is shared among the tanks, and where it is in each of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.fuel.level import Liquid, liquid_in
from hardstand.engines.fuel.solids import Solid
from hardstand.engines.fuel.volume_integrals import integrals

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Tank:
    """One tank: its inside in place, its number in the order of emptying, header or not.

    Attributes: inside, a `Solid` in the aeroplane's axes; order, 1 empties first, tanks of one
    number empty together in equal fractions; header, True for a header tank or air trap, which
    stays full until every other tank is empty, whatever its number.
    """

    inside: Solid
    order: int
    header: bool = False


@dataclass(frozen=True, eq=False)
class TanksState:
    """The fuel in K tanks at F total volumes.

    Attributes: total_volume_ml (F,); volume_ml, level_mm, mass_g (F, K); centroid_mm (F, K, 3);
    inertia_kgm2 (F, K, 3, 3) about each tank's own centroid of fuel, products with a minus.
    """

    total_volume_ml: Floats
    volume_ml: Floats
    level_mm: Floats
    mass_g: Floats
    centroid_mm: Floats
    inertia_kgm2: Floats


def share_out(
    total_volume_ml: ArrayLike, capacity_ml: ArrayLike, order: ArrayLike, header: ArrayLike
) -> Floats:
    """Share the fuel on board among the tanks by the order in which they empty.

    Tanks of one number form a group of equal filled fraction; groups empty in rising order,
    headers after all others (in rising order among themselves).

    Parameters: total_volume_ml (F,), capacity_ml (K,) above 0, order (K,), header (K,) of bool.
    Returns the volume in each tank, ml, (F, K). Raises ValueError for less than nothing or more
    than all tanks hold (one part in a million is allowed for rounding).

    >>> share_out([3440, 1640, 100], [1650, 1650, 140], [1, 1, 1], [False, False, True]).tolist()
    [[1650.0, 1650.0, 140.0], [750.0, 750.0, 140.0], [0.0, 0.0, 100.0]]
    """
    total = np.atleast_1d(np.asarray(total_volume_ml, dtype=np.float64))
    capacity = np.asarray(capacity_ml, dtype=np.float64)
    number, last = np.asarray(order), np.asarray(header, dtype=bool)
    if np.any(~((total >= 0.0) & (total <= capacity.sum() * (1.0 + 1e-6)))):
        raise ValueError(f"the fuel on board must lie between 0 and {capacity.sum():.1f} ml")
    result = np.zeros((total.size, capacity.size))
    left = total
    # The last group to empty is the first to hold what there is.
    for is_header, value in sorted(set(zip(last.tolist(), number.tolist(), strict=True)))[::-1]:
        group = (last == is_header) & (number == value)
        held = capacity[group].sum()
        fraction = np.minimum(left / held, 1.0)
        result[:, group] = fraction[:, None] * capacity[group]
        left = np.where(fraction < 1.0, 0.0, left - held)
    return result


def tanks_state(
    total_volume_ml: ArrayLike, tanks: Sequence[Tank], up: ArrayLike, density_g_per_ml: float
) -> TanksState:
    """Find where the fuel is in every tank for each total volume on board.

    Parameters: total_volume_ml (F,), all fuel on board, headers included; tanks, K of them; up (3,)
    from `level.up_direction`; density_g_per_ml of the mixed fuel. Fuel that can't be drawn counts
    as fuel like any other. Returns `TanksState`. Raises ValueError as `share_out` does.

    >>> from hardstand.engines.fuel.solids import box
    >>> pair = [Tank(box([100, 100, 100]).moved([900, y, 0]), 1) for y in (-60, 60)]
    >>> state = tanks_state([1000.0], pair, [0, 0, 1], 0.8)
    >>> state.mass_g.round(6).tolist(), state.centroid_mm[0, :, 2].round(6).tolist()
    ([[400.0, 400.0]], [-25.0, -25.0])
    """
    capacity = np.array([integrals(tank.inside).volume_ml[0] for tank in tanks])
    order, header = [tank.order for tank in tanks], [tank.header for tank in tanks]
    volume = share_out(total_volume_ml, capacity, order, header)
    liquids: list[Liquid] = [
        liquid_in(tank.inside, volume[:, k], up) for k, tank in enumerate(tanks)
    ]
    return TanksState(
        total_volume_ml=np.atleast_1d(np.asarray(total_volume_ml, dtype=np.float64)),
        volume_ml=volume,
        level_mm=np.stack([liquid.level_mm for liquid in liquids], axis=1),
        mass_g=volume * density_g_per_ml,
        centroid_mm=np.stack([liquid.centroid_mm for liquid in liquids], axis=1),
        inertia_kgm2=np.stack([x.inertia_kgm2(density_g_per_ml) for x in liquids], axis=1),
    )
