from __future__ import annotations

from dataclasses import replace

import pytest

from hardstand.engines.fit.layout import bound, turns
from hardstand.engines.fit.layout.board import board
from hardstand.engines.fit.layout.bound import Bounding, cost_of
from hardstand.engines.fit.layout.plain import solve_plain
from hardstand.engines.fit.layout.search import built
from tests.engines.fit.layout.small_problems import least_cost, small_problem


@pytest.mark.parametrize("seed", range(6))
def test_the_bound_never_exceeds_and_in_the_end_meets_the_best_of_all_layouts(seed: int) -> None:
    """On problems of two items every round's bound is at most the optimum, and the last one is it."""
    problem = small_problem(seed, items=2)
    least = least_cost(problem)
    assert least is not None
    bounding = Bounding(board(problem))
    last = 0
    for number, found in enumerate(bounding.rounds()):
        assert last <= found.cost <= least
        last = found.cost
        assert number < 60
    assert last == least


@pytest.mark.parametrize("seed", range(2))
def test_bound_and_constraint_solver_agree(seed: int) -> None:
    """With three items, told the optimum of the plain formulation, the proof ends at exactly it."""
    made = board(small_problem(40 + seed, items=3))
    plain = solve_plain(made, work=20.0)
    if plain.standings is None or plain.cost is None:
        assert plain.infeasible
        return
    assert plain.proven
    bounding = Bounding(made)
    bounding.upper = cost_of(made, plain.standings)
    bounds = [found.cost for found in bounding.rounds()]
    assert bounds[-1] == plain.cost == plain.bound


def test_a_falling_upper_limit_keeps_the_bound_valid() -> None:
    """Starting from a poor layout, with the limit lowered on the way, the optimum is still found."""
    problem = replace(small_problem(6, items=2), balances=())
    least = least_cost(problem)
    made = board(problem)
    standings = built(made, 1)
    assert standings is not None
    bounding = Bounding(made)
    bounding.upper = cost_of(made, standings)
    for found in bounding.rounds():
        assert least is not None
        assert found.cost <= least
        bounding.upper = min(bounding.upper, least)
    assert bounding.best == least


def test_a_stage_does_no_more_rounds_than_asked_and_none_without_time() -> None:
    """Stages of two rounds give the same bounds as the rounds one by one; no time left, no round."""
    made = board(small_problem(1, items=2))
    one_by_one = [found.cost for found in Bounding(made).rounds()]
    bounding = Bounding(made)
    assert bounding.stage(2, lambda: 0.0) == []
    costs: list[int] = []
    while True:
        found = bounding.stage(2, lambda: 1e9)
        assert 1 <= len(found) <= 2
        costs += [one.cost for one in found]
        if found[-1].ended:
            break
    assert costs == one_by_one


@pytest.mark.parametrize("seed", [2, 3, 5, 6])
def test_turns_of_both_kinds_of_proof_meet_the_best_of_all_layouts(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By cases and by rounds in turn no bound exceeds the optimum, and the last one is it."""
    monkeypatch.setattr(bound, "FEW", 0)
    monkeypatch.setattr(turns, "_SPAN", 5.0)
    monkeypatch.setattr(turns, "_SLOW", 1e9)
    problem = small_problem(seed, items=2)
    least = least_cost(problem)
    assert least is not None
    bounding, bounds = Bounding(board(problem), nodes=4), list[int]()
    for _ in range(200):
        found = bounding.stage(4, lambda: 1e9)
        bounds += [one.cost for one in found]
        if found[-1].ended:
            break
    assert bounds == sorted(bounds)
    assert bounds[-1] == least
    assert bounding.cases.work > 0.0
    assert bounding.others.work > 0.0


def test_turns_are_the_same_each_time_and_rounds_begin_with_what_cases_were_split_by(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """With three items the same work gives the same bounds, conflicts and shares of it."""
    monkeypatch.setattr(bound, "FEW", 0)
    monkeypatch.setattr(turns, "_SPAN", 60.0)
    monkeypatch.setattr(turns, "_SLOW", 1e9)
    made, seen = board(small_problem(60, items=3)), []
    for _ in range(2):
        bounding = Bounding(made, nodes=48)
        first = bounding.stage(1, lambda: 1e9)
        assert bounding.branching is not None
        known = bounding.branching.parted_by(0.1)
        bounds = [one.cost for one in [*first, *bounding.stage(2, lambda: 1e9)]]
        assert known
        assert set(known) <= bounding.added
        assert bounding.others.work > 0.0
        seen.append((bounds, bounding.added, bounding.cases.work, bounding.others.work))
    assert seen[0] == seen[1]
