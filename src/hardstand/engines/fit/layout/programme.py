"""A linear programme that is solved again and again with a few bounds changed, from where it was."""

from __future__ import annotations

import math
from collections.abc import Hashable
from typing import TYPE_CHECKING

import numpy as np

from hardstand.engines.fit.layout.rows import Floats, Rows, Terms

if TYPE_CHECKING:
    from ortools.linear_solver import pywraplp  # type: ignore[import-untyped]

Line = tuple[Terms, float, float]


class Programme:
    """The rows without their whole numbers, some columns shut at 0, and further rows on demand.

    `told`: only so many columns' values are read. Deterministic: the same calls in the same order
    give the same numbers.

    >>> rows = Rows()
    >>> a, b = rows.columns(2, 0.0, 10.0, 1.0)
    >>> rows.add([(a, 2.0), (b, 1.0)], 7.0, np.inf)
    >>> programme = Programme(rows, 2)
    >>> programme.solved(frozenset(), {})[0], programme.solved(frozenset([a]), {})[0]
    (3.5, 7.0)
    >>> programme.solved(frozenset(), {"a": ([(a, 1.0)], -np.inf, 1.0)})[0]
    6.0
    """

    def __init__(self, rows: Rows, told: int) -> None:
        from ortools.linear_solver import pywraplp

        self.solver = pywraplp.Solver.CreateSolver("CLP")
        if self.solver is None:
            raise RuntimeError("the constraint library has no linear solver built in")
        self.told = told
        # From where it was: what a presolve would gain it would lose by beginning anew.
        self.way = pywraplp.MPSolverParameters()
        self.way.SetIntegerParam(self.way.PRESOLVE, self.way.PRESOLVE_OFF)
        self.way.SetIntegerParam(self.way.LP_ALGORITHM, self.way.DUAL)
        self.high = [self._limit(value) for value in rows.high]
        self.columns = [
            self.solver.NumVar(self._limit(low), high, "")
            for low, high in zip(rows.low, self.high, strict=True)
        ]
        for terms, low, high in rows.lines():
            self._row(terms, low, high)
        objective = self.solver.Objective()
        objective.SetMinimization()
        for column, cost in zip(self.columns, rows.cost, strict=True):
            if cost:
                objective.SetCoefficient(column, cost)
        self.shut: frozenset[int] = frozenset()
        self.said: frozenset[Hashable] = frozenset()
        self.known: dict[Hashable, pywraplp.Constraint] = {}

    def _limit(self, value: float) -> float:
        if math.isfinite(value):
            return float(value)
        limit: float = self.solver.infinity()
        return math.copysign(limit, value)

    def _row(self, terms: Terms, low: float, high: float) -> pywraplp.Constraint:
        row, sums = self.solver.Constraint(self._limit(low), self._limit(high)), dict[int, float]()
        for column, value in terms:
            sums[column] = sums.get(column, 0.0) + value
        for column, value in sums.items():
            row.SetCoefficient(self.columns[column], value)
        return row

    def solved(
        self, shut: frozenset[int], lines: dict[Hashable, Line]
    ) -> tuple[float, Floats | None]:
        """Least cost, and the values told, with columns shut and lines that hold for this time.

        Infinite and None where there is no solution. A line is known again by its key.
        """
        for column in self.shut - shut:
            self.columns[column].SetUb(self.high[column])
        for column in shut - self.shut:
            self.columns[column].SetUb(0.0)
        # By order of the dictionaries: that of sets of words differs from one process to the next.
        for key in [key for key in self.known if key in self.said and key not in lines]:
            self.known[key].SetBounds(self._limit(-math.inf), self._limit(math.inf))
        for key, line in lines.items():
            if key not in self.known:
                self.known[key] = self._row(*line)
            elif key not in self.said:
                self.known[key].SetBounds(self._limit(line[1]), self._limit(line[2]))
        self.shut, self.said = shut, frozenset(lines)
        status = self.solver.Solve(self.way)
        if status == self.solver.INFEASIBLE:
            return math.inf, None
        if status != self.solver.OPTIMAL:  # nothing is known then
            return -math.inf, None
        values = [column.solution_value() for column in self.columns[: self.told]]
        return float(self.solver.Objective().Value()), np.array(values)
