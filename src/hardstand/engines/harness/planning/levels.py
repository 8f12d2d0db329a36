"""What a plan costs, level by level, in the terms of the constraint model."""

from __future__ import annotations

from typing import Any

from hardstand.engines.harness.planning.problem import PARTS, Problem


def taken_groups(problem: Problem, model: Any, goes: Any) -> dict[tuple[int, int], Any]:
    """By failure and group: true at least where the failure takes all of the group."""
    found = {}
    for f, failure in enumerate(problem.failures):
        for g, group in enumerate(problem.groups):
            alive = [goes[p, c] for p in group.plugs for c in problem.plugs[p].fits
                     if c not in failure.dead]  # fmt: skip
            found[f, g] = model.new_bool_var(f"taken_{f}_{g}")
            model.add(sum(alive) + found[f, g] >= 1)
    return found


def sums(
    problem: Problem, model: Any, goes: Any, stays: list[Any], taken: Any
) -> dict[str, Any]:
    """By level what is to be least."""
    short = [goes[p, c] for p, plug in enumerate(problem.plugs) for c in plug.fits
             if c in plug.short and c != plug.now[0]]  # fmt: skip
    for p, plug in enumerate(problem.plugs):
        if plug.now[0] in plug.short and plug.now[0] in plug.fits:
            short.append(goes[p, plug.now[0]] - stays[p])
    return {
        "failures": sum(problem.groups[g].points * var for (_, g), var in taken.items()),
        "changes": len(stays) - sum(stays) + sum(short),
        "length": sum(plug.fits[c] * goes[p, c] for p, plug in enumerate(problem.plugs)
                      for c in plug.fits),
        "spread": sum(_spread(problem, model, goes, n) for n in range(len(problem.balances))),
    }  # fmt: skip


def _spread(problem: Problem, model: Any, goes: Any, number: int) -> Any:
    """The greatest share less the least one, of a family."""
    family = problem.balances[number]
    whole = sum(plug.ma for plug in problem.plugs) * PARTS
    most = whole + PARTS * max((abs(one.base_ma) for one in family), default=0)
    high = model.new_int_var(0, most, f"high_{number}")
    low = model.new_int_var(0, most, f"low_{number}")
    for one in family:
        share = PARTS * one.base_ma + sum(
            plug.ma * one.parts.get(c, 0) * goes[p, c]
            for p, plug in enumerate(problem.plugs) for c in plug.fits)  # fmt: skip
        model.add(share <= high)
        model.add(share >= low)
    return high - low
