"""The plain formulation handed to the constraint solver as it is: what the rest is measured by."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.engines.fit.layout.board import Board, Standing
from hardstand.engines.fit.layout.cost import evaluate
from hardstand.engines.fit.layout.formulation import formulate


@dataclass(frozen=True, slots=True)
class Plain:
    """Cheapest standings found (None: none) with their cost by the judge, and the solver's bound.

    `infeasible`: proven that there is no legal layout.
    """

    standings: list[Standing] | None
    cost: int | None
    bound: int
    proven: bool
    infeasible: bool


def solve_plain(
    board: Board,
    seconds: float = 1e9,
    workers: int = 2,
    seed: int = 1,
    work: float | None = None,
    start: list[Standing] | None = None,
) -> Plain:
    """Solve by the constraint solver alone.

    With `work` (its own units, about seconds on one core) the workers take turns and the answer is
    repeatable; without it only the wall clock stops it.
    """
    from ortools.sat.python import cp_model

    made = formulate(board)
    if start is not None:
        made.hint(start)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = seed
    solver.parameters.max_time_in_seconds = seconds
    if work is not None:
        solver.parameters.interleave_search = workers > 1
        solver.parameters.max_deterministic_time = work
    status = solver.solve(made.model)
    bound = round(solver.best_objective_bound)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Plain(None, None, bound, proven=False, infeasible=status == cp_model.INFEASIBLE)
    standings = made.standings(solver)
    cost = evaluate(board.problem, board.layout(standings)).total
    return Plain(standings, cost, bound, status == cp_model.OPTIMAL, infeasible=False)
