"""The runs that leave a plug: to the points of lanes around it, or straight to the other plug."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from operator import le

import numpy as np

from hardstand.engines.harness.lane_runs import EDGE_MM, REACH_MM, LaneRuns, Place
from hardstand.engines.harness.links import Index
from hardstand.engines.harness.solids import Bools, Floats, crossed

NEAREST = 8  # points of lanes that a plug may lead to however far they are
OUTSIDE = 40  # the same for what lies outside every bay, such as in a wing


@dataclass(frozen=True, slots=True)
class Exit:
    """Where a lead is free of its plug: `at` mm, of `item` (empty: none); whether in a bay."""

    end: str
    item: str
    at: Place
    inside: bool


@dataclass(frozen=True, slots=True)
class Box:
    """What is in the way: the item or keep-out it is of, its corners with what is kept from it, mm."""

    id: str
    low: Place
    high: Place


@dataclass(frozen=True, eq=False, slots=True)
class Reach:
    """Runs (K,) from a, mm (K, 3) to b: the numbers of the far points, lengths (K,) in mm.

    pierces (K,): they go through a tray. `low` and `high` are the corners of the box around all, mm.
    """

    far: Index
    a: Floats
    b: Floats
    length_mm: Floats
    pierces: Bools
    low: Place
    high: Place


@dataclass(frozen=True, eq=False, slots=True)
class Fan:
    """The same with which of them go through something (K,)."""

    reach: Reach
    through: Bools

    def same(self, other: Fan) -> bool:
        """Whether another has the same runs, clear in the same places."""
        return self.reach is other.reach and np.array_equal(self.through, other.through)


def reach_to(runs: LaneRuns, at: Place, *, inside: bool) -> Reach:
    """The points of lanes that a plug may lead to: all within reach, and some however far."""
    least = NEAREST if inside else OUTSIDE
    first, last = np.searchsorted(runs.sorted_x, (at[0] - REACH_MM - 1.0, at[0] + REACH_MM + 1.0))
    near = runs.by_x[first:last]
    near = np.sort(near[_away(runs.points[near], at) <= REACH_MM])
    if len(near) < least:
        near = np.sort(np.argsort(_away(runs.points, at), kind="stable")[:least])
    # a run to a point of a lane is looked at from that point
    return _reach(near, runs.points[near], np.tile(at, (len(near), 1)), runs)


def straight_to(runs: LaneRuns, at: Place, number: int, to: Place) -> Reach:
    """The straight run from a plug to another's number and place."""
    return _reach(np.array([number], dtype=np.intp), np.array([at]), np.array([to]), runs)


def _reach(far: Index, a: Floats, b: Floats, runs: LaneRuns) -> Reach:
    both = np.concatenate([a, b])
    low = tuple((both.min(axis=0, initial=np.inf) - EDGE_MM).tolist())
    high = tuple((both.max(axis=0, initial=-np.inf) + EDGE_MM).tolist())
    pierces = np.zeros(len(a), dtype=bool)
    for one in runs.plates:
        if all(map(le, low, one.high)) and all(map(le, one.low, high)):
            pierces |= one.pierced(a, b)
    return Reach(far, a, b, np.linalg.norm(b - a, axis=1), pierces, low, high)


def _away(points: Floats, at: Place) -> Floats:
    return np.asarray(np.linalg.norm(points - np.array(at), axis=1))


def fan(reach: Reach, ends: Sequence[Exit], boxes: Iterable[Box]) -> Fan:
    """Which runs of a reach go through something: not the items it is of, and nothing in the open.

    `ends` are the one that it leaves, or both; `boxes` all that its own box meets.
    """
    own = {one.item for one in ends}
    ways = [one for one in boxes if one.id not in own] if all(one.inside for one in ends) else []
    if not ways:
        return Fan(reach, reach.pierces)
    low, high = np.array([one.low for one in ways]), np.array([one.high for one in ways])
    return Fan(reach, reach.pierces | crossed(reach.a, reach.b, low, high).any(axis=1))


def meeting(reaches: Sequence[Reach], things: Sequence[Box]) -> list[list[int]]:
    """The numbers of the things whose boxes meet that of each reach."""
    if not reaches or not things:
        return [[] for _ in reaches]
    low, high = np.array([one.low for one in things]).T, np.array([one.high for one in things]).T
    from_, to = np.array([one.low for one in reaches]).T, np.array([one.high for one in reaches]).T
    meet = np.ones((len(reaches), len(things)), dtype=bool)
    for axis in range(3):
        meet &= (low[axis] <= to[axis][:, None]) & (high[axis] >= from_[axis][:, None])
    row, thing = np.nonzero(meet)
    ends = np.searchsorted(row, np.arange(1, len(reaches)))
    return [one.tolist() for one in np.split(thing, ends)]
