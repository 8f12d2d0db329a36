"""Is there any legal layout? First by building, then by a proof either way."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.engines.fit.layout.board import Board, Standing
from hardstand.engines.fit.layout.formulation import formulate
from hardstand.engines.fit.layout.search import built


@dataclass(frozen=True, slots=True)
class Feasibility:
    """`standings` of a legal layout; without: `proven` that there is none, or not known."""

    standings: list[Standing] | None
    proven: bool


def feasibility(
    board: Board, seed: int, work: float, tries: int = 12, seconds: float = 1e9
) -> Feasibility:
    """Find a legal layout or prove that there is none, by at most `work` of the solver's own units.

    One unit is about a second on one core; the same work gives the same answer. `seconds` is wall
    clock and only cuts off.
    """
    from ortools.sat.python import cp_model

    if any(not choices for choices in board.stances):
        return Feasibility(None, proven=True)
    found = built(board, seed, tries)
    if found is not None:
        return Feasibility(found, proven=True)
    made = formulate(board, costed=False)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 2
    solver.parameters.interleave_search = True
    solver.parameters.random_seed = seed
    # Worth their time where boxes fill a tray almost wholly.
    solver.parameters.use_timetabling_in_no_overlap_2d = True
    solver.parameters.use_energetic_reasoning_in_no_overlap_2d = True
    solver.parameters.max_deterministic_time = work
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(made.model)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Feasibility(made.standings(solver), proven=True)
    return Feasibility(None, proven=status == cp_model.INFEASIBLE)
