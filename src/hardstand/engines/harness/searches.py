"""Searches for cheapest ways through a graph, with the runs at each point made ready once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from math import dist, inf

from hardstand.engines.harness.lane_graph import LaneGraph
from hardstand.engines.harness.links import THROUGH_MM, Row

SURELY = 1.0 - 1e-9  # no way is shorter than so much of the straight line, however sums are rounded


@dataclass(frozen=True, slots=True)
class Way:
    """The points of a lead's way by their numbers, and what it costs."""

    points: tuple[int, ...]
    cost: float


class Searches:
    """Searches on one graph after another; points at which runs change have to be forgotten."""

    def __init__(self, graph: LaneGraph) -> None:
        self.graph = graph
        self._rows: dict[bool, dict[int, Row]] = {False: {}, True: {}}

    def forget(self, points: Iterable[int]) -> None:
        """Make the runs at these points anew when they are next looked at."""
        for point in points:
            self._rows[False].pop(point, None)
            self._rows[True].pop(point, None)

    def _row(self, point: int, *, every: bool) -> Row:
        rows = self._rows[every]
        row = rows.get(point)
        if row is None:
            row = rows[point] = self.graph.row(point, every=every)
        return row

    def shut(self, point: int) -> bool:
        """Whether every run at a point goes through something."""
        return not self._row(point, every=False)

    def cheapest(self, one: int, goal: int, *, every: bool) -> Way | None:
        """The cheapest way from a point to a goal, by clear runs or by every one; None without any.

        Points are looked at in the order of their cost and the straight line left from them.
        Source: Hart, Nilsson, Raphael, A formal basis for the heuristic determination of minimum
        cost paths, 1968.
        """
        # where no run at the goal is clear, every way costs so much more at its end
        last = THROUGH_MM if self.shut(goal) else 0.0
        places, rows = self.graph.places, self._rows[every]
        end, push, away = places[goal], heappush, dist  # found sooner by a name of their own here
        least, before = [inf] * len(places), [-1] * len(places)
        least[one] = 0.0
        waiting = [(0.0, 0.0, one)]
        while waiting:
            _, here, point = heappop(waiting)
            if point == goal:
                return Way(_back(before, goal), here)
            if here > least[point]:
                continue
            for far, step in rows.get(point) or self._row(point, every=every):
                cost = here + step
                known = least[far]
                if cost < known:
                    least[far] = cost
                    before[far] = point
                    left = away(places[far], end) * SURELY + last if far != goal else 0.0
                    push(waiting, (cost + left, cost, far))
                elif cost == known and point > before[far]:
                    before[far] = point  # of ways that cost the same, always the same one
        return None

    def away(self, sources: Iterable[int], most: float) -> list[float]:
        """Of every point, the least cost of a clear way to any of the sources, up to `most`.

        Source: Dijkstra, A note on two problems in connexion with graphs, 1959.
        """
        least = [inf] * len(self.graph.places)
        waiting = [(0.0, one) for one in sources]
        for _, one in waiting:
            least[one] = 0.0
        while waiting:
            here, point = heappop(waiting)
            if here > most:
                break
            if here > least[point]:
                continue
            for far, step in self._row(point, every=False):
                if here + step < least[far]:
                    least[far] = here + step
                    heappush(waiting, (here + step, far))
        return least


def _back(before: Sequence[int], goal: int) -> tuple[int, ...]:
    points = [goal]
    while before[points[-1]] >= 0:
        points.append(before[points[-1]])
    return tuple(reversed(points))
