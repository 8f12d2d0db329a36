from __future__ import annotations

import math
from dataclasses import replace

import pytest

from benchmarks.layout_instances import three_trays
from hardstand.engines.fit.layout import bound
from hardstand.engines.fit.layout.board import board
from hardstand.engines.fit.layout.bound import Bounding
from hardstand.engines.fit.layout.branching import Branching
from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.plain import solve_plain
from hardstand.engines.fit.layout.problem import Item, Place, Problem, Tray
from hardstand.engines.fit.layout.search import built
from tests.engines.fit.layout.small_problems import least_cost, small_problem


@pytest.mark.parametrize("seed", range(12))
def test_the_bound_never_exceeds_the_best_of_all_layouts(seed: int) -> None:
    """On problems of two items every bound on the way is at most the optimum, and none falls."""
    least = least_cost(small_problem(seed, items=2))
    assert least is not None
    branching, last = Branching(board(small_problem(seed, items=2))), 0.0
    while not branching.ended:
        branching.work(5)
        assert last <= branching.least <= least
        last = branching.least
    assert branching.least == branching.upper == least


@pytest.mark.parametrize("seed", range(6))
def test_the_bound_agrees_with_the_constraint_solver(seed: int) -> None:
    """With three items, told the plain formulation's optimum or nothing, no bound exceeds it."""
    made = board(small_problem(60 + seed, items=3))
    plain = solve_plain(made, work=20.0)
    for upper in (math.inf, math.inf if plain.cost is None else float(plain.cost)):
        branching = Branching(made)
        branching.upper = upper
        branching.work(1500)
        if plain.cost is None:
            assert plain.infeasible
            assert branching.upper == math.inf
        else:
            assert plain.proven
            assert branching.least <= plain.cost <= branching.upper


@pytest.mark.parametrize("seed", range(3))
def test_layouts_met_on_the_way_are_legal_and_cost_what_is_said(seed: int) -> None:
    """Where a layout is met its cost is the upper limit, and the judge finds no fault."""
    problem = small_problem(20 + seed, items=2)
    branching = Branching(board(problem))
    branching.work(2000)
    assert branching.met is not None
    cost, standings = branching.met
    layout = branching.board.layout(standings)
    assert not faults(problem, layout)
    assert evaluate(problem, layout).total == cost == branching.upper


def test_no_layout_at_all_is_proven() -> None:
    """Three boxes of 31 by 21 mm on a shelf of 60 by 40 mm: no case is left and no cost is known."""
    shelf = Tray("shelf", ((0, 0), (60, 0), (60, 40), (0, 40)))
    items = tuple(Item(name, (31, 21, 10), (Place("shelf"),)) for name in "abc")
    branching = Branching(board(Problem((shelf,), items)))
    branching.work(3000)
    assert branching.ended
    assert branching.least == math.inf


def test_proof_by_cases_ends_where_the_rounds_do(monkeypatch: pytest.MonkeyPatch) -> None:
    """Bounds of a proof that begins by cases rise to the same optimum, whatever the items' number."""
    problem = small_problem(3, items=2)
    least = least_cost(problem)
    monkeypatch.setattr(bound, "FEW", 0)
    bounding, bounds = Bounding(board(problem)), list[int]()
    assert bounding.branching is not None
    for _ in range(40):
        found = bounding.stage(4, lambda: 1e9)
        bounds += [one.cost for one in found]
        if found[-1].ended:
            break
    assert bounds == sorted(bounds)
    assert bounds[-1] == least


def test_the_same_work_gives_the_same_bound_however_it_is_shared() -> None:
    """On the three-tray fuselage the cases' bounds do not depend on how often the work pauses."""
    made = board(replace(three_trays(), balances=()))
    one, other = Branching(made), Branching(made)
    standings = built(made, 1)
    assert standings is not None
    upper = evaluate(made.problem, made.layout(standings)).total
    one.upper = other.upper = upper
    one.work(60)
    while other.solved < one.solved:
        other.work(1)
    assert one.solved == other.solved
    assert one.least == other.least
    assert one.standings == other.standings


def test_the_conflicts_cases_were_split_by_come_by_frequency() -> None:
    """Each has been tried, a larger share of the cases names no more of them, and none is foreign."""
    branching = Branching(board(small_problem(60, items=3)))
    branching.work(60)
    every, half = branching.parted_by(0.0), branching.parted_by(0.5)
    assert every
    assert set(every) <= set(branching.gains)
    assert half == every[: len(half)]
    lines = [[key for key in one.case.lines if isinstance(key, tuple)] for _, _, one in branching.heap]
    often = [sum(any(key[0] == split for key in keys) for keys in lines) for split in every]
    assert often == sorted(often, reverse=True)
    assert all((2 * times >= len(lines)) == (k < len(half)) for k, times in enumerate(often))
