"""First-order uncertainty of figures, shared causes included, and what to measure next.

Linear propagation as in JCGM 100:2008 (Guide to the expression of uncertainty in measurement),
5.1.2 and 5.2.2, value from memory. Valid while the figures are nearly straight over the inputs'
spread, as mass and CG are.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Propagated:
    """Of F figures, each in its own unit: standard u (..., F) and covariance (..., F, F)."""

    u: Floats
    covariance: Floats


def _common(common: ArrayLike | None, inputs: int) -> Floats:
    """Return the common causes as (G, K), none of them as (0, K)."""
    if common is None:
        return np.zeros((0, inputs))
    return np.atleast_2d(np.asarray(common, dtype=np.float64))


def propagate(sensitivity: ArrayLike, u: ArrayLike, common: ArrayLike | None = None) -> Propagated:
    """Propagate standard uncertainties: the root of the sum of (S u) squared, plus common causes.

    Parameters: sensitivity (..., F, K), figures by inputs; u (K,), each input's own standard
    uncertainty; common (G, K), for each cause that moves several inputs together (one scale's
    offset) by how much one standard uncertainty of it moves each input. Such a cause adds up over
    k weighings to k times itself, not to its root. Returns `Propagated`.

    >>> propagate([[1.0, 1.0, 1.0]], [3.0, 4.0, 0.0], common=[[2.0, 2.0, 2.0]]).u.round(4).tolist()
    [7.8102]
    """
    slope = np.asarray(sensitivity, dtype=np.float64)
    own = slope * np.asarray(u, dtype=np.float64)
    shared = slope @ _common(common, slope.shape[-1]).T
    covariance = own @ np.swapaxes(own, -1, -2) + shared @ np.swapaxes(shared, -1, -2)
    diagonal = np.diagonal(covariance, axis1=-2, axis2=-1)
    return Propagated(np.sqrt(np.maximum(diagonal, 0.0)), covariance)


@dataclass(frozen=True, eq=False)
class NextMeasurement:
    """What one figure would gain from measuring each of K inputs once more.

    Attributes: order (K,), best first; u_now, of the figure; u_after (K,), of the figure if that
    input alone were measured; variance_removed (K,), in the figure's unit squared, negative where
    an error now cancels another one.
    """

    order: NDArray[np.int64]
    u_now: float
    u_after: Floats
    variance_removed: Floats


def next_measurement(
    sensitivity: ArrayLike,
    u: ArrayLike,
    achievable_u: ArrayLike,
    common: ArrayLike | None = None,
    work_s: ArrayLike | None = None,
) -> NextMeasurement:
    """Rank the inputs by how much measuring one would shrink a figure's uncertainty.

    The input measured takes its achievable uncertainty, where that is the smaller, and leaves every
    common cause (it is weighed afresh). Without common causes the gains of several add up, so that
    the first three of the order are also the best three.

    Parameters: sensitivity (K,), of one figure; u, achievable_u (K,); common (G, K), as in
    `propagate`; work_s (K,), seconds of work each costs: the order is then by gain per second.
    Returns `NextMeasurement`.

    >>> found = next_measurement([0.5, 0.1], [2.0, 4.0], [1.0, 1.0])
    >>> found.order.tolist(), found.variance_removed.tolist()
    ([0, 1], [0.75, 0.15])
    """
    slope = np.asarray(sensitivity, dtype=np.float64)
    now = np.asarray(u, dtype=np.float64)
    after = np.minimum(now, np.asarray(achievable_u, dtype=np.float64))
    cause = _common(common, slope.size)
    shared = cause @ slope
    shared_without = shared[:, None] - cause * slope
    removed = slope**2 * (now**2 - after**2)
    # An input that would not be measured better stays as it is, common causes and all.
    better = after < now
    removed += np.where(better, np.sum(shared[:, None] ** 2 - shared_without**2, axis=0), 0.0)
    variance = float(np.sum((slope * now) ** 2) + np.sum(shared**2))
    worth = removed if work_s is None else removed / np.asarray(work_s, dtype=np.float64)
    return NextMeasurement(
        order=np.argsort(-worth, kind="stable").astype(np.int64),
        u_now=float(np.sqrt(variance)),
        u_after=np.sqrt(np.maximum(variance - removed, 0.0)),
        variance_removed=removed,
    )
