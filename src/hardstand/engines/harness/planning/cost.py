"""What a plan costs, and what forbids it: counted from the plan alone, by no solver."""

from __future__ import annotations

from collections import Counter

from hardstand.engines.harness.planning.problem import Cost, Plan, Problem, Share


def taken(problem: Problem, plan: Plan) -> list[tuple[int, int]]:
    """The single failures and the groups (by number) that each takes whole."""
    return [
        (f, g)
        for f, failure in enumerate(problem.failures)
        for g, group in enumerate(problem.groups)
        if all(plan[p][0] in failure.dead for p in group.plugs)
    ]


def evaluate(problem: Problem, plan: Plan) -> Cost:
    """The cost of a plan, legal or not.

    >>> from hardstand.engines.harness.planning.problem import Failure, Group, Place, Plug
    >>> places = (Place(("a.1", "a.2"), "a", "a.rail"), Place(("b.1",), "b", "b.rail"))
    >>> plugs = tuple(Plug(one, (0, n), 500, {0: 30, 1: 40}) for n, one in enumerate("LR"))
    >>> both = Group("both of a pair", 10, (0, 1))
    >>> problem = Problem(places, plugs, (both,), (Failure("a", frozenset([0])),))
    >>> evaluate(problem, ((0, 0), (0, 1)))
    Cost(failures=10, changes=0, length=60, spread=0)
    >>> evaluate(problem, ((0, 0), (1, 0)))
    Cost(failures=0, changes=1, length=70, spread=0)
    """
    moved = [spot != plug.now for plug, spot in zip(problem.plugs, plan, strict=True)]
    short = [m and spot[0] in plug.short
             for plug, spot, m in zip(problem.plugs, plan, moved, strict=True)]  # fmt: skip
    return Cost(
        sum(problem.groups[g].points for _, g in taken(problem, plan)),
        sum(moved) + sum(short),
        sum(plug.fits.get(spot[0], 0) for plug, spot in zip(problem.plugs, plan, strict=True)),
        sum(max(loads) - min(loads) for family in problem.balances
            if (loads := [share_of(problem, one, plan) for one in family])),
    )  # fmt: skip


def share_of(problem: Problem, share: Share, plan: Plan) -> int:
    """What a unit or pack carries under a plan, in sixtieths of a mA."""
    return 60 * share.base_ma + sum(
        plug.ma * share.parts.get(spot[0], 0)
        for plug, spot in zip(problem.plugs, plan, strict=True)
    )


def faults(problem: Problem, plan: Plan) -> list[str]:
    """What forbids a plan, in words; nothing where it is legal."""
    found: list[str] = []
    for spot, count in Counter(plan).items():
        if count > 1:
            found.append(f"{problem.places[spot[0]].ends[spot[1]]} is used {count} times")
    for plug, spot in zip(problem.plugs, plan, strict=True):
        if spot[0] not in plug.fits:
            found.append(f"{plug.id} does not fit {problem.places[spot[0]].ends[spot[1]]}")
        if spot[0] in plug.barred:
            found.append(f"{plug.id} is barred there: {plug.barred[spot[0]]}")
        if plug.kept and spot != plug.now:
            found.append(f"{plug.id} is to stay")
    for one in problem.capacities:
        ma = one.base_ma + sum(plug.ma for plug, spot in zip(problem.plugs, plan, strict=True)
                               if spot[0] in one.places)  # fmt: skip
        if ma > one.most_ma:
            found.append(f"{one.about} carries {ma} mA and may carry {one.most_ma} mA")
    return found


def present(problem: Problem) -> Plan:
    """Where every plug is now."""
    return tuple(one.now for one in problem.plugs)
