"""A mixed-integer linear programme as it grows: columns, rows, and solving it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
# Sum of coefficient × column.
Terms = list[tuple[int, float]]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a solver found: a proven lower bound, values or None, whether it ended by itself.

    `empty`: proven to have no solution; `nodes`: how many were looked at.
    """

    bound: float
    values: Floats | None
    finished: bool
    empty: bool
    nodes: int = 0


@dataclass
class Rows:
    """Columns with bounds, cost and integrality, and rows low <= terms <= high."""

    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    cost: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    _row: list[int] = field(default_factory=list)
    _column: list[int] = field(default_factory=list)
    _value: list[float] = field(default_factory=list)
    _low: list[float] = field(default_factory=list)
    _high: list[float] = field(default_factory=list)

    def columns(
        self, count: int, low: float, high: float, cost: float = 0.0, whole: bool = False
    ) -> list[int]:
        """Add columns; their numbers."""
        first = len(self.low)
        self.low += [low] * count
        self.high += [high] * count
        self.cost += [cost] * count
        self.whole += [int(whole)] * count
        return list(range(first, first + count))

    def add(self, terms: Sequence[tuple[int, float]], low: float, high: float) -> None:
        """Add a row; a column may come more than once."""
        row = len(self._low)
        for column, value in terms:
            self._row.append(row)
            self._column.append(column)
            self._value.append(value)
        self._low.append(low)
        self._high.append(high)

    def lines(self) -> Iterator[tuple[Terms, float, float]]:
        """Yield the terms of each row with what they may come to."""
        terms: list[Terms] = [[] for _ in self._low]
        for row, column, value in zip(self._row, self._column, self._value, strict=True):
            terms[row].append((column, value))
        yield from zip(terms, self._low, self._high, strict=True)

    def minimised(self, nodes: int, below: float, seconds: float = np.inf) -> Answer:
        """Minimise the cost over all points that cost at most `below`, by at most `nodes` nodes.

        >>> rows = Rows()
        >>> a, b = rows.columns(2, 0.0, 10.0, 1.0, whole=True)
        >>> rows.add([(a, 2.0), (b, 1.0)], 7.0, np.inf)
        >>> rows.minimised(100, np.inf).bound
        4.0
        """
        import scipy.optimize
        import scipy.sparse

        row = [*self._row, *([len(self._low)] * len(self.cost))]
        column = [*self._column, *range(len(self.cost))]
        matrix = scipy.sparse.csr_matrix(
            ([*self._value, *self.cost], (row, column)), shape=(len(self._low) + 1, len(self.cost))
        )
        limits = scipy.optimize.LinearConstraint(
            matrix, np.array([*self._low, -np.inf]), np.array([*self._high, below])
        )
        found = scipy.optimize.milp(
            np.array(self.cost),
            integrality=np.array(self.whole),
            bounds=scipy.optimize.Bounds(np.array(self.low), np.array(self.high)),
            constraints=limits,
            options={"node_limit": nodes, "time_limit": seconds, "mip_rel_gap": 1e-7},
        )
        empty = found.status == 2
        dual = found.get("mip_dual_bound")
        bound = below if empty else (-np.inf if dual is None else float(dual))
        values = None if found.x is None else np.asarray(found.x, dtype=np.float64)
        return Answer(
            bound, values, found.status in (0, 2), empty, int(found.get("mip_node_count") or 0)
        )
