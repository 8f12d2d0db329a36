"""The graph that leads are routed in: lanes, free runs between them, and the ways out of plugs.

A run off the lanes costs a quarter more than it is long, so that leads keep to where they can be tied;
one through an item, a tray or a keep-out is only taken where there is no other.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from hardstand.engines.harness.fans import Box, Exit
from hardstand.engines.harness.lane_runs import LaneRuns, Place
from hardstand.engines.harness.links import Links, Row, cost
from hardstand.engines.harness.plug_fans import Fans, linked, plug_fans
from hardstand.engines.harness.solids import SHRUNK_MM, Solid
from hardstand.engines.kept import Kept


@dataclass(frozen=True, eq=False)
class LaneGraph:
    """The places (mm) of points of lanes and exits, and links between them, first those of lanes.

    `exits` numbers the point of each end; `fans` are the runs that leave ends, with the end's number.
    """

    places: Sequence[Place]
    links: tuple[Links, ...]
    exits: Mapping[str, int] = field(default_factory=dict)
    fans: Fans = field(default_factory=dict)

    def row(self, point: int, *, every: bool) -> Row:
        """The runs at a point: only those that are clear, or every one."""
        return [one for links in self.links for one in links.row(point, every=every)]

    def blocked(self, one: int, other: int) -> bool:
        """Whether a run between two points goes through something."""
        return any(links.blocked(one, other) for links in self.links)

    def changed(self, before: LaneGraph) -> Changed:
        """What is another than in a graph of the same lanes and ends."""
        lanes, last = self.links[0], before.links[0]
        rows = np.flatnonzero(lanes.through != last.through)
        a, b = lanes.a[rows].tolist(), lanes.b[rows].tolist()
        runs, points = set(zip(a, b, strict=True)), set(a)
        for name in self.fans.keys() | before.fans.keys():
            now, then = self.fans.get(name), before.fans.get(name)
            if now is then or (now is not None and then is not None and now[1].same(then[1])):
                continue
            for end, one in (each for each in (now, then) if each is not None):
                runs |= {(end, far) for far in one.reach.far.tolist()}
                points.add(end)
        return Changed(runs | {(b, a) for a, b in runs}, points)


@dataclass(frozen=True, eq=False)
class Changed:
    """Runs that changed or are no more, both ways round, and points of which each has one at an end."""

    runs: set[tuple[int, int]]
    points: set[int]


def lane_graph(
    runs: LaneRuns, exits: Sequence[Exit], straight: Iterable[tuple[str, str]],
    solids: Sequence[Solid], kept_mm: Mapping[str, float], kept: Kept, kind: str,
) -> LaneGraph:  # fmt: skip
    """Lanes, exits and all runs with their costs.

    `straight` are pairs of ends between which a lead may run as it likes; `kept_mm` how far it is
    to keep from hazards: by "hot" and "moving". `kept` holds parts of the last graph of its kind.
    """
    base = len(runs.points)
    numbers = {one.end: base + k for k, one in enumerate(exits)}
    named = {f"{one.id} {k}": (one, kept_mm.get(one.hazard, -SHRUNK_MM))
             for one, k in zip(solids, _counted(solids), strict=True)}  # fmt: skip
    boxes = kept.each(f"{kind} boxes", named, lambda one: _box(*one))
    hits = kept.each(f"{kind} hits", {name: (one, runs) for name, one in boxes.items()},
                     lambda one: one[1].through(one[0].low, one[0].high))  # fmt: skip
    through = runs.pierces.copy()
    for rows in hits.values():
        through[rows] = True
    through &= ~runs.opening
    lanes = Links(runs.a, runs.b, cost(runs.length_mm, runs.factor, through), through,
                  *runs.by_point)  # fmt: skip
    fans = plug_fans(runs, {one.end: one for one in exits}, numbers, straight,
                     list(boxes.values()), kept, kind)  # fmt: skip
    places = *runs.lanes.points, *(one.at for one in exits)
    return LaneGraph(places, (lanes, linked(fans, len(places))), numbers, fans)


def _box(one: Solid, grown: float) -> Box:
    low, high = np.array(one.low) - grown, np.array(one.high) + grown
    return Box(one.id, tuple(np.minimum(low, high).tolist()), tuple(np.maximum(low, high).tolist()))


def _counted(boxes: Iterable[Solid]) -> list[int]:
    """How many boxes of the same id stand before each."""
    seen: dict[str, int] = {}
    found = []
    for one in boxes:
        found.append(seen.get(one.id, 0))
        seen[one.id] = found[-1] + 1
    return found
