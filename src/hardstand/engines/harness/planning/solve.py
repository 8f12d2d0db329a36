"""The best plan, with its proof: level after level, none given up for one that follows it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from hardstand.engines.harness.planning.cost import evaluate, faults
from hardstand.engines.harness.planning.formulation import formulate
from hardstand.engines.harness.planning.problem import LEVELS, Cost, Level, Plan, Problem

WORK = 20.0  # of the solver's own units for each level, about seconds on one core


@dataclass(frozen=True, slots=True)
class Answer:
    """A plan and its cost, None where there is none; `proven` that it is best, or that there is none.

    `proven_levels` are those whose figure is proven to be the least, given those before.
    """

    plan: Plan | None
    cost: Cost | None
    proven: bool
    proven_levels: tuple[str, ...] = ()


def solver_of(seed: int, work: float) -> Any:
    """A solver that does the same work in the same order each time."""
    from ortools.sat.python import cp_model

    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed
    solver.parameters.max_deterministic_time = work
    return solver


def solve(
    problem: Problem, order: tuple[Level, ...] = LEVELS, seed: int = 1, work: float = WORK,
    apart: Iterable[tuple[int, int]] = (),
) -> Answer:  # fmt: skip
    """The best plan by the levels in their order; the same problem gives the same plan.

    `apart`: failures that must not take a group, both by number.

    Each level is minimised with those before it held at their least. Raises RuntimeError where the
    solver's figures are not those of the plan counted by itself, which would be an error in here.

    >>> from hardstand.engines.harness.planning.problem import Failure, Group, Place, Plug
    >>> places = (Place(("a.1", "a.2"), "a", "a.rail"), Place(("b.1",), "b", "b.rail"))
    >>> plugs = tuple(Plug(one, (0, n), 500, {0: 30, 1: 40}) for n, one in enumerate("LR"))
    >>> both = Group("both of a pair", 10, (0, 1))
    >>> found = solve(Problem(places, plugs, (both,), (Failure("a", frozenset([0])),)))
    >>> found.cost, found.proven
    (Cost(failures=0, changes=1, length=70, spread=0), True)
    """
    from ortools.sat.python import cp_model

    made = formulate(problem)
    for pair in apart:
        made.model.add(made.taken[pair] == 0)
    solver = solver_of(seed, work)
    plan: Plan | None = None
    proven: list[str] = []
    bests: list[int] = []
    for level in order:
        made.model.minimize(made.levels[level])
        status = solver.solve(made.model)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            if plan is None:
                return Answer(None, None, proven=status == cp_model.INFEASIBLE)
            break
        plan = made.plan(solver)
        bests.append(round(solver.objective_value))
        if status == cp_model.OPTIMAL and len(proven) == order.index(level):
            proven.append(level)
        made.model.add(made.levels[level] <= bests[-1])
        made.model.clear_hints()
        for var in made.goes.values():
            made.model.add_hint(var, solver.value(var))
    if plan is None:
        return Answer(None, None, proven=False)
    cost = evaluate(problem, plan)
    _agree(problem, plan, cost.ranked(order), tuple(bests))
    return Answer(plan, cost, len(proven) == len(order), tuple(proven))


def _agree(
    problem: Problem, plan: Plan, counted: tuple[int, ...], solved: tuple[int, ...]
) -> None:
    """The plan is legal, and counted by itself it is no dearer than the solver says."""
    wrong = faults(problem, plan)
    if wrong:
        raise RuntimeError(f"the plan that was found is none: {wrong[0]}")
    if len(solved) == len(counted) and counted > solved:
        raise RuntimeError(f"the plan costs {counted}, and was said to cost {solved}")
