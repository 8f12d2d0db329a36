from __future__ import annotations

from hardstand.engines.fit.layout.alternatives import elsewhere
from hardstand.engines.fit.layout.board import board
from hardstand.engines.fit.layout.cost import faults
from hardstand.engines.fit.layout.problem import (
    Item,
    ItemPort,
    Lead,
    Place,
    Point,
    Problem,
    Tray,
)
from hardstand.engines.fit.layout.solve import solve
from hardstand.engines.fit.placement import differing


def test_layouts_differ_truly_and_are_legal() -> None:
    """Of three boxes that all want the same corner, each further layout has one elsewhere."""
    tray = Tray("t", ((0, 0), (300, 0), (300, 200), (0, 200)))
    boxes = tuple(Item(name, (31, 21, 10), (Place("t"),)) for name in "abc")
    leads = tuple(Lead(n, ItemPort(n), Point((150, 100, 5)), 1) for n in "abc")
    # A long lead that no layout shortens much, so that all are within 15 % of the best.
    far = Lead("far", ItemPort("a"), Point((4000, 100, 5)), 1)
    problem = Problem((tray,), boxes, (*leads, far))
    best = solve(problem, stages=1).layout
    assert best is not None
    others = differing(problem, best, 2, ("a", "b", "c"))
    assert others
    ready = board(problem)
    seen = [ready.standings(best)]
    for one in others:
        assert not faults(problem, one.layout)
        standings = ready.standings(one.layout)
        assert min(elsewhere(ready, standings, other) for other in seen) == one.elsewhere >= 1
        seen.append(standings)
