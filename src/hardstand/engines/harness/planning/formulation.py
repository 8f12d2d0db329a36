"""The assignment as a constraint model: which place each plug goes to, and which stay where they are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from hardstand.engines.harness.planning.levels import sums, taken_groups
from hardstand.engines.harness.planning.problem import Plan, Problem, Spot

Asked = Callable[[str, int, int], Any]  # what, number, further number: a literal, or True


def everything(what: str, one: int, other: int) -> bool:
    """Every requirement holds."""
    del what, one, other
    return True


@dataclass
class Formulated:
    """A model with its variables: `goes` by plug and place, `stays` by plug, the levels' sums."""

    problem: Problem
    model: Any
    goes: dict[tuple[int, int], Any]
    stays: list[Any]
    taken: dict[tuple[int, int], Any]
    levels: dict[str, Any]

    def plan(self, solver: Any) -> Plan:
        """The plan of a solution: at its own output what can be, the rest at the first that are left."""
        where = [next(c for c in plug.fits if solver.value(self.goes[p, c]))
                 for p, plug in enumerate(self.problem.plugs)]  # fmt: skip
        spots: dict[int, Spot] = {}
        for p in sorted(range(len(where)), key=lambda p: not solver.value(self.stays[p])):
            own = self.problem.plugs[p].now
            if own[0] == where[p] and own not in spots.values():
                spots[p] = own
        used = set(spots.values())
        for p, c in enumerate(where):
            if p not in spots:
                spots[p] = next((c, n) for n in range(len(self.problem.places[c].ends))
                                if (c, n) not in used)  # fmt: skip
                used.add(spots[p])
        return tuple(spots[p] for p in range(len(where)))


def formulate(
    problem: Problem, asked: Asked = everything, begun: Callable[[Any], None] = lambda _: None
) -> Formulated:
    """The model. Every requirement is put as `asked` says: always, or only if a literal is true.

    `begun` is given the model while it is still empty, for what `asked` makes in it.

    What is asked: ("output", plug) it has one; ("once", place) no output twice; ("kept", plug);
    ("barred", plug, place); ("capacity", number).
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    begun(model)
    goes = {(p, c): model.new_bool_var(f"goes_{p}_{c}")
            for p, plug in enumerate(problem.plugs) for c in plug.fits}  # fmt: skip
    stays = [model.new_bool_var(f"stays_{p}") for p in range(len(problem.plugs))]
    put = _Put(model, asked)
    for p, plug in enumerate(problem.plugs):
        mine = [goes[p, c] for c in plug.fits]
        model.add(sum(mine) <= 1)
        put(sum(mine) >= 1, "output", p)
        model.add(stays[p] <= goes[p, plug.now[0]]) if plug.now[0] in plug.fits else model.add(
            stays[p] == 0)  # fmt: skip
        if plug.kept:
            put(stays[p] == 1, "kept", p)
        for c in plug.barred:
            put(goes[p, c] == 0, "barred", p, c)
    _once(problem, model, put, goes, stays)
    for k, one in enumerate(problem.capacities):
        ma = sum(plug.ma * goes[p, c] for p, plug in enumerate(problem.plugs)
                 for c in plug.fits if c in one.places)  # fmt: skip
        put(ma <= one.most_ma - one.base_ma, "capacity", k)
    taken = taken_groups(problem, model, goes)
    return Formulated(problem, model, goes, stays, taken, sums(problem, model, goes, stays, taken))


@dataclass(frozen=True)
class _Put:
    model: Any
    asked: Asked

    def __call__(self, rule: Any, what: str, one: int, other: int = -1) -> None:
        literal = self.asked(what, one, other)
        if isinstance(rule, bool):  # nothing of it can be chosen
            if not rule:
                self.model.add_bool_or([] if literal is True else [literal.negated()])
            return
        added = self.model.add(rule)
        if literal is not True:
            added.only_enforce_if(literal)


def _once(problem: Problem, model: Any, put: _Put, goes: Any, stays: list[Any]) -> None:
    """No more plugs at a place than it has outputs, and one alone that stays at an output."""
    for c, place in enumerate(problem.places):
        here = [goes[p, c] for p, plug in enumerate(problem.plugs) if c in plug.fits]
        if len(here) > len(place.ends):
            put(sum(here) <= len(place.ends), "once", c)
    by_spot: dict[Spot, list[Any]] = {}
    for plug, one in zip(problem.plugs, stays, strict=True):
        by_spot.setdefault(plug.now, []).append(one)
    for rivals in by_spot.values():
        if len(rivals) > 1:
            model.add(sum(rivals) <= 1)
