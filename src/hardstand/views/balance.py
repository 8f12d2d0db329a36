"""The page of `show balance`: every state, the CG on its ruler, what moves it, what to weigh next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System
from hardstand.views.balance_travel import travel_lines
from hardstand.views.flow import flow
from hardstand.views.in_other_units import in_units
from hardstand.views.ink import BLANK, Line, indented, line, printable
from hardstand.views.number import figure_shown, shown
from hardstand.views.strip import Mark, strip
from hardstand.views.table import Cell, Column, table

_MOST = 5
_COLUMNS = (
    ("mass", Column("mass", "figure")), ("cg", Column("CG aft of mark", "figure")),
    ("cg_mac", Column("% of MAC", "figure", rank=2)),
    ("static_margin", Column("static margin", "figure", rank=1)),
    ("nose_share", Column("nose wheel", "figure", rank=3)),
    ("tip_back", Column("tip-back", "figure", rank=4)),
    ("overturn", Column("overturn", "figure", rank=5)),
    ("cg_y", Column("CG sideways", "figure", rank=6)), ("cg_z", Column("CG height", "figure", rank=7)),
)


def balance_lines(form: Mapping[str, Any], measure: int, wide: int, system: System = "metric",
                  *, every: bool = False) -> list[Line]:
    """The whole of the balance from its JSON form; `every` shows the long lists whole."""
    lines = [*_states(form, min(wide, 160), system), *_ranges(form, measure, system),
             *_strip(form, measure, system), *travel_lines(form, measure, system, every=every)]
    if form["per_10g_mm"]:
        lines += _per_10g(form, measure, system, every=every)
    lines += _next(form, measure, system)
    for one in form["weigh_ins"]:
        lines += _weigh_in(one, measure, system)
    return lines + _ways(form, measure, system, every=every)


def _states(form: Mapping[str, Any], measure: int, system: System) -> list[Line]:
    states = form["states"]
    if not states:
        return [BLANK, line("No loading state is described, so there is nothing to balance.")]
    used = [(key, column) for key, column in _COLUMNS if any(one[key] for one in states)]
    rows: list[tuple[Cell, ...]] = [
        ((one["id"], "strong"), *(figure_shown(one[key], system) if one[key] else "" for key, _ in used))
        for one in states]
    return [BLANK, *table((Column("state"), *(column for _, column in used)), rows, measure)]


def _ranges(form: Mapping[str, Any], measure: int, system: System) -> list[Line]:
    words = []
    if form["mark"]:
        words.append(f"The mark is the {printable(form['mark'])}.")
    for name, said in (("range", "The CG range is"), ("target", "The target is")):
        found = form[name]
        if found:
            low, high = (shown(found[end], "mm", None, system) for end in ("low", "high"))
            words.append(f"{said} {low.rsplit(' ', 1)[0]} to {high}, in state {found['state']}.")
    if form["updated_by_weigh_in"]:
        words.append("The build-up has been corrected by the weigh-in.")
    words += [f"{one[:1].upper()}{one[1:]}." for one in form["assumptions"]]
    return [BLANK, *flow(" ".join(words), measure)] if words else []


def _strip(form: Mapping[str, Any], measure: int, system: System) -> list[Line]:
    found = form["range"]
    marks = [Mark(one["id"], one["cg"]["value"], 2.0 * one["cg"]["u"],
                  (found["low"], found["high"]) if found and found["state"] == one["id"] else ())
             for one in form["states"] if one["cg"]]
    if not marks:
        return []
    unit, factor = ("in", 1.0 / 25.4) if system == "imperial" else ("mm", 1.0)
    limits = ", ┃ its range" if any(one.limits for one in marks) else ""
    return [BLANK, line((f"CG aft of the mark, {unit}: ▲ with its tolerance{limits}", "quiet")),
            *indented(strip(marks, measure - 2, factor), 2)]


def _per_10g(form: Mapping[str, Any], measure: int, system: System, *, every: bool) -> list[Line]:
    """What 10 g more at each place does: the ends of the list, where it does most."""
    found = form["per_10g_mm"]
    kept = found if every or len(found) <= 2 * _MOST else [*found[:_MOST], *found[-_MOST:]]
    step = "0.35 oz" if system == "imperial" else "10 g"
    factor = 1.0 / 25.4 if system == "imperial" else 1.0
    rows: list[tuple[Cell, ...]] = [
        ((one["id"], "strong"), f"{one['mm'] * factor:+.3f} {'in' if system == 'imperial' else 'mm'}"
         .replace("-", "−"), one["name"]) for one in kept]
    columns = (Column("item"), Column("CG moves", "figure"), Column("", flowed=True, rank=1, least=24))
    state = f" in state {form['judged_state']}" if form["judged_state"] else ""
    lines = [BLANK, line((f"{step} more at an item moves the CG{state}, + is aft", "quiet")),
             *indented(table(columns, rows, measure - 2), 2)]
    left = len(found) - len(kept)
    return lines + ([line((f"  and {left} between them; --all shows them", "quiet"))] if left else [])


def _next(form: Mapping[str, Any], measure: int, system: System) -> list[Line]:
    found = form["next_weighing"][:_MOST]
    if not found or not form["u_now_mm"]:
        return []
    now = _plus_minus(form["u_now_mm"], system)
    rows: list[tuple[Cell, ...]] = [
        ((one["address"], "accent"), _plus_minus(one["u_after_mm"], system)) for one in found]
    columns = (Column("measure or weigh anew"), Column("CG is then known to"))
    return [BLANK, *flow(f"The CG is known to {now}. What to weigh or measure next:", measure, ink="quiet"),
            *indented(table(columns, rows, measure - 2), 2)]


def _plus_minus(u_mm: float, system: System) -> str:
    return f"± {2.0 * u_mm / 25.4:.3f} in" if system == "imperial" else f"± {2.0 * u_mm:.2f} mm"


def _weigh_in(one: Mapping[str, Any], measure: int, system: System) -> list[Line]:
    mass = shown(one["residual_g"], "g", one["u_residual_g"], system)
    place = shown(one["residual_mm"], "mm", one["u_residual_mm"], system)
    text = (f"{one['id']} ({one['method']}, state {one['state']}): "
            f"{shown(one['mass_g'], 'g', one['u_mass_g'], system)}, which is {mass} against the build-up, "
            f"and the CG {place}. Sound figures differ by as much {100.0 * one['chance']:.0f} % of the time.")
    lines = [BLANK, *flow(text, measure)]
    if one["chance"] < 0.05 and one["suspects"]:
        names = ", ".join(f"{found['name']} ({found['kind']})" for found in one["suspects"][:3])
        lines += flow(f"Likeliest slips: {names}.", measure)
    return lines


def _ways(form: Mapping[str, Any], measure: int, system: System, *, every: bool) -> list[Line]:
    ways: Sequence[Mapping[str, Any]] = form["ways"]
    if not ways:
        return []
    lines = [BLANK, line(("Ways to bring the CG elsewhere, best first", "quiet"))]
    for number, one in enumerate(ways if every else ways[:3], 1):
        lines += indented(flow(line((f"{number}  ", "strong"), in_units(one["text"], system)),
                               measure - 2, hang=3), 2)
    left = 0 if every else len(ways) - 3
    return lines + ([line((f"  and {left} more; --all shows them", "quiet"))] if left > 0 else [])
