"""Lanes as rows of points, and those along the walls of bays, three a side."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from hardstand.asbuilt.value import BaySection

WALL_MM = 8.0  # middle of a lead off the wall of a bay; common practice, no source
HEIGHTS = (0.15, 0.5, 0.85)  # of the lanes along a wall, as shares of the height of the bay
STEP_MM = 60.0  # between the points of a lane: ties stand 100 mm apart at most


@dataclass
class Lanes:
    """Points of lanes, mm, with the pairs that a lane joins, and those joined through an opening.

    `through` names the hole of a pair; `hole_points` the points above and below of every hole.
    """

    points: list[tuple[float, float, float]] = field(default_factory=list)
    pairs: list[tuple[int, int]] = field(default_factory=list)
    through: dict[tuple[int, int], str] = field(default_factory=dict)
    hole_points: dict[str, tuple[int, int]] = field(default_factory=dict)
    names: list[str] = field(default_factory=list)

    def add(self, x: float, y: float, z: float, name: str) -> int:
        """A further point; its number."""
        self.points.append((float(x), float(y), float(z)))
        self.names.append(name)
        return len(self.points) - 1

    def run(self, numbers: Sequence[int], *, closed: bool = False) -> None:
        """Join points in their order, and the last with the first where closed."""
        self.pairs += zip(numbers, [*numbers[1:], numbers[0]] if closed else numbers[1:], strict=False)


def walls(found: Lanes, bay: str, sections: Sequence[BaySection]) -> None:
    """Add the lanes along the walls of a bay, whose sections come from front to back."""
    stations: list[float] = []
    for one, other in itertools.pairwise(sections):
        count = max(1, int(np.ceil((other.x_mm - one.x_mm) / STEP_MM)))
        stations += [one.x_mm + (other.x_mm - one.x_mm) * k / count for k in range(count)]
    stations += [one.x_mm for one in sections[-1:]]
    for share in HEIGHTS:
        for side in (-1.0, 1.0):
            name = f"{bay} wall {'left' if side < 0.0 else 'right'}"
            points = wall_points(sections, stations, share, side)
            found.run([found.add(x, y, z, name) for x, (y, z) in zip(stations, points, strict=True)])


def wall_points(
    sections: Sequence[BaySection], stations: Sequence[float], share: float, side: float
) -> list[tuple[float, float]]:
    """Where a lane runs along the wall of a bay, at stations in mm: y and z, mm."""
    ends = np.array([_at_section(one, share, side) for one in sections])
    x = [one.x_mm for one in sections]
    found = np.column_stack([np.interp(stations, x, ends[:, k]) for k in (0, 1)])
    return [(float(y), float(z)) for y, z in found]


def _at_section(section: BaySection, share: float, side: float) -> tuple[float, float]:
    outline = [(float(y), float(z)) for y, z in section.outline_mm]
    low, high = min(z for _, z in outline), max(z for _, z in outline)
    z = low + share * (high - low)
    ys = [a[0] + (b[0] - a[0]) * (z - a[1]) / (b[1] - a[1])
          for a, b in itertools.pairwise([*outline, outline[0]])
          if a[1] != b[1] and min(a[1], b[1]) <= z <= max(a[1], b[1])]  # fmt: skip
    wall = (max(ys) if side > 0.0 else min(ys)) if ys else 0.0
    return wall - side * min(WALL_MM, abs(wall)), z
