from __future__ import annotations

import pytest

from hardstand.engines.harness.planning.cost import faults
from hardstand.engines.harness.planning.problem import ANEW, LEVELS, Level
from hardstand.engines.harness.planning.solve import solve
from tests.engines.harness.planning.small_plans import best_of_all, random_problem


@pytest.mark.parametrize("order", [LEVELS, ANEW])
@pytest.mark.parametrize("block", range(6))
def test_no_assignment_of_all_is_better(block: int, order: tuple[Level, ...]) -> None:
    """On small problems the plan costs what the best of every assignment costs, and none is where none is."""
    outcomes = set()
    for seed in range(20 * block, 20 * block + 20):
        problem = random_problem(seed)
        answer, best = solve(problem, order), best_of_all(problem, order)
        assert answer.proven, seed
        assert (answer.cost is None) == (best is None), seed
        outcomes.add(best is None)
        if answer.plan is not None and answer.cost is not None and best is not None:
            assert answer.cost.ranked(order) == best.ranked(order), seed
            assert not faults(problem, answer.plan), seed
    assert outcomes == {True, False}


def test_the_same_problem_gives_the_same_plan() -> None:
    """Two runs of one problem end at one plan, to the output."""
    for seed in range(30, 45):
        problem = random_problem(seed)
        assert solve(problem).plan == solve(problem).plan
