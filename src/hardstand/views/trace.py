"""A figure's tree on the terminal: the steps, then the inputs with their share and their line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line
from hardstand.views.number import figure_shown, shown
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

SHOWN = 12


def trace_page(form: Mapping[str, Any], measure: int, wide: int, system: System = "metric",
               *, every: bool = False) -> list[Line]:
    """The page of one figure, from its JSON form. `every` shows also the inputs that hardly count."""
    figure = form["figure"]
    head = title(figure["address"], "", measure, figure["label"])
    lines = [*head, BLANK, line(("  " + figure_shown(figure, system), "accent"),
                                f"  {figure['kind']}")]
    if figure["method"]:
        lines += indented(flow(figure["method"], measure - 2, ink="quiet"), 2)
    if form["steps"]:
        lines += [BLANK, line(("Worked out from", "quiet")), *indented(tree(form["steps"], system), 2)]
    return [*lines, *_inputs(form, min(wide, 160), system, every=every)]


def tree(steps: Sequence[Mapping[str, Any]], system: System, before: str = "") -> list[Line]:
    """Steps as a tree, each with its value.

    >>> from hardstand.views.ink import text_of
    >>> leaf = {"address": "balance.mass@ref", "value": 13.5e3, "unit": "g", "u": 10.0, "steps": []}
    >>> for one in tree([leaf], "metric"): print(text_of(one))
    └─ balance.mass@ref  13.500 ± 0.020 kg
    """
    lines: list[Line] = []
    for at, step in enumerate(steps):
        last = at == len(steps) - 1
        lines.append(line((f"{before}{'└─' if last else '├─'} ", "quiet"), step["address"], "  ",
                          (figure_shown(step, system), "strong")))
        lines += tree(step["steps"], system, f"{before}{'   ' if last else '│  '}")
    return lines


def _inputs(form: Mapping[str, Any], measure: int, system: System, *, every: bool) -> list[Line]:
    inputs = form["inputs"]
    if not inputs:
        return [BLANK, line("It rests on no input.")]
    kept = inputs if every else [one for one in inputs[:SHOWN] if one["share"] >= 0.001] or inputs[:SHOWN]
    rows: list[tuple[Cell, ...]] = [
        (percent(one["share"]), (one["address"], "strong"), shown(one["value"], one["unit"],
         one["u"] or None, system), per_unit(one, form["figure"]), one["kind"], place(one), one["u_from"])
        for one in kept]
    if form["method_share"] >= 0.0005:
        rows.append((percent(form["method_share"]), "the method itself", "", "", "", "", ""))
    columns = (Column("share", "right"), Column("input", flowed=True, least=24), Column("value", "figure"),
               Column("moves it by", rank=2), Column("kind", rank=3), Column("written at"),
               Column("± from", rank=4, flowed=True, least=24))
    lines = [BLANK, line(("What moves it, largest share of the uncertainty first", "quiet")),
             *table(columns, rows, measure)]
    left = inputs[len(kept):]
    if left:
        together = percent(sum(one["share"] for one in left))
        lines += flow(f"and {len(left)} more with {together} together; --all shows them", measure,
                      ink="quiet")
    return lines


def percent(share: float) -> str:
    """A share of the variance in per cent.

    >>> percent(0.314), percent(0.0004)
    ('31 %', '< 1 %')
    """
    return "< 1 %" if share < 0.005 else f"{100.0 * share:.0f} %"


def per_unit(one: Mapping[str, Any], figure: Mapping[str, Any]) -> str:
    """How far the figure moves for one unit of an input, in the units of the file.

    >>> per_unit({"per_unit": -0.0213, "unit": "g"}, {"unit": "mm"})
    '−0.0213 mm per g'
    """
    number = f"{one['per_unit']:.3g}".replace("-", "−")
    return f"{number} {_symbol(figure['unit'])} per {_symbol(one['unit']) or '1'}"


def _symbol(unit: str) -> str:
    from hardstand.standards.units import UNITS

    return UNITS[unit].metric[0].symbol if unit in UNITS else unit.replace("_", "/")


def place(one: Mapping[str, Any]) -> str:
    """File and line of an input, or in words where no file of the builder's holds it."""
    if one["file"] is None:
        return str(one["words"])
    return one["file"] if one["line"] is None else f"{one['file']}:{one['line']}"


def moved_page(form: Mapping[str, Any], measure: int, wide: int, system: System = "metric",
               *, every: bool = False) -> list[Line]:
    """The page of one input: its value, where it stands, and the figures that it moves."""
    one = form["input"]
    lines = title(one["address"], "", measure)
    lines += [BLANK, line(("  " + shown(one["value"], one["unit"], one["u"] or None, system), "accent"),
                          f"  {one['kind']}, {place(one)}")]
    if one["u_from"]:
        lines += [line((f"  ± from {one['u_from']}", "quiet"))]
    moves = form["moves"] if every else form["moves"][:SHOWN]
    rows: list[tuple[Cell, ...]] = [
        ((found["address"], "strong"), figure_shown(found, system),
         per_unit({**one, "per_unit": found["per_unit"]}, found), percent(found["share"]))
        for found in moves]
    columns = (Column("moves", flowed=True, least=24), Column("value", "figure"), Column("by", rank=1),
               Column("share of its uncertainty", "right"))
    lines += [BLANK, *table(columns, rows, min(wide, 140))]
    if len(moves) < len(form["moves"]):
        lines += [line((f"and {len(form['moves']) - len(moves)} more; --all shows them", "quiet"))]
    return lines
