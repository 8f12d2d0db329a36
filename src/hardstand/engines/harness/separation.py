"""How near the routes come to hot parts, to what moves, and with high currents to aerials."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from hardstand.description.items import Antenna
from hardstand.engines.harness.solids import Floats, Solid
from hardstand.findings import Limit

LIMIT_OF = {"hot": "fit.hot-gap", "moving": "fit.moving-gap", "aerial": "fit.aerial-lead"}
HIGH_A = 5.0  # from here on a lead disturbs aerials; common practice, no source
Place = tuple[float, float, float]
Span = tuple[Floats, Floats]
Near = tuple[str, str, str, float]  # hazard, id, name, distance in mm


def kept_mm(limits: Mapping[str, Limit]) -> dict[str, float]:
    """How far leads are to keep from each hazard, mm."""
    return {one: limits[name].low or 0.0 for one, name in LIMIT_OF.items()}


def aerial_solids(antennas: Iterable[Antenna]) -> list[Solid]:
    """The aerials as boxes around them, which leads of high current keep away from."""
    found = []
    for one in antennas:
        ends = np.array(_ends(one))
        low, high = ends.min(axis=0).tolist(), ends.max(axis=0).tolist()
        found.append(Solid(one.id, one.id, tuple(low), tuple(high), "aerial"))
    return found


def _ends(one: Antenna) -> tuple[Floats, Floats]:
    tip, way = np.array(one.tip_mm, dtype=np.float64), np.array(one.direction, dtype=np.float64)
    return tip - way / np.linalg.norm(way) * one.length_mm, tip


class Hazards:
    """The solids that are hazards, and which of them a way could come too near to."""

    def __init__(self, things: Iterable[Solid], limits: Mapping[str, Limit]) -> None:
        self.solids = tuple(one for one in things if one.hazard)
        far = kept_mm(limits)
        grown = np.array([far[one.hazard] for one in self.solids]).reshape(-1, 1)
        self._low = np.array([one.low for one in self.solids]).reshape(-1, 3) - grown
        self._high = np.array([one.high for one in self.solids]).reshape(-1, 3) + grown

    def beside(self, box: Span) -> tuple[Solid, ...]:
        """Those whose box, with its limit around it, meets another's, mm."""
        meet = (self._low <= box[1]) & (self._high >= box[0])
        return tuple(self.solids[k] for k in meet.all(axis=1).nonzero()[0].tolist())


def span(points: Sequence[Place]) -> Span:
    """The lowest and the highest corner of the box around points, mm."""
    rows = np.array(points)
    return rows.min(axis=0), rows.max(axis=0)


def nearest(points: Sequence[Place], hazards: Sequence[Solid]) -> tuple[Near, ...]:
    """The distance of a polyline from each solid, mm.

    Taken at points 5 mm apart, so it may be up to 0.6 mm too much at 5 mm, and less farther off.
    """
    fine = along(np.array(points), 5.0)
    found = []
    for solid in hazards:
        off = np.maximum(np.maximum(np.array(solid.low) - fine, fine - np.array(solid.high)), 0.0)
        far = float(np.linalg.norm(off, axis=1).min())
        found.append((solid.hazard, solid.id, solid.name, far))
    return tuple(found)


def along(points: Floats, step_mm: float) -> Floats:
    """Points along a polyline, no more than a step apart, (M, 3).

    >>> len(along(np.array([[0.0, 0.0, 0.0], [10.0, 0.0, 0.0]]), 5.0))
    3
    """
    parts = []
    for a, b in itertools.pairwise(points):
        count = max(1, int(np.ceil(np.linalg.norm(b - a) / step_mm)))
        parts.append(a + (b - a) * np.linspace(0.0, 1.0, count, endpoint=False)[:, None])
    return np.vstack([*parts, points[-1:]])
