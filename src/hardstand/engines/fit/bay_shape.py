"""The inside of a bay as a signed distance: how far a point lies within the skin.

Between two stations the distance to the skin is taken as straight, which is one way of drawing the
skin itself straight; it asks nothing of the two outlines, not even as many points in each.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from hardstand.asbuilt.value import BaySection
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.stack import Index
from hardstand.figures import Input


class Depth(NamedTuple):
    """Distance within the skin (N,), its slope with the point (N, 3), and with the walls (N, 2).

    The walls are those of section number `section` (N,) and the next, each by how far it moves out.
    """

    distance_mm: Floats
    slope: Floats
    section: Index
    by_wall: Floats


@dataclass(frozen=True, eq=False)
class BayShape:
    """A bay by its sections: stations (S,), outlines (each (V, 2): y, z), the input of each wall."""

    id: str
    stations_mm: Floats
    outlines: tuple[Floats, ...]
    walls: tuple[Input, ...]

    def covers(self, x_mm: Floats) -> Floats:
        """Whether (N,) stations lie between the bay's first and last."""
        return np.asarray((x_mm >= self.stations_mm[0]) & (x_mm <= self.stations_mm[-1]))

    def convex(self) -> bool:
        """Whether no section bulges inward."""
        return all(_is_convex(outline) for outline in self.outlines)

    def content(self) -> bytes:
        """Its numbers as bytes: equal where two bays have the same shape."""
        return b"|".join(one.tobytes() for one in (self.stations_mm, *self.outlines))

    def depth(self, point_mm: Floats) -> Depth:
        """How far points (N, 3) lie within the skin, negative outside.

        Points beyond the first or last station are judged by that section. The
        distance is square to the skin: where the bay narrows it is less than in the section.
        """
        x = point_mm[:, 0]
        after = np.clip(np.searchsorted(self.stations_mm, x), 1, len(self.stations_mm) - 1)
        before = after - 1
        span = self.stations_mm[after] - self.stations_mm[before]
        share = np.clip((x - self.stations_mm[before]) / span, 0.0, 1.0)
        first, first_slope = self._at(before, point_mm[:, 1:])
        last, last_slope = self._at(after, point_mm[:, 1:])
        flat = first + share * (last - first)
        inside = (share > 0.0) & (share < 1.0)
        along = np.where(inside, (last - first) / span, 0.0)
        across = first_slope + share[:, None] * (last_slope - first_slope)
        steep = np.sqrt(1.0 + along**2)
        slope = np.column_stack([along, across]) / steep[:, None]
        by_wall = np.column_stack([1.0 - share, share]) / steep[:, None]
        return Depth(flat / steep, slope, before, by_wall)

    def _at(self, section: Index, point: Floats) -> tuple[Floats, Floats]:
        value, slope = np.zeros(len(point)), np.zeros((len(point), 2))
        for k in np.unique(section):
            rows = section == k
            value[rows], slope[rows] = within_outline(self.outlines[int(k)], point[rows])
        return value, slope


def within_outline(outline: Floats, point: Floats) -> tuple[Floats, Floats]:
    """Distance (N,) of points (N, 2) within a closed outline (V, 2), negative outside; slope (N, 2).

    >>> square = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
    >>> within_outline(square, np.array([[2.0, 5.0], [13.0, 14.0]]))[0].tolist()
    [2.0, -5.0]
    """
    (y0, z0), (along_y, along_z) = outline.T, _following(outline).T - outline.T
    away_y, away_z = point[:, :1] - y0, point[:, 1:] - z0
    share = (away_y * along_y + away_z * along_z) / (along_y**2 + along_z**2)
    np.clip(share, 0.0, 1.0, out=share)
    off_y, off_z = away_y - share * along_y, away_z - share * along_z
    square = off_y**2 + off_z**2
    nearest = square.argmin(axis=1)
    row = np.arange(len(point))
    value = np.sqrt(square[row, nearest])
    # A ray along the first axis crosses the outline an odd number of times from within.
    above = z0 > point[:, 1:]
    crosses = above != np.concatenate([above[:, 1:], above[:, :1]], axis=1)
    at = away_z / np.where(along_z == 0.0, 1.0, along_z) * along_y
    inside = (crosses & (away_y < at)).sum(axis=1) % 2 == 1
    sign = np.where(inside, 1.0, -1.0)
    normal = np.column_stack([-along_z[nearest], along_y[nearest]])
    normal /= np.linalg.norm(normal, axis=1)[:, None]
    normal *= 1.0 if _turns_left(outline) else -1.0
    off = np.column_stack([off_y[row, nearest], off_z[row, nearest]])
    safe = np.where(value > 1e-9, value, 1.0)[:, None]
    slope = np.where(value[:, None] > 1e-9, sign[:, None] * off / safe, normal)
    return sign * value, slope


def _following(outline: Floats) -> Floats:
    """The corner after each (V, 2)."""
    return np.concatenate([outline[1:], outline[:1]])


def _is_convex(outline: Floats) -> bool:
    edge = _following(outline) - outline
    after = _following(edge)
    turn = edge[:, 0] * after[:, 1] - edge[:, 1] * after[:, 0]
    return bool((turn >= 0.0).all() or (turn <= 0.0).all())


def _turns_left(outline: Floats) -> bool:
    (x, y), (next_x, next_y) = outline.T, _following(outline).T
    return float((x * next_y - next_x * y).sum()) > 0.0


def bay_shapes(sections: Sequence[BaySection]) -> list[BayShape]:
    """The bays that have two sections or more, by id."""
    found = []
    for bay in sorted({one.bay for one in sections}):
        rows = sorted((one for one in sections if one.bay == bay), key=lambda one: one.x_mm)
        stations = np.array([one.x_mm for one in rows])
        if len(rows) >= 2 and (np.diff(stations) > 0.0).all():
            outlines = tuple(np.array(one.outline_mm, dtype=np.float64) for one in rows)
            found.append(BayShape(bay, stations, outlines, tuple(one.wall for one in rows)))
    return found
