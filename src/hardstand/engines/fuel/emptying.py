"""How the fuel on board is shared among the tanks as they empty."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


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
