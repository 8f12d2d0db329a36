"""What a plan that failed its assessment teaches: which unit has to carry less than it did."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from hardstand.engines.harness.planning.problem import Capacity, Plan
from hardstand.engines.harness.planning.translation import Translation
from hardstand.findings import Finding


def lighter(made: Translation, plan: Plan, bad: Iterable[Finding]) -> Translation | None:
    """The same problem, each unit that a bad finding is about loaded less than in this plan.

    None where no bad finding is about the load of a unit that something could be unplugged from. What
    a single failure takes is no matter of load.
    """
    problem = made.problem
    lessons: dict[str, Capacity] = {}
    for finding in bad:
        if finding.code.endswith(".single-failure"):
            continue
        for unit in finding.about:
            places = frozenset(c for c, place in enumerate(problem.places) if place.item == unit)
            ma = sum(plug.ma for plug, spot in zip(problem.plugs, plan, strict=True)
                     if spot[0] in places)  # fmt: skip
            if ma:
                words = f"{unit} carries less than {ma / 1000.0:.2f} A for long ({finding.code} with it)"
                lessons.setdefault(unit, Capacity(unit, words, 0, ma - 1, places))
    if not lessons:
        return None
    more = (*problem.capacities, *lessons.values())
    return replace(made, problem=replace(problem, capacities=more))
