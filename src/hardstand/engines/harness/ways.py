"""The shortest way of each lead through the graph of lanes, through the openings it must take."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from math import dist, inf

from hardstand.engines.harness.lane_graph import LaneGraph
from hardstand.engines.harness.links import THROUGH_MM
from hardstand.engines.harness.searches import SURELY, Searches, Way


class Ways:
    """Cheapest ways through a graph. After `renew` only those are searched for that may be others.

    Of ways that cost the same to the bit the choice is the same whatever was searched for before: at
    every point the highest number that is as good as any leads there.
    """

    def __init__(self, graph: LaneGraph) -> None:
        self.graph = graph
        self._found: dict[tuple[int, int], Way | None] = {}
        self._searches = Searches(graph)
        self._used: set[tuple[int, int]] = set()

    def renew(self, graph: LaneGraph) -> None:
        """Go on with another graph of the same lanes and ends; what was not asked for is forgotten."""
        if graph is self.graph:
            return
        changed = graph.changed(self.graph)
        self.graph = self._searches.graph = graph
        runs = changed.runs
        self._searches.forget({one for one, _ in runs})
        stay = {}
        for pair in self._used:
            way = self._found[pair]
            if way is not None and runs.isdisjoint(zip(way.points, way.points[1:], strict=False)):
                stay[pair] = way
        # a way by what changed comes to one of the points and leaves it
        away = self._searches.away(changed.points, max(
            (way.cost for pair, way in stay.items() if way.cost < self._blocked(pair)), default=0.0))
        self._found = {
            pair: way for pair, way in stay.items()
            if way.cost < (self._by(pair, changed.points) if way.cost >= self._blocked(pair)
                           else away[pair[0]] + away[pair[1]]) * SURELY
        }  # fmt: skip
        self._used = set()

    def _shut(self, pair: tuple[int, int]) -> int:
        return sum(map(self._searches.shut, set(pair)))

    def _by(self, pair: tuple[int, int], points: Iterable[int]) -> float:
        """What a way between two points costs at least that comes to one of others."""
        places = self.graph.places
        one, other = (places[end] for end in pair)
        least = min((dist(one, places[k]) + dist(places[k], other) for k in points), default=inf)
        return self._shut(pair) * THROUGH_MM + least

    def _blocked(self, pair: tuple[int, int]) -> float:
        """What a way costs at least that goes through something."""
        return THROUGH_MM + dist(*(self.graph.places[one] for one in pair))

    def between(self, one: int, other: int) -> Way | None:
        """The cheapest way from a point to another; None where there is none."""
        pair = one, other
        self._used.add(pair)
        if pair not in self._found:
            way = self._searches.cheapest(one, other, every=False) if not self._shut(pair) else None
            if way is None or way.cost >= self._blocked(pair):
                way = self._searches.cheapest(one, other, every=True)
            self._found[pair] = way
        return self._found[pair]

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


def _joined(first: Way, then: Way | None) -> Way | None:
    if then is None:
        return None
    return Way((*first.points, *then.points[1:]), first.cost + then.cost)
