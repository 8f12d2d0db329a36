"""The plan of channels: what is plugged where and where it is to be, what that gains, what it cannot."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.views.channels_words import check_words, ending_words, left_words
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line, printable
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

Form = Mapping[str, Any]
_WIDEST = 140


def channels_page(form: Form, measure: int, wide: int) -> list[Line]:
    """A plan in its JSON form: both plans side by side, gains, what is left, the check."""
    moved = sum(one["moved"] for one in form["plugs"])
    said = "no plan" if form["found"] is None else f"{moved} to replug" if moved else "nothing to replug"
    lines = [*title(form["aeroplane"], said, measure), *flow(ending_words(form), measure)]
    if form["contradiction"]:
        return [*lines, *_points(form["contradiction"]["requirements"], measure)]
    lines += [BLANK, *_plugs(form, min(wide, _WIDEST))]
    if form["found"] is None:
        return lines
    lines += [BLANK, *_worths(form, min(wide, _WIDEST))]
    for head, said_of in (("What it gains:", form["gains"]), ("What it takes:", form["losses"])):
        if said_of:
            lines += [BLANK, *flow(head, measure, ink="strong"), *_points(said_of, measure)]
    if form["numbers"]:
        said_of = [f"{one['channel']}: {one['number']}" for one in form["numbers"]]
        lines += [BLANK, *flow("Numbers for channels that have none of their own:", measure, ink="strong"),
                  *_points(said_of, measure)]
    if form["left"]:
        head = "What is taken by one failure still, and why:"
        lines += [BLANK, *flow(head, measure, ink="strong"),
                  *_points([left_words(one) for one in form["left"]], measure)]
    if form["failed_before"]:
        head = "Better ones by this count failed their assessment:"
        lines += [BLANK, *flow(head, measure), *_points(form["failed_before"], measure)]
    if form["guessed"]:
        head = "Guessed, since it comes out at no plug of its item; prove it with the engine off:"
        lines += [BLANK, *flow(head, measure, ink="strong"), *_points(form["guessed"], measure)]
    if form["dead"]:
        said = f"Without power or command, so nothing is put there: {', '.join(form['dead'])}."
        lines += [BLANK, *flow(printable(said), measure)]
    return [*lines, BLANK, *_check(form["checked"], measure)]


def _points(said: Sequence[str], measure: int) -> list[Line]:
    return [one for text in said
            for one in indented(flow(f"· {printable(text)}", measure - 2, hang=2), 2)]


def _plugs(form: Form, wide: int) -> list[Line]:
    """Plug by plug: what it moves, where it is, where it is to be."""
    columns = (Column("lead"), Column("moves", flowed=True, least=20), Column("function", rank=1),
               Column("lasting", "figure", rank=2), Column("now"), Column("found"))
    rows: list[tuple[Cell, ...]] = []
    for one in form["plugs"]:
        found: Cell = "–" if one["found"] is None else "as now"
        if one["kept"]:
            found = "kept"
        if one["moved"]:
            found = (one["found"], "strong")
        rows.append((one["lead"], ", ".join(one["items"]), ", ".join(one["functions"]) or "–",
                     f"{one['current_a']:.2f} A", one["now"], found))
    return table(columns, rows, wide)


def _worths(form: Form, wide: int) -> list[Line]:
    """What both plans come to, in the order in which it counts."""
    columns = (Column("what counts, in this order", flowed=True, least=24), Column("now", "figure"),
               Column("found", "figure"))
    points = form["points"]
    single = (f"single failures: {points['axis']} an axis, {points['pair']} a pair, "
              f"{points['function']} another function")
    words = {
        "failures": (single, "points", "{:.0f}"),
        "changes": ("plugs to move, 1 more where the lead is too short then", "changes", "{:.0f}"),
        "length": ("straight way of the leads", "length_mm", "{:.0f} mm"),
        "spread": ("uneven load of hubs and packs", "spread_a", "{:.2f} A"),
    }
    rows: list[tuple[Cell, ...]] = []
    for level in form["order"]:
        said, name, shape = words[level]
        rows.append((said, *(shape.format(form[plan][name]) for plan in ("now", "found"))))
    return table(columns, rows, wide)


def _check(checked: Form, measure: int) -> list[Line]:
    from hardstand.views.finding import severity

    ink: Any = "plain" if checked["passed"] else "strong"
    lines = flow(check_words(checked), measure, ink=ink)
    for one in checked["new"]:
        if one["severity"] == "note":
            continue
        about = printable(", ".join(one["about"]))
        head = line(*severity(one["severity"]), "  ", (one["code"], "strong"), "  ", about)
        lines += indented(flow(head, measure - 2, hang=2), 2)
        lines += indented(flow(one["text"], measure - 4), 4)
    return lines
