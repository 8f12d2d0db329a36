"""Runs between numbered points with their costs, looked up by the points that they touch."""

from __future__ import annotations

from dataclasses import dataclass

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

    `run`, `far`, `starts` are what `by_point` makes of a and b.
    """

    a: Index
    b: Index
    cost: Floats
    through: Bools
    run: Index
    far: Index
    starts: Index

    def _at(self, point: int) -> slice:
        ends = self.starts[point : point + 2].tolist()
        return slice(*ends) if len(ends) == 2 else slice(0)  # others' points have no runs here

    def row(self, point: int, *, every: bool) -> Row:
        """The runs at a point: only those that are clear, or every one."""
        here = self._at(point)
        run, far = self.run[here], self.far[here]
        if not every:
            clear = ~self.through[run]
            run, far = run[clear], far[clear]
        return list(zip(far.tolist(), self.cost[run].tolist(), strict=True))

    def blocked(self, one: int, other: int) -> bool:
        """Whether a run between two points goes through something."""
        here = self._at(one)
        return bool(self.through[self.run[here][self.far[here] == other]].any())


def cost(length_mm: Floats, factor: Floats | float, through: Bools) -> Floats:
    """What runs (E,) cost, by lengths in mm, factors, and whether they go through something."""
    return np.asarray(
        length_mm * np.where(through, THROUGH, factor) + np.where(through, THROUGH_MM, STEP)
    )


def by_point(a: Index, b: Index, count: int) -> tuple[Index, Index, Index]:
    """Runs (E,) by the points that they touch: run (2E,), the point at its far end (2E,), starts (N+1,).

    >>> run, far, starts = by_point(np.array([0, 1]), np.array([1, 2]), 3)
    >>> run.tolist(), far.tolist(), starts.tolist()
    ([0, 1, 0, 1], [1, 2, 0, 1], [0, 1, 3, 4])
    """
    near, far = np.concatenate([a, b]), np.concatenate([b, a])
    order = np.argsort(near, kind="stable")
    starts = np.searchsorted(near[order], np.arange(count + 1))
    return order % max(len(a), 1), far[order], starts
