"""The shortest way of each lead through the graph of lanes, through the openings it must take."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from math import dist, inf

from hardstand.engines.harness.lane_graph import LaneGraph
from hardstand.engines.harness.links import THROUGH_MM, Row

_SURELY = 1.0 - 1e-9  # no way is shorter than so much of the straight line, however sums are rounded


@dataclass(frozen=True, slots=True)
class Way:
    """The points of a lead's way by their numbers, and what it costs."""

    points: tuple[int, ...]
    cost: float


class Ways:
    """Cheapest ways through a graph. After `renew` only those are searched for that may be others.

    Of ways that cost the same to the bit the choice is the same whatever was searched for before: at
    every point the highest number that is as good as any leads there.
    """

    def __init__(self, graph: LaneGraph) -> None:
        self.graph = graph
        self._found: dict[tuple[int, int], Way | None] = {}
        self._rows: dict[bool, dict[int, Row]] = {False: {}, True: {}}
        self._used: set[tuple[int, int]] = set()

    def renew(self, graph: LaneGraph) -> None:
        """Go on with another graph of the same lanes and ends; what was not asked for is forgotten."""
        if graph is self.graph:
            return
        changed = graph.changed(self.graph)
        self.graph = graph
        runs = changed.runs()
        for point in {one for one, _ in runs}:
            self._rows[False].pop(point, None)
            self._rows[True].pop(point, None)
        stay = {}
        for pair in self._used:
            way = self._found[pair]
            if way is not None and runs.isdisjoint(zip(way.points, way.points[1:], strict=False)):
                stay[pair] = way
        least = changed.least(graph.places, list(stay))
        self._found = {pair: way for (pair, way), cost in zip(stay.items(), least, strict=True)
                       if way.cost < cost * _SURELY}  # fmt: skip
        self._used = set()

    def between(self, one: int, other: int) -> Way | None:
        """The cheapest way from a point to another; None where there is none."""
        pair = one, other
        self._used.add(pair)
        if pair not in self._found:
            places = self.graph.places
            way = self._search(one, other, every=False)
            # one that goes through something costs more than this
            if way is None or way.cost > THROUGH_MM + dist(places[one], places[other]):
                way = self._search(one, other, every=True)
            self._found[pair] = way
        return self._found[pair]

    def _search(self, one: int, goal: int, *, every: bool) -> Way | None:
        """Goal-directed search: points in the order of their cost and the straight line left.

        Source: Hart, Nilsson, Raphael, A formal basis for the heuristic determination of minimum
        cost paths, 1968.
        """
        places, rows = self.graph.places, self._rows[every]
        end = places[goal]
        least = [inf] * len(places)
        least[one] = 0.0
        before: dict[int, int] = {}
        waiting = [(0.0, 0.0, one)]
        while waiting:
            _, here, point = heappop(waiting)
            if point == goal:
                return Way(_back(before, one, goal), here)
            if here > least[point]:
                continue
            row = rows.get(point)
            if row is None:
                row = rows[point] = self.graph.row(point, every=every)
            for far, step in row:
                cost = here + step
                if cost > least[far]:
                    continue
                if cost < least[far]:
                    least[far] = cost
                    before[far] = point
                    heappush(waiting, (cost + dist(places[far], end) * _SURELY, cost, far))
                elif point > before.get(far, point):
                    before[far] = point  # of ways that cost the same, always the same one
        return None

    def by(self, start: int, goal: int, openings: Sequence[tuple[int, int]]) -> Way | None:
        """The cheapest way that goes through openings in their order, each from either side."""
        if not openings:
            return self.between(start, goal)
        best: Mapping[int, Way] = {start: Way((start,), 0.0)}
        for one, other in openings:
            onward = {}
            for into, out in ((one, other), (other, one)):
                found = [_joined(way, self.between(at, into)) for at, way in best.items()]
                known = [way for way in found if way is not None]
                if known:
                    way = min(known, key=lambda each: each.cost)
                    onward[out] = Way((*way.points, out), way.cost)
            best = onward
        ends = [_joined(way, self.between(at, goal)) for at, way in best.items()]
        return min((one for one in ends if one is not None), key=lambda each: each.cost, default=None)


def _back(before: Mapping[int, int], one: int, goal: int) -> tuple[int, ...]:
    points = [goal]
    while points[-1] != one:
        points.append(before[points[-1]])
    return tuple(reversed(points))


def _joined(first: Way, then: Way | None) -> Way | None:
    if then is None:
        return None
    return Way((*first.points, *then.points[1:]), first.cost + then.cost)
