"""The page of `hardstand compare`: what differs in words, then every line, side by side or stacked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System
from hardstand.views.check import set_aside_words
from hardstand.views.finding import MARKS
from hardstand.views.flow import flow
from hardstand.views.in_other_units import in_units
from hardstand.views.ink import BLANK, Line, indented, line, printable, width_of
from hardstand.views.notice import NOTICE
from hardstand.views.number import figure_shown, shown
from hardstand.views.table import GAP, Cell, Column, rule, table
from hardstand.views.titles import title
from hardstand.views.words import sentence

LEAST_CELLS, MOST_CELLS = 22, 46
COUNTED = {"no-go": "no-go", "measure": "to measure", "caution": "cautions", "note": "notes"}


def comparison_page(form: Mapping[str, Any], measure: int, wide: int, system: System = "metric") -> list[Line]:
    """The whole page. `form` is what `compare --json` prints; tables may take `wide` cells."""
    columns = form["columns"]
    count = len(columns) - 1
    lines = title(f"{form['aeroplane']}: options compared", "1 option" if count == 1 else f"{count} options",
                  measure)  # fmt: skip
    for at, column in enumerate(columns):
        if at:
            lines += [BLANK, *_differences(form, column, at, measure, system)]
    rows = _rows(form, system)
    lines += [BLANK, *_side_by_side(columns, rows, wide)]
    lines += _findings(form, columns, measure, wide)
    return [*lines, *_beside(form, columns, measure), BLANK, rule(measure, "plain", "━"), *flow(NOTICE, measure)]


def _differences(form: Mapping[str, Any], column: Mapping[str, Any], at: int, measure: int,
                 system: System) -> list[Line]:
    """One option in words: what it is, what was placed anew, and how it differs, the largest first."""
    head: list[tuple[str, Any]] = [(printable(column["name"]), "strong")]
    if column["note"]:
        head.append((f"  {printable(column['note'])}", "plain"))
    lines = flow(tuple(head), measure)
    if column["placed"]:
        moved = in_units("; ".join(column["placed"]), system)
        lines += indented(flow(f"Placed anew: {printable(moved)}.", measure - 2, ink="quiet"), 2)
    told = [one["text"] for one in form["differences"] if one["column"] == at]
    if not told:
        lines += indented(flow("Nothing that is compared differs from the description.", measure - 2), 2)
    for text in told:
        words = sentence(in_units(text, system))
        lines += indented(flow(line("· ", printable(words[:1].upper() + words[1:])), measure - 2, hang=2), 2)
    if column["set_aside"]:
        lines += indented(flow(set_aside_words(column["set_aside"]), measure - 2, ink="quiet"), 2)
    return lines


Row = tuple[str, tuple[str, ...], tuple[str, ...]]  # label, values, what they are of


def _rows(form: Mapping[str, Any], system: System) -> list[Row]:
    columns = form["columns"]
    rows: list[Row] = [(words, tuple(str(one["counts"][word]) for one in columns), ("",) * len(columns))
                       for word, words in COUNTED.items()]  # fmt: skip
    for one in form["lines"]:
        values = tuple(_value(value, system) for value in one["values"])
        of = tuple(printable(in_units(value["of"], system)) for value in one["values"])
        rows.append((one["label"], values, of))
    return rows


def _value(value: Mapping[str, Any], system: System) -> str:
    figure = value["figure"]
    if figure is None:
        return str(value["note"])
    if not figure["unit"]:
        return f"{figure['value']:g}"
    if not figure["u"] and system == "metric" and figure["unit"] in ("mm", "g"):
        return f"{figure['value']:.0f} {figure['unit']}"
    if not figure["u"]:
        return shown(figure["value"], figure["unit"], None, system)
    return figure_shown(figure, system)


def _side_by_side(columns: Sequence[Mapping[str, Any]], rows: Sequence[Row], wide: int) -> list[Line]:
    """The lines in a table, or one under the other where the columns would be too narrow to read."""
    label = max(width_of(row[0]) for row in rows)
    if label + len(columns) * (LEAST_CELLS + GAP) > wide:
        return _stacked(columns, rows, wide)
    room = min((wide - label) // len(columns) - GAP, MOST_CELLS)
    cells: list[Sequence[Cell]] = []
    for name, values, of in rows:
        cells.append((name, *values))
        if any(of):
            cells.append(("", *((one, "quiet") for one in of)))
    heads = [Column(printable(one["name"]), flowed=True, least=room) for one in columns]
    return table([Column(""), *heads], cells, label + len(columns) * (room + GAP))


def _stacked(columns: Sequence[Mapping[str, Any]], rows: Sequence[Row], wide: int) -> list[Line]:
    lines: list[Line] = []
    for label, values, of in rows:
        lines.append(line((label, "quiet")))
        cells: list[Sequence[Cell]] = [
            (printable(one["name"]), (value, "strong"), (about, "quiet"))
            for one, value, about in zip(columns, values, of, strict=True)]
        three = (Column(""), Column(""), Column("", flowed=True, least=16))
        lines += indented(table(three, cells, wide - 2, head=False), 2)
    return lines


def _findings(form: Mapping[str, Any], columns: Sequence[Mapping[str, Any]], measure: int, wide: int) -> list[Line]:
    """Findings that are not the same in all columns, each with its severity in every one."""
    if not form["findings"]:
        return [BLANK, *flow("The findings are the same in all of them.", measure)]
    lines: list[Line] = [BLANK, line(("Findings that are not the same in all of them", "quiet"))]
    cells = [(one["code"], printable(", ".join(one["about"])), *map(_severity, one["severities"]))
             for one in form["findings"]]
    heads = [Column(printable(one["name"])) for one in columns]
    widths = sum(max(width_of(one.head), 9) + GAP for one in heads)
    if widths + 52 <= wide:
        made = table([Column("code"), Column("of", flowed=True), *heads], cells, wide - 2)
        return [*lines, *indented(made, 2)]
    for code, about, *found in cells:
        lines += indented(flow(line((code, "strong"), f"  {about}"), wide - 2, hang=2), 2)
        said = "; ".join(f"{printable(column['name'])}: {one}" for column, one in zip(columns, found, strict=True))
        lines += indented(flow(said, wide - 4), 4)
    return lines


def _severity(word: str | None) -> str:
    return f"{MARKS[word]} {word}" if word else "none"


def _beside(form: Mapping[str, Any], columns: Sequence[Mapping[str, Any]], measure: int) -> list[Line]:
    """By what figures were compared, and what was not assessed in any of them."""
    lines: list[Line] = []
    by_basis: dict[str, list[str]] = {}
    for one in form["lines"]:
        if one["basis"]:
            by_basis.setdefault(one["basis"], []).append(one["label"])
    for basis, labels in by_basis.items():
        lines += [BLANK, *flow(f"Compared by {basis}: {'; '.join(labels)}.", measure, ink="quiet")]
    left_out = [name for name in columns[0]["not_assessed"] if all(name in one["not_assessed"] for one in columns)]
    if left_out:
        lines += flow(f"Not assessed, so not compared: {', '.join(left_out)}.", measure, ink="quiet")
    return lines
