from __future__ import annotations

import itertools

from hardstand.engines.harness.planning.contradiction import Key, contradiction
from hardstand.engines.harness.planning.cost import faults, taken
from hardstand.engines.harness.planning.problem import Problem, Spot
from tests.engines.harness.planning.small_plans import best_of_all, random_problem


def possible(problem: Problem, asked: set[Key]) -> bool:
    """Whether some assignment, plugs left out allowed, meets the requirements of a set, by trying all."""
    spots: list[Spot | None] = [
        None, *((c, n) for c, place in enumerate(problem.places) for n in range(len(place.ends) + 4))]
    return any(_meets(problem, plan, asked)
               for plan in itertools.product(spots, repeat=len(problem.plugs)))  # fmt: skip


def _meets(problem: Problem, plan: tuple[Spot | None, ...], asked: set[Key]) -> bool:
    here = [one for one in plan if one is not None]
    if len(set(here)) < len(here):
        return False  # the outputs beyond those of a place stand for one that is used twice
    return _plugs_meet(problem, plan, asked) and _places_meet(problem, plan, asked) and not any(
        what == "apart" and _lost(problem, plan, f, g) for what, f, g in asked)  # fmt: skip


def _plugs_meet(problem: Problem, plan: tuple[Spot | None, ...], asked: set[Key]) -> bool:
    for p, (plug, spot) in enumerate(zip(problem.plugs, plan, strict=True)):
        if ("kept", p, -1) in asked and spot != plug.now:
            return False
        if spot is None and ("output", p, -1) in asked:
            return False
        if spot is not None and (spot[0] not in plug.fits or ("barred", p, spot[0]) in asked):
            return False
    return True


def _places_meet(problem: Problem, plan: tuple[Spot | None, ...], asked: set[Key]) -> bool:
    at = [-1 if spot is None else spot[0] for spot in plan]
    for c, place in enumerate(problem.places):
        if ("once", c, -1) in asked and at.count(c) > len(place.ends):
            return False
    for k, one in enumerate(problem.capacities):
        ma = one.base_ma + sum(plug.ma for plug, c in zip(problem.plugs, at, strict=True)
                               if c in one.places)  # fmt: skip
        if ("capacity", k, -1) in asked and ma > one.most_ma:
            return False
    return True


def _lost(problem: Problem, plan: tuple[Spot | None, ...], f: int, g: int) -> bool:
    spots = [plan[p] for p in problem.groups[g].plugs]
    return all(spot is None or spot[0] in problem.failures[f].dead for spot in spots)


def test_what_contradicts_does_and_not_one_is_too_many() -> None:
    """Every set that is named cannot be met, and can once any one of it is given up."""
    seen = 0
    for seed in range(45):
        problem = random_problem(seed)
        every = [(f, g) for f in range(len(problem.failures)) for g in range(len(problem.groups))]
        for apart in ((), tuple(every)):
            found = contradiction(problem, apart)
            if found is None:
                continue
            seen += 1
            asked = set(found.requirements)
            assert found.proven
            assert not possible(problem, asked), (seed, asked)
            for one in asked:
                assert possible(problem, asked - {one}), (seed, asked, one)
    assert seen > 12


def test_there_is_a_contradiction_just_where_there_is_no_plan() -> None:
    """Without wishes the contradiction is None exactly where some assignment is legal."""
    for seed in range(60):
        problem = random_problem(seed)
        assert (contradiction(problem) is None) == (best_of_all(problem) is not None), seed


def test_apart_is_possible_just_where_a_plan_has_it() -> None:
    """A wish is told to be impossible exactly where every legal plan has that failure take that group."""
    for seed in range(60):
        problem = random_problem(seed)
        if not problem.failures or not problem.groups or best_of_all(problem) is None:
            continue
        spots = [(c, n) for c, place in enumerate(problem.places) for n in range(len(place.ends))]
        plans = [plan for plan in itertools.product(spots, repeat=len(problem.plugs))
                 if not faults(problem, plan)]  # fmt: skip
        free = any((0, 0) not in taken(problem, plan) for plan in plans)
        assert (contradiction(problem, [(0, 0)]) is None) == free, seed
