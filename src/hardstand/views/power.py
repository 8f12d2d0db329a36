"""The page of `show power`: packs, rails, what gets least, and what each failure takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System, show
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, line
from hardstand.views.power_wires import wire_lines
from hardstand.views.table import Cell, Column, table

Form = Mapping[str, Any]
_MOST, _NAMES = 12, 5
_PACKS = (Column("pack"), Column("mean", "figure"), Column("worst", "figure"),
          Column("a flight", "figure", rank=2), Column("alone", "figure", rank=3),
          Column("flights", "right"), Column("worst moment", flowed=True, rank=4, least=20))
# Rest, mean, the worst moment on all packs, and the worst on any one of them.
_RAILS = (Column("rail"), Column("set", "figure", rank=2), Column("rest", "figure", rank=1),
          Column("mean", "figure", rank=3), Column("worst", "figure"), Column("one pack", "figure"))
_LEAST = (Column("consumer"), Column("rest", "figure", rank=2), Column("mean", "figure", rank=3),
          Column("worst", "figure"), Column("least", "figure", rank=1), Column("does", flowed=True,
          rank=4, least=10))
_FAILS = (Column("fails", flowed=True, least=18), Column("how"), Column("rail", "figure", rank=1),
          Column("lost", flowed=True, least=14), Column("works less", flowed=True, rank=2, least=10))


def power_lines(form: Form, measure: int, wide: int, system: System = "metric", *,
                every: bool = False) -> list[Line]:
    """The whole of power from its JSON form; `every` shows consumers and failures whole."""
    room = max(measure, min(wide, 140))
    lines: list[Line] = []
    if form["packs"]:
        rows = [_pack(one, form, system) for one in form["packs"]]
        lines += _part("Packs: amperes, and charge of a flight", _PACKS, rows, room)
        lines += _part("Rails, volts", _RAILS, [_rail(one, form) for one in form["rails"]],
                       room)  # fmt: skip
        fed = sorted((one for one in form["consumers"] if _lowest(one, form) is not None),
                     key=lambda one: (_lowest(one, form) or 0.0) - (one["least_v"] or 0.0))  # fmt: skip
        lines += _part("Volts at what draws current, closest first", _LEAST,
                       [_least(one, form, system) for one in fed], room, every=every)  # fmt: skip
    if form["failures"]:
        lines += failure_lines(form, room, every=every)
    if form["wires"]:
        lines += wire_lines(form, room, system, every=every)
    return lines


def failure_lines(form: Form, room: int, *, every: bool = False) -> list[Line]:
    """The table of failures: those with the same effect in one row, the gravest first."""
    groups: dict[tuple[Any, ...], list[Form]] = {}
    harmless = 0
    for one in form["failures"]:
        if not (one["lost"] or one["less"] or one["over"] or one["silent"]) and not every:
            harmless += 1
            continue
        key = (tuple(one["lost"]), tuple(one["less"]), one["silent"], bool(one["over"]))
        groups.setdefault(key, []).append(one)
    rows = [_failing(one, every=every) for one in groups.values()]
    lines = _part("What single failures take at the worst moment", _FAILS, rows, room)
    said = f"{len(form['failures'])} failures tried; {harmless} of them change nothing that matters."
    return [*lines, *flow(said, room, ink="quiet")]


def _part(title: str, columns: Sequence[Column], rows: Sequence[Sequence[Cell]], room: int,
          *, every: bool = True) -> list[Line]:
    kept = rows if every else rows[:_MOST]
    left = len(rows) - len(kept)
    more = [line((f"and {left} more; --all shows them", "quiet"))] if left else []
    return [BLANK, line((title, "quiet")), *table(columns, kept, room), *more]


def _at(form: Form, name: str) -> int | None:
    names = [one["name"] for one in form["moments"]]
    return names.index(name) if name in names else None


def _worst(form: Form) -> list[int]:
    return [at for at, one in enumerate(form["moments"]) if one["worst"]]


def _lowest(one: Form, form: Form) -> float | None:
    found = [one["volts"][at] for at in _worst(form) if one["volts"][at] is not None]
    return min(found) if found else None


def _shown(value: float | None, unit: str, system: System) -> str:
    return "" if value is None else show(value, unit, None, system)


def _moment(values: Sequence[float | None], at: int | None, unit: str, system: System) -> str:
    return "" if at is None else _shown(values[at], unit, system)


def _pack(one: Form, form: Form, system: System) -> tuple[Cell, ...]:
    use = one["endurance"]
    return (
        (one["id"], "strong"), _moment(one["amperes"], _at(form, "mean"), "a", system),
        _shown(max(one["amperes"][at] for at in _worst(form)), "a", system),
        _shown(use["shared_mah"], "mah", system) if use else "",
        _shown(use["alone_mah"], "mah", system) if use else "",
        str(use["flights"]) if use else "", one["worst_moment"],
    )  # fmt: skip


def _rail(one: Form, form: Form) -> tuple[Cell, ...]:
    system: System = "metric"  # volts are the same everywhere
    figure = one["worst"]
    alone = (show(figure["value"], "v", figure["u"]) if figure
             else _shown(_lowest(one, form), "v", system))  # fmt: skip
    return ((one["domain"], "strong"), _shown(one["set_v"], "v", system),
            _moment(one["volts"], _at(form, "rest"), "v", system),
            _moment(one["volts"], _at(form, "mean"), "v", system),
            _moment(one["volts"], _at(form, "peak"), "v", system), alone)  # fmt: skip


def _least(one: Form, form: Form, system: System) -> tuple[Cell, ...]:
    return ((one["end"], "strong"), _moment(one["volts"], _at(form, "rest"), "v", system),
            _moment(one["volts"], _at(form, "mean"), "v", system),
            _shown(_lowest(one, form), "v", system), _shown(one["least_v"], "v", system),
            ", ".join(one["functions"]))  # fmt: skip


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
