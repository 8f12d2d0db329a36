"""All runs between points of lanes: what depends on trays, openings and bays alone, worked out once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hardstand.description.places import Tray
from hardstand.engines.harness.lane_points import Lanes
from hardstand.engines.harness.links import Index, by_point
from hardstand.engines.harness.nearby import pairs_within
from hardstand.engines.harness.solids import Bools, Floats, crossed

FREE = 1.25  # cost of a run off the lanes; common practice, no source
REACH_MM = 150.0  # longest free run between points of lanes, or from a plug to one
EDGE_MM = 1e-6  # boxes so near one another are looked at as if they met
Place = tuple[float, float, float]


@dataclass(frozen=True, eq=False)
class Plate:
    """The plate of a tray: its outline, the height of its middle (mm), and the box around it."""

    outline: Any
    z_mm: float
    low: Place
    high: Place

    def pierced(self, a: Floats, b: Floats) -> Bools:
        """Which of N runs, ends (N, 3) in mm, go through it, (N,)."""
        from shapely import contains_xy

        found = np.zeros(len(a), dtype=bool)
        za, zb = a[:, 2] - self.z_mm, b[:, 2] - self.z_mm
        rows = np.flatnonzero(za * zb < 0.0)
        if len(rows):
            share = (za[rows] / (za[rows] - zb[rows]))[:, None]
            at = a[rows, :2] + share * (b[rows, :2] - a[rows, :2])
            found[rows] = contains_xy(self.outline, at[:, 0], at[:, 1])
        return found


def plate(tray: Tray) -> Plate:
    """A tray's plate."""
    from shapely import Polygon

    z = tray.top_z_mm - tray.thickness_mm / 2.0
    outline = Polygon(tray.outline_mm)
    low_x, low_y, high_x, high_y = outline.bounds
    return Plate(outline, z, (low_x, low_y, z), (high_x, high_y, z))


class LaneRuns:
    """Runs (E,) between the points (N, 3) of lanes: along a lane, or free where they are near.

    a, b: the points of a run; length_mm; factor: what it costs by its length; pierces: it goes
    through a tray, which one through an opening does not (opening).
    """

    def __init__(self, lanes: Lanes, trays: Sequence[Tray]) -> None:
        self.lanes = lanes
        self.plates = [plate(one) for one in trays]
        self.points: Floats = np.array(lanes.points, dtype=np.float64).reshape(-1, 3)
        count = max(len(self.points), 1)
        joined = np.array(list(dict.fromkeys(lanes.pairs)), dtype=np.intp).reshape(-1, 2)
        near = pairs_within(self.points, REACH_MM)
        near = near[~np.isin(near @ [count, 1], joined @ [count, 1])]
        self.a, self.b = np.vstack([joined, near]).T
        self.length_mm: Floats = np.linalg.norm(self.points[self.b] - self.points[self.a], axis=1)
        self.factor: Floats = np.repeat([1.0, FREE], [len(joined), len(near)])
        openings = [a * count + b for a, b in lanes.through]
        self.opening: Bools = np.isin(self.a * count + self.b, openings)
        self._sort()
        self.pierces: Bools = np.zeros(len(self.a), dtype=bool)
        for one in self.plates:
            rows = self.beside(one.low, one.high)
            hit = one.pierced(self.points[self.a[rows]], self.points[self.b[rows]])
            self.pierces[rows[hit]] = True
        self.by_point = by_point(self.a, self.b, len(self.points))
        self.by_x: Index = np.argsort(self.points[:, 0], kind="stable")
        self.sorted_x: Floats = self.points[self.by_x, 0]

    def _sort(self) -> None:
        a, b = self.points[self.a], self.points[self.b]
        low, high = np.minimum(a, b) - EDGE_MM, np.maximum(a, b) + EDGE_MM
        self._order: Index = np.argsort(low[:, 0], kind="stable")
        self._low, self._high = low[self._order].T.copy(), high[self._order].T.copy()
        self._widest = float((high - low)[:, 0].max(initial=0.0))

    def beside(self, low: Place, high: Place) -> Index:
        """The runs whose box meets that from `low` to `high`, mm."""
        first, last = np.searchsorted(self._low[0], (low[0] - self._widest, high[0]))
        part = slice(first, last)
        meet = self._high[0, part] >= low[0]
        for axis in (1, 2):
            meet &= (self._low[axis, part] <= high[axis]) & (self._high[axis, part] >= low[axis])
        return np.asarray(self._order[part][meet])

    def through(self, low: Place, high: Place) -> Index:
        """The runs that go through the box from `low` to `high`, mm."""
        rows = self.beside(low, high)
        box = np.array([low]), np.array([high])
        hit = crossed(self.points[self.a[rows]], self.points[self.b[rows]], *box)
        return np.asarray(rows[hit[:, 0]])
