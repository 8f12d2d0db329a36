from __future__ import annotations

from dataclasses import replace

import pytest

from benchmarks.layout_instances import three_trays
from hardstand.engines.fit.layout.alternatives import alternatives
from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.problem import (
    Item,
    ItemPort,
    Layout,
    Lead,
    Place,
    Problem,
    Spot,
    Tray,
)
from hardstand.engines.fit.layout.solve import Progress, solve
from tests.engines.fit.layout.small_problems import least_cost, small_problem

SHELF = Tray("shelf", ((0, 0), (60, 0), (60, 40), (0, 40)))


@pytest.mark.parametrize("seed", range(4))
def test_the_answer_is_the_best_of_all_layouts_and_proven(seed: int) -> None:
    """With two items, the layout costs the least of all that there are, and the bound says so."""
    problem = small_problem(20 + seed, items=2)
    answer = solve(problem)
    assert answer.layout is not None
    assert answer.cost is not None
    assert answer.ending == "proven"
    assert answer.cost.total == answer.bound == least_cost(problem)
    assert answer.gap_pct == 0.0
    assert not faults(problem, answer.layout)


def test_the_same_call_gives_the_same_layout_to_the_millimetre() -> None:
    """Two runs with the same seed and work agree in layout, bound and stages."""
    problem = small_problem(31, items=4)
    one, other = (solve(problem, seed=3, stages=2) for _ in range(2))
    assert one == other
    assert one.layout is not None


def test_a_first_legal_layout_comes_before_anything_else() -> None:
    """On sixteen items and three trays the first report is a legal layout's cost, the rest better."""
    told: list[Progress] = []
    answer = solve(three_trays(), progress=told.append, cancelled=lambda: bool(told), prove=False)
    assert told[0].cost is not None
    assert answer.ending == "cancelled"
    assert answer.layout is not None
    assert not faults(three_trays(), answer.layout)


def test_reports_never_get_worse() -> None:
    """Costs reported fall, bounds rise, and no bound exceeds a cost."""
    told: list[Progress] = []
    solve(small_problem(9, items=4), progress=told.append, stages=3)
    costs = [one.cost for one in told if one.cost is not None]
    assert costs == sorted(costs, reverse=True)
    bounds = [one.bound for one in told]
    assert bounds == sorted(bounds)
    assert max(bounds) <= min(costs)


def test_fixed_items_stay_where_they_are() -> None:
    """An item that is fixed is where it was, and the free one is put beside it."""
    items = (
        Item("a", (30, 20, 10), (Place("shelf"),), fixed=Spot("shelf", 0, 7, 9)),
        Item("b", (20, 20, 10), (Place("shelf"),)),
    )
    answer = solve(Problem((SHELF,), items, gap_mm=2))
    assert answer.layout is not None
    assert answer.layout[0] == Spot("shelf", 0, 7, 9)
    assert answer.layout[1].x_mm >= 39


def test_what_cannot_be_had_is_told_as_such() -> None:
    """Two boxes that need 61 mm side by side on a shelf of 60 mm have no layout, proven."""
    items = tuple(Item(name, (31, 21, 10), (Place("shelf"),), turns=(0,)) for name in "ab")
    answer = solve(Problem((SHELF,), (items[0], replace(items[1], size_mm=(30, 21, 10)))))
    assert answer.ending == "infeasible"
    assert answer.layout is None


def test_alternatives_are_legal_and_truly_different() -> None:
    """Each alternative has the items that it says stand elsewhere, and none is a mirror image."""
    tray = Tray("t", ((0, 0), (400, 0), (400, 120), (0, 120)))
    boxes = tuple(Item(name, (30, 20, 10), (Place("t"),)) for name in "abcd")
    leads = (
        Lead("ab", ItemPort("a"), ItemPort("b"), 1),
        Lead("cd", ItemPort("c"), ItemPort("d"), 1),
    )
    problem = Problem((tray,), boxes, leads)
    found = alternatives(problem, count=3, rounds=1, within_pct=50.0)
    assert len(found) == 3
    costs = [one.cost.total for one in found]
    assert costs == sorted(costs)
    for one in found:
        assert not faults(problem, one.layout)
        assert evaluate(problem, one.layout).total == one.cost.total
    for k, one in enumerate(found):
        for other in found[:k]:
            assert _unlike(one.layout, other.layout, 0) >= 2
            assert _unlike(one.layout, other.layout, 120) >= 2


def _unlike(one: Layout, other: Layout, mirror_mm: int) -> int:
    """How many boxes have their middles farther apart than 40 mm, one layout perhaps mirrored."""
    count = 0
    for a, b in zip(one, other, strict=True):
        (x, y), (u, v) = (
            (spot.x_mm + (10 if spot.turn % 2 else 15), spot.y_mm + (15 if spot.turn % 2 else 10))
            for spot in (a, b)
        )
        count += max(abs(x - u), abs(y - (mirror_mm - v if mirror_mm else v))) > 40
    return count
