"""Static margin of a centre of gravity, and the chance that it is under a limit."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.balance.neutral_point_model import NeutralPoint
from hardstand.engines.balance.uniform_normal import chance_below

Array = NDArray[np.float64]


def static_margin_pct(point: NeutralPoint, cg_x_mm: ArrayLike) -> Array:
    """Return how far the centre of gravity lies ahead of the neutral point, % MAC.

    Parameters: `point`; `cg_x_mm` any shape (states), stations from the datum. Returns that shape;
    negative means unstable.

    >>> from hardstand.engines.balance.neutral_point import neutral_point
    >>> from hardstand.engines.balance.panel import Panel, Section
    >>> point = neutral_point([Panel(Section(0, 0, 0, 300), Section(0, 1000, 0, 300))])
    >>> static_margin_pct(point, [point.x_mm - 30.0, point.x_mm]).round(6).tolist()
    [10.0, 0.0]

    Source: definition.
    """
    cg = np.asarray(cg_x_mm, dtype=float)
    return np.asarray(100.0 * (point.x_mm - cg) / point.reference.mac_mm)


def static_margin_u_pct(point: NeutralPoint, cg_u_mm: ArrayLike) -> Array:
    """Return the standard uncertainty of the margin, % MAC, CG independent of the neutral point.

    Parameters: `cg_u_mm` standard uncertainty of the CG station, any shape. Returns that shape.

    >>> from hardstand.engines.balance.neutral_point import neutral_point
    >>> from hardstand.engines.balance.panel import Panel, Section
    >>> point = neutral_point([Panel(Section(0, 0, 0, 300), Section(0, 1000, 0, 300))])
    >>> round(float(static_margin_u_pct(point, 3.0)), 6)
    1.0
    """
    cg_u_pct = 100.0 * np.asarray(cg_u_mm, dtype=float) / point.reference.mac_mm
    return np.asarray(np.hypot(point.u_pct, cg_u_pct))


def chance_margin_below(
    point: NeutralPoint, cg_x_mm: ArrayLike, cg_u_mm: ArrayLike, limit_pct: ArrayLike
) -> Array:
    """Return the probability that the static margin is less than a limit.

    Neutral point uniform between its bounds with a normal spread on top, CG normal: the sum is
    evaluated exactly (see `uniform_normal.chance_below`), not sampled. A probability of the model:
    it says nothing about what the model leaves out.

    Parameters: `cg_x_mm`, `cg_u_mm` (standard uncertainty) and `limit_pct`, broadcast together.

    Returns probabilities 0 to 1.

    Example (one standard uncertainty of the CG above the limit):

    >>> from hardstand.engines.balance.neutral_point import neutral_point
    >>> from hardstand.engines.balance.panel import Panel, Section
    >>> point = neutral_point([Panel(Section(0, 0, 0, 300), Section(0, 1000, 0, 300))])
    >>> round(float(chance_margin_below(point, point.x_mm - 12.0, 3.0, 3.0)), 4)
    0.1587
    """
    cg_pct = point.value_pct - static_margin_pct(point, cg_x_mm)
    cg_u_pct = 100.0 * np.asarray(cg_u_mm, dtype=float) / point.reference.mac_mm
    return chance_below(
        cg_pct + np.asarray(limit_pct, dtype=float),
        point.lower_pct,
        point.upper_pct,
        np.hypot(point.normal_u_pct, cg_u_pct),
    )
