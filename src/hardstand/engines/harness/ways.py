"""The shortest way of each lead through the graph of lanes, through the openings it must take."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hardstand.engines.harness.lane_graph import LaneGraph
from hardstand.engines.harness.solids import Floats


@dataclass(frozen=True, slots=True)
class Way:
    """The points of a lead's way by their numbers, and what it costs."""

    points: tuple[int, ...]
    cost: float


class Ways:
    """Least costs from some points of a graph to all, found at once; ways are read from them."""

    def __init__(self, graph: LaneGraph, sources: Iterable[int]) -> None:
        from scipy.sparse.csgraph import dijkstra

        self._order = {one: k for k, one in enumerate(sorted(set(sources)))}
        count = len(graph.points)
        self._cost: Floats = np.zeros((0, count))
        self._before: Any = np.zeros((0, count), dtype=np.intp)
        if self._order:
            self._cost, self._before = dijkstra(
                graph.matrix(), directed=False, indices=list(self._order), return_predecessors=True)

    def between(self, one: int, other: int) -> Way | None:
        """The cheapest way from a source to a point; None where there is none."""
        row = self._order[one]
        if not np.isfinite(self._cost[row, other]):
            return None
        points = [other]
        while points[-1] != one:
            points.append(int(self._before[row, points[-1]]))
        return Way(tuple(reversed(points)), float(self._cost[row, other]))

    def by(self, start: int, goal: int, openings: Sequence[tuple[int, int]]) -> Way | None:
        """The cheapest way that goes through openings in their order, each from either side.

        Every first and second point of an opening must be a source, as must the start.
        """
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
