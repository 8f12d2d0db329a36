"""The table of single failures: what each takes, those that take the same in one row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import show
from hardstand.views.plates import Plate
from hardstand.views.table import Cell, Column

Form = Mapping[str, Any]
_NAMES = 5
_FAILS = (Column("fails", flowed=True, least=18), Column("how"), Column("rail", "figure", rank=1),
          Column("lost", flowed=True, least=14), Column("works less", flowed=True, rank=2, least=10))


def failure_plate(form: Form, *, every: bool = False) -> Plate:
    """The table of failures: those with the same effect in one row, the gravest first."""
    grave: dict[tuple[Any, ...], list[Form]] = {}
    harmless: dict[tuple[Any, ...], list[Form]] = {}
    for one in form["failures"]:
        matters = one["lost"] or one["less"] or one["over"] or one["silent"]
        key = (tuple(one["lost"]), tuple(one["less"]), one["silent"], bool(one["over"]))
        (grave if matters else harmless).setdefault(key, []).append(one)
    count = sum(map(len, harmless.values()))
    tried = len(form["failures"])
    return Plate(
        "What single failures take at the worst moment", _FAILS,
        [_failing(one, every=every) for one in grave.values()],
        [_failing(one, every=every) for one in harmless.values()],
        f"{count} of {tried} tried change nothing that matters", f"{tried} failures tried." if not count else "",
        [_told(group) for group in (*grave.values(), *harmless.values())],
    )  # fmt: skip


def _told(group: Sequence[Form]) -> list[str]:
    """What lies behind a row: who fails how, those with the same volts and the same dead together."""
    alike: dict[str, dict[str, list[str]]] = {}
    for one in group:
        of = "" if one["within"] == one["element"] else f" of {one['within']}"
        alike.setdefault(_effect(one), {}).setdefault(f"{one['element']}{of}", []).append(one["kind"])
    return [f"{'; '.join(f'{name} {_joined(kinds)}' for name, kinds in who.items())}: {effect}."
            for effect, who in alike.items()]  # fmt: skip


def _joined(kinds: Sequence[str]) -> str:
    """Kinds in words.

    >>> _joined(["open", "short", "stuck"])
    'open, short or stuck'
    """
    return " or ".join([", ".join(kinds[:-1]), kinds[-1]] if len(kinds) > 1 else kinds)


def _effect(one: Form) -> str:
    parts = [f"{one['low_rail']} {show(one['low_v'], 'v', None, 'metric')}"] if one["low_rail"] else []
    for words, key in (("dead", "dead"), ("too many volts at", "over"), ("no more from", "packs_out")):
        if one[key]:
            parts.append(f"{words} {', '.join(one[key])}")
    if not one["settled"]:
        parts.append("no steady state was found")
    return "; ".join(parts) or "no rail, and nothing dead"


def _failing(group: Sequence[Form], *, every: bool) -> tuple[Cell, ...]:
    names = list(dict.fromkeys(one["within"] for one in group))
    first = group[0]
    lost = ", ".join(first["lost"])
    if first["silent"]:
        lost = "nothing: one pack less, unseen"
    elif first["over"] and not lost:
        lost = f"nothing: too many volts at {', '.join(first['over'])}"
    low = min(one["low_v"] for one in group)
    rail = show(low, "v", None, "metric") if first["low_rail"] else ""
    some = names if every or len(names) <= _NAMES + 1 else names[:_NAMES]
    more = f" and {len(names) - len(some)} more" if len(some) < len(names) else ""
    kinds = ", ".join(dict.fromkeys(one["kind"] for one in group))
    return (f"{', '.join(some)}{more}", kinds, rail, lost or "nothing", ", ".join(first["less"]))
