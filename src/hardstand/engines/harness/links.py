"""Runs between numbered points with their costs, looked up by the points that they touch."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.solids import Bools, Floats

Index = NDArray[np.intp]
Row = list[tuple[int, float]]  # points one run away, with what the run costs
THROUGH_MM, THROUGH = 2000.0, 4.0  # cost of a run through something: so much, and times its length
STEP = 0.01  # cost of a further point


@dataclass(frozen=True, eq=False)
class Links:
    """Runs (E,) between points a and b: cost, and whether they go through something.

    `rows`, `starts` are what `by_point` makes of a and b.
    """

    a: Index
    b: Index
    cost: Floats
    through: Bools
    rows: Index
    starts: Index

    @cached_property
    def _other(self) -> Index:
        return np.concatenate([self.b, self.a])

    def _at(self, point: int) -> Index:
        ends = self.starts[point : point + 2]  # points beyond those that the links know have none
        return self.rows[ends[0] : ends[1]] if len(ends) == 2 else self.rows[:0]

    def row(self, point: int, *, every: bool) -> Row:
        """The runs at a point: only those that are clear, or every one."""
        both = self._at(point)
        run = both % max(len(self.a), 1)
        if not every:
            clear = ~self.through[run]
            both, run = both[clear], run[clear]
        return list(zip(self._other[both].tolist(), self.cost[run].tolist(), strict=True))

    def blocked(self, one: int, other: int) -> bool:
        """Whether a run between two points goes through something."""
        both = self._at(one)
        between = both[self._other[both] == other] % max(len(self.a), 1)
        return bool(self.through[between].any())


def cost(length_mm: Floats, factor: Floats | float, through: Bools) -> Floats:
    """What runs (E,) cost, by lengths in mm, factors, and whether they go through something."""
    return np.asarray(
        length_mm * np.where(through, THROUGH, factor) + np.where(through, THROUGH_MM, STEP)
    )


def by_point(a: Index, b: Index, count: int) -> tuple[Index, Index]:
    """Runs by the points that they touch: rows (2E,) of runs there and (from E on) back, starts (N+1,).

    >>> rows, starts = by_point(np.array([0, 1]), np.array([1, 2]), 3)
    >>> [rows[starts[k] : starts[k + 1]].tolist() for k in range(3)]
    [[0], [1, 2], [3]]
    """
    both = np.concatenate([a, b])
    rows = np.argsort(both, kind="stable")
    return rows, np.searchsorted(both[rows], np.arange(count + 1))
