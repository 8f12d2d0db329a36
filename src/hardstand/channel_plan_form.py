"""A plan of channels as plain data: the present one and the found one, and what each is worth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from hardstand.engines.harness import planning
from hardstand.engines.harness.planning.cost import evaluate, faults, present, taken
from hardstand.engines.harness.planning.grouping import numbers
from hardstand.engines.harness.planning.problem import (
    FUNCTION,
    PAIR,
    WHOLE_AXIS,
    Level,
    Plan,
)

POINTS = {"axis": WHOLE_AXIS, "pair": PAIR, "function": FUNCTION}
SIXTIETH_MA = 60_000.0  # sixtieths of a mA in an ampere


def plan_form(
    made: planning.Translation, learned: planning.Translation, answer: planning.Answer,
    order: Sequence[Level],
) -> dict[str, Any]:  # fmt: skip
    """Everything about an answer but the changes and the check.

    `learned` is the problem that it answers, with what plans before it taught; `made` that without.
    """
    found, now = answer.plan, present(made.problem)
    levels = tuple(order)
    why, why_proven = planning.why_none(learned) if found is None and answer.proven else ((), False)
    return {
        "ending": _ending(answer),
        "order": list(levels),
        "points": POINTS,
        "plugs": _plugs(made, found),
        "numbers": [{"channel": one, "number": n} for one, n in numbers(made.channels).items()],
        "now": _worth(made, now),
        "found": None if found is None else _worth(made, found),
        "gains": [] if found is None else list(planning.gains(made, found)),
        "losses": [] if found is None else list(planning.losses(made, now, found)),
        "left": [] if found is None else [
            {name: list(value) if isinstance(value, tuple) else value
             for name, value in asdict(one).items()} for one in planning.left(learned, found, levels)
        ],
        "dead": list(made.dead),
        "guessed": list(made.guessed),
        "contradiction": {"requirements": list(why), "proven": why_proven} if why else None,
    }  # fmt: skip


def _ending(answer: planning.Answer) -> str:
    if answer.plan is None:
        return "infeasible" if answer.proven else "unknown"
    return "proven" if answer.proven else "work"


def _plugs(made: planning.Translation, found: Plan | None) -> list[dict[str, Any]]:
    """What is plugged where now and where it is to be, in the order of the outputs."""
    ends = [None] * len(made.plugs) if found is None else planning.ends_of(made, found)
    rows = []
    for p, (plug, end) in enumerate(zip(made.plugs, ends, strict=True)):
        channels = [one for one in made.channels if p in made.has[one.id]]
        rows.append({
            "lead": plug.id, "leads": list(plug.leads), "items": list(plug.items),
            "channels": [one.id for one in channels],
            "functions": list(dict.fromkeys(name for one in channels for name in one.function)),
            "current_a": plug.ma / 1000.0, "now": plug.end, "found": end,
            "moved": end is not None and end != plug.end, "kept": made.problem.plugs[p].kept,
        })  # fmt: skip
    return rows


def _worth(made: planning.Translation, plan: Plan) -> dict[str, Any]:
    cost = evaluate(made.problem, plan)
    problem = made.problem
    serious = [(f, g) for f, g in taken(problem, plan)
               if problem.groups[g].points >= PAIR and len(problem.groups[g].plugs) > 1]  # fmt: skip
    return {
        "points": cost.failures, "changes": cost.changes, "length_mm": cost.length,
        "spread_a": cost.spread / SIXTIETH_MA, "faults": faults(problem, plan),
        "takes": [{"failure": problem.failures[f].id, "takes": problem.groups[g].words}
                  for f, g in serious],
    }  # fmt: skip
