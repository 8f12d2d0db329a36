"""Which requirements cannot all be met, none of which can be left out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from hardstand.engines.harness.planning.formulation import formulate
from hardstand.engines.harness.planning.problem import Problem
from hardstand.engines.harness.planning.solve import WORK, solver_of

Key = tuple[str, int, int]  # what is asked, of which plug, place, capacity or failure; its other number
WISHES = ("capacity", "barred", "kept", "once", "output", "apart")  # given up first where possible


@dataclass(frozen=True, slots=True)
class Contradiction:
    """The smallest set that was found: every one of it is needed. `proven`: each step was decided."""

    requirements: tuple[Key, ...]
    proven: bool


def contradiction(
    problem: Problem, apart: Iterable[tuple[int, int]] = (), seed: int = 1, work: float = WORK
) -> Contradiction | None:
    """Why there is no plan in which no failure of `apart` takes its group; None where there is one.

    `apart`: failures and groups by number.

    >>> from hardstand.engines.harness.planning.problem import Failure, Group, Place, Plug
    >>> places = (Place(("a.1", "a.2"), "a", "a.rail"),)
    >>> plugs = tuple(Plug(one, (0, n), 500, {0: 30}) for n, one in enumerate("LR"))
    >>> both = Group("both of a pair", 10, (0, 1))
    >>> problem = Problem(places, plugs, (both,), (Failure("a", frozenset([0])),))
    >>> contradiction(problem, [(0, 0)]).requirements
    (('apart', 0, 0),)
    """
    from ortools.sat.python import cp_model

    literals: dict[Key, Any] = {}
    waiting: list[Key] = []

    def literal(what: str, one: int, other: int) -> Any:
        key = (what, one, other)
        if key not in literals:
            literals[key] = model_of[0].new_bool_var("_".join(map(str, key)))
            waiting.append(key)
        return literals[key]

    model_of: list[Any] = []
    made = formulate(problem, literal, model_of.append)
    for f, g in apart:
        made.model.add(made.taken[f, g] == 0).only_enforce_if(literal("apart", f, g))
    solver = solver_of(seed, work)

    def status(keys: Iterable[Key]) -> Any:
        made.model.clear_assumptions()
        made.model.add_assumptions([literals[one] for one in keys])
        return solver.solve(made.model)

    first = status(waiting)
    if first != cp_model.INFEASIBLE:
        return None
    by_index = {one.index: key for key, one in literals.items()}
    core = [by_index[one] for one in solver.sufficient_assumptions_for_infeasibility()
            if one in by_index] or waiting  # fmt: skip
    needed, proven = sorted(core, key=lambda one: (WISHES.index(one[0]), one[1:])), True
    for key in tuple(needed):
        rest = [one for one in needed if one != key]
        found = status(rest)
        if found == cp_model.INFEASIBLE:
            needed = rest
        proven = proven and found != cp_model.UNKNOWN
    return Contradiction(tuple(needed), proven)
