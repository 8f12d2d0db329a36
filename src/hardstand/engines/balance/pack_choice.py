"""Which packs at hand, where, with how much ballast at which place, bring the CG to its target.

Every way of putting packs at hand on the places for packs is tried. Sliding them between the ends
of their places gives a span of reachable CG; where the target lies outside, ballast makes up.
Whether a pack may feed what hangs on a place is decided by whoever states the stations.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.balance.pack_places import (
    WAYS_LIMIT,
    BallastPlaces,
    PackPlaces,
    combinations,
)
from hardstand.engines.balance.pareto import pareto_front
from hardstand.engines.balance.shifts import ballast_to_reach_g

Floats = NDArray[np.float64]
TOLERANCE_MM = 1e-6  # rounding only
Indices = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class PackChoices:
    """R ways, best first: least ballast, then nearest to the target, then lightest.

    Attributes: pack (R, P), which kind stands at each place; at_mm (R, P), where its middle of mass
    sits; ballast_place (R,), -1 for none; ballast_g (R,); added_g (R,), packs and ballast together;
    cg_mm (R,); distance_mm (R,), from the target; reach_low_mm, reach_high_mm (R,), the CG's span
    by sliding, without ballast; admissible (R,), whether the CG is in its range; front (R,), ways
    that no other way beats in ballast, added mass, distance and the packs' worth at once; worth
    (R,), the sum of the chosen packs'.
    """

    pack: Indices
    at_mm: Floats
    ballast_place: Indices
    ballast_g: Floats
    added_g: Floats
    cg_mm: Floats
    distance_mm: Floats
    reach_low_mm: Floats
    reach_high_mm: Floats
    admissible: NDArray[np.bool_]
    front: NDArray[np.bool_]
    worth: Floats


def _part(numerator: Floats, denominator: Floats) -> Floats:
    """Divide, with 0 where the denominator is 0."""
    safe = np.where(denominator > 0.0, denominator, 1.0)
    return np.asarray(np.where(denominator > 0.0, numerator / safe, 0.0), dtype=np.float64)


def _ballast_ways(
    total_g: Floats,
    near_mm: Floats,
    ballast: BallastPlaces,
    target_mm: float,
    range_mm: tuple[float, float],
) -> tuple[Indices, Indices, Floats]:
    """Return rows (combination, ballast place or -1, ballast): none, just into range, to target."""
    count = near_mm.size
    edge = np.clip(near_mm, *range_mm)
    rows = [(np.arange(count), np.full(count, -1), np.zeros(count))]
    for place, (at, most) in enumerate(zip(ballast.at_mm, ballast.most_g, strict=True)):
        for goal in (edge, np.full(count, target_mm)):
            needed = ballast_to_reach_g(total_g, near_mm, goal, at)
            possible = np.flatnonzero((needed > 0.0) & (needed <= most))
            rows.append((possible, np.full(possible.size, place), needed[possible]))
    way, which, amount = (np.concatenate(column) for column in zip(*rows, strict=True))
    return way, which, amount


def choose_packs(
    fixed_g: float,
    fixed_cg_mm: float,
    places: PackPlaces,
    ballast: BallastPlaces,
    *,
    target_mm: float,
    range_mm: Sequence[float] | ArrayLike,
    limit: int = WAYS_LIMIT,
) -> PackChoices:
    """Try all packs at hand on all places, without ballast and with the least at each place for it.

    With ballast, two amounts are tried: what brings the CG just into its range, and what brings it
    to the target. All packs slide by the same part of their span. One state, the x axis.

    Parameters: fixed_g, fixed_cg_mm, everything but these packs and ballast; target_mm;
    range_mm (low, high), around the target; limit as in `combinations`. Returns `PackChoices`.
    Raises ValueError as `combinations` does, or for a target outside the range.

    >>> where = np.array([[330.0, 330.0]])
    >>> places = PackPlaces(np.array([172.0, 268.0]), np.array([1, 1]), where, where + 68.0)
    >>> found = choose_packs(13000.0, 1300.0, places, BallastPlaces(np.zeros(0), np.zeros(0)),
    ...     target_mm=1285.0, range_mm=(1280.0, 1290.0))
    >>> found.pack[0].tolist(), found.cg_mm[0].round(2).item(), found.ballast_g[0].item()
    ([0], 1287.34, 0.0)
    """
    low, high = (float(value) for value in np.asarray(range_mm, dtype=np.float64))
    if not low <= target_mm <= high:
        raise ValueError(f"the target {target_mm:g} mm lies outside its range {low:g} to {high:g}")
    chosen = combinations(places, limit)
    rows = np.arange(chosen.shape[1])
    start, end = places.low_mm[rows, chosen], places.high_mm[rows, chosen]
    mass = places.pack_g[chosen]
    total = fixed_g + mass.sum(axis=1)
    reach_low, reach_high = (
        (fixed_g * fixed_cg_mm + np.sum(mass * station, axis=1)) / total for station in (start, end)
    )
    near = np.clip(target_mm, reach_low, reach_high)
    slid = _part(near - reach_low, reach_high - reach_low)
    way, which, amount = _ballast_ways(total, near, ballast, target_mm, (low, high))
    at = np.append(ballast.at_mm, 0.0)[which]
    cg = (total[way] * near[way] + amount * at) / (total[way] + amount)
    distance = np.abs(cg - target_mm)
    admissible = (cg >= low - TOLERANCE_MM) & (cg <= high + TOLERANCE_MM)
    added = total[way] - fixed_g + amount
    worst = ~admissible
    key = (added, distance.round(6), np.where(worst, distance, amount).round(6), worst)
    order = np.lexsort(key)
    each = np.zeros(places.pack_g.size) if places.worth is None else places.worth
    worth = each[chosen].sum(axis=1)[way]
    cost = np.column_stack([amount, added, distance, -worth])
    if np.any(admissible):
        cost[worst] = np.inf
    station = start + slid[:, None] * (end - start)
    return PackChoices(
        pack=chosen[way][order],
        at_mm=station[way][order],
        ballast_place=which[order],
        ballast_g=amount[order],
        added_g=added[order],
        cg_mm=cg[order],
        distance_mm=distance[order],
        reach_low_mm=reach_low[way][order],
        reach_high_mm=reach_high[way][order],
        admissible=admissible[order],
        front=pareto_front(cost.round(6))[order],
        worth=worth[order],
    )
