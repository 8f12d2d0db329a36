"""The graph that leads are routed in: lanes, free runs between them, and the ways out of plugs.

A run off the lanes costs a quarter more than it is long, so that leads keep to where they can be tied;
one through an item, a tray or a keep-out is only taken where there is no other.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.description.places import Tray
from hardstand.engines.harness.lane_points import Lanes
from hardstand.engines.harness.solids import SHRUNK_MM, Bools, Floats, Solid, crossed

Index = NDArray[np.intp]
FREE = 1.25  # cost of a run off the lanes; common practice, no source
REACH_MM = 150.0  # longest free run between points of lanes, or from a plug to one
NEAREST = 8  # points of lanes that a plug may lead to however far they are
OUTSIDE = 40  # the same for what lies outside every bay, such as in a wing
THROUGH_MM, THROUGH = 2000.0, 4.0  # cost of a run through something: so much, and times its length


@dataclass(frozen=True, slots=True)
class Exit:
    """Where a lead is free of its plug: `at` mm, of `item` (empty: none); whether in a bay."""

    end: str
    item: str
    at: tuple[float, float, float]
    inside: bool


@dataclass(frozen=True, eq=False)
class LaneGraph:
    """Points (N, 3) of lanes and exits, and runs between them.

    a, b (E,): the points of a run; length_mm, cost (E,); through (E,): it goes through something.
    `exits` numbers the point of each end.
    """

    points: Floats
    a: Index
    b: Index
    length_mm: Floats
    cost: Floats
    through: Bools
    exits: Mapping[str, int]

    def blocked(self) -> frozenset[tuple[int, int]]:
        """The runs that go through something, each as its two points, the lower number first."""
        rows = np.flatnonzero(self.through)
        low, high = np.minimum(self.a, self.b)[rows], np.maximum(self.a, self.b)[rows]
        return frozenset(zip(low.tolist(), high.tolist(), strict=True))

    def matrix(self) -> Any:
        """The costs as a sparse matrix of N x N."""
        from scipy.sparse import coo_array

        count = len(self.points)
        return coo_array((self.cost, (self.a, self.b)), shape=(count, count)).tocsr()


def lane_graph(
    lanes: Lanes, exits: Sequence[Exit], straight: Iterable[tuple[str, str]],
    solids: Sequence[Solid], trays: Sequence[Tray], kept_mm: Mapping[str, float],
) -> LaneGraph:  # fmt: skip
    """Lanes, exits and all runs with their costs.

    `straight` are pairs of ends between which a lead may run as it likes; `kept_mm` how far it is
    to keep from hazards: by "hot" and "moving".
    """
    points = np.array([*lanes.points, *(one.at for one in exits)], dtype=np.float64).reshape(-1, 3)
    base = len(lanes.points)
    numbers = {one.end: base + k for k, one in enumerate(exits)}
    pairs: dict[tuple[int, int], float] = dict.fromkeys(lanes.pairs, 1.0)
    for pair in _near(points[:base]):
        pairs.setdefault(pair, FREE)
    for one in exits:
        for far in _reached(points[:base], one):
            pairs[far, numbers[one.end]] = FREE
    for first, second in straight:
        pairs.setdefault((numbers[first], numbers[second]), FREE)
    a, b = (np.array(side, dtype=np.intp) for side in zip(*pairs, strict=True)) if pairs else (
        np.zeros(0, np.intp), np.zeros(0, np.intp))  # fmt: skip
    length = np.linalg.norm(points[b] - points[a], axis=1)
    through = _through(points, a, b, exits, base, solids, kept_mm) | _plates(points, a, b, trays)
    for k, pair in enumerate(pairs):
        through[k] &= pair not in lanes.through
    factor = np.array(list(pairs.values()), dtype=np.float64)
    cost = length * np.where(through, THROUGH, factor) + np.where(through, THROUGH_MM, 0.01)
    return LaneGraph(points, a, b, length, cost, through, numbers)


def _near(points: Floats) -> list[tuple[int, int]]:
    from scipy.spatial import cKDTree

    if len(points) < 2:
        return []
    found = cKDTree(points).query_pairs(REACH_MM, output_type="ndarray")
    return list(map(tuple, found.tolist()))


def _reached(points: Floats, one: Exit) -> list[int]:
    away = np.linalg.norm(points - np.array(one.at), axis=1)
    order = np.argsort(away, kind="stable")
    least = NEAREST if one.inside else OUTSIDE
    return [int(k) for rank, k in enumerate(order) if rank < least or away[k] <= REACH_MM]


def _through(
    points: Floats, a: Index, b: Index, exits: Sequence[Exit], base: int, solids: Sequence[Solid],
    kept_mm: Mapping[str, float],
) -> Bools:  # fmt: skip
    """Runs (E,) that go through a solid or too near a hazard; not that of the item it ends at."""
    if not solids or not len(a):
        return np.zeros(len(a), dtype=bool)
    grown = np.array([kept_mm.get(one.hazard, -SHRUNK_MM) for one in solids])[:, None]
    low = np.array([one.low for one in solids]) - grown
    high = np.array([one.high for one in solids]) + grown
    flat = np.minimum(low, high), np.maximum(low, high)
    hits = crossed(points[a], points[b], *flat)
    numbers = {one: k for k, one in enumerate(dict.fromkeys(one.id for one in solids))}
    ids = np.array([numbers[one.id] for one in solids])
    items = np.array([*([-1] * base), *(numbers.get(one.item, -1) for one in exits)], dtype=np.intp)
    inside = np.array([*([True] * base), *(one.inside for one in exits)])
    ends = np.flatnonzero((a >= base) | (b >= base))
    hits[ends] &= (ids != items[a[ends], None]) & (ids != items[b[ends], None])
    return np.asarray(hits.any(axis=1) & inside[a] & inside[b])


def _plates(points: Floats, a: Index, b: Index, trays: Sequence[Tray]) -> Bools:
    """Runs (E,) that go through the plate of a tray."""
    import shapely

    found = np.zeros(len(a), dtype=bool)
    for tray in trays:
        z = tray.top_z_mm - tray.thickness_mm / 2.0
        za, zb = points[a, 2] - z, points[b, 2] - z
        rows = np.flatnonzero(za * zb < 0.0)
        share = (za[rows] / (za[rows] - zb[rows]))[:, None]
        at = points[a[rows], :2] + share * (points[b[rows], :2] - points[a[rows], :2])
        found[rows] |= shapely.contains_xy(shapely.Polygon(tray.outline_mm), at[:, 0], at[:, 1])
    return found
