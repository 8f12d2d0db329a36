"""Layouts that were found: what they cost beside the present one, where things go, what stops them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line, printable
from hardstand.views.number import shown
from hardstand.views.placement_words import ending_words, saved_words, stop_words, turn_words
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title

Form = Mapping[str, Any]
_WIDEST = 140


def placement_page(form: Form, measure: int, wide: int) -> list[Line]:
    """A placement in its JSON form: the costs, then each layout, or why there is none."""
    count = len(form["layouts"])
    said = "no layout" if not count else "1 layout" if count == 1 else f"{count} layouts"
    lines = title(form["aeroplane"], said, measure)
    if form["contradiction"]:
        return [*lines, *_contradiction(form["contradiction"], measure)]
    if not count:
        lines += flow(ending_words(form), measure, ink="strong")
        for one in form["refused"]:
            lines += [BLANK, *_new_findings(_bad(one["checked"]), measure)]
        return lines
    lines += [*flow(ending_words(form), measure), BLANK, *_costs(form, min(wide, _WIDEST))]
    lines += [BLANK, *flow(_PRICES, measure, ink="quiet")]
    for layout in form["layouts"]:
        lines += [BLANK, *_layout(form, layout, measure, min(wide, _WIDEST))]
    return [*lines, *_left(form, measure)]


_PRICES = (
    "The price is what a millimetre of it costs in millimetres of thin lead, the one scale on which "
    "layouts are compared; leads are counted along the axes from port to port, and all of their way "
    "to what does not move."
)


def _bad(checked: Form) -> list[Form]:
    """The findings that keep a layout from being given."""
    rest = [one for one in checked["new"] if one not in checked["clashes"]]
    return [one for one in (*checked["clashes"], *rest) if one["severity"] == "no-go"]


def _costs(form: Form, wide: int) -> list[Line]:
    """Part by part: what it is, its price, how much of it there is now and in each layout."""
    layouts = form["layouts"]
    columns = [Column("", flowed=True, least=24), Column("price", "figure", rank=1),
               Column("now", "figure")]
    columns += [Column(f"layout {one['number']}", "figure") for one in layouts]
    rows: list[tuple[Cell, ...]] = []
    for k, part in enumerate(form["start"]["cost"]):
        values = [part, *(one["cost"][k] for one in layouts)]
        rows.append((part["words"], f"{part['price_mm']:.3g}", *(_value(one) for one in values)))
    totals = [form["start"]["cost_mm"], *(one["cost_mm"] for one in layouts)]
    rows.append((("as thin lead", "strong"), "", *((f"{one:.0f} mm", "strong") for one in totals)))
    return table(columns, rows, wide)


def _value(part: Form) -> str:
    digits = 1 if part["what"].startswith("cg-") else 0
    return f"{part['value']:.{digits}f} {part['unit']}"


def _layout(form: Form, layout: Form, measure: int, wide: int) -> list[Line]:
    head = f"Layout {layout['number']}"
    if layout["elsewhere"]:
        head += f", {layout['elsewhere']} items elsewhere than in any before it"
    lines = [line((head, "strong")), *flow(saved_words(form, layout), measure)]
    moved = [one for one in layout["places"] if one["moved"]]
    if moved:
        lines += [BLANK, *_places(moved, wide)]
    stays = ", ".join(one["item"] for one in layout["places"] if not one["moved"])
    if stays:
        lines += [BLANK, *flow(line(("Stays: ", "quiet"), printable(stays)), measure, hang=2)]
    if layout["stops"]:
        said = "What stops it from being better, everything else staying where it is:"
        lines += [BLANK, *flow(said, measure, ink="quiet")]
        for one in layout["stops"]:
            lines += indented(flow(stop_words(one), measure - 2, hang=2), 2)
    for lead in layout["short_leads"]:
        needs, has = shown(lead["needs_mm"], "mm"), shown(lead["has_mm"], "mm")
        said = f"Lead {lead['lead']} is too short then: it needs {needs} and has {has}."
        lines += [BLANK, *flow(said, measure, ink="strong")]
    return [*lines, BLANK, *_check(layout["checked"], measure)]


def _places(moved: Sequence[Form], wide: int) -> list[Line]:
    """What moves: to where, and from where."""
    columns = (Column("item"), Column("tray", rank=1), Column("to x"), Column("y"), Column("turn"),
               Column("from x", rank=2), Column("y", rank=2), Column("turn", rank=3))
    rows: list[tuple[Cell, ...]] = []
    for one in moved:
        was = one["was"]
        rows.append(((one["item"], "strong"), one["on"], *_at(one["at_mm"]),
                     turn_words(one["turn_deg"], was["turn_deg"]), *_at(was["at_mm"]),
                     f"{was['turn_deg'] % 360:g}°"))
    return table(columns, rows, wide)


def _at(at_mm: Sequence[float]) -> tuple[str, str]:
    x, y = (f"{one:g}".replace("-", "−") for one in at_mm)
    return x, y


def _check(checked: Form, measure: int) -> list[Line]:
    new = [one for one in checked["new"] if one["severity"] != "note"]
    tries = "" if checked["tries"] == 1 else f", at try {checked['tries']}"
    if not new:
        count = len(checked["gone"])
        gone = f"; {count} finding{'s' if count > 1 else ''} less" if count else ""
        return flow(f"Checked in three dimensions{tries}: nothing new is found{gone}.", measure)
    said = f"Checked in three dimensions{tries}: it brings"
    return [*flow(said, measure), *_new_findings(new, measure)]


def _new_findings(found: Sequence[Form], measure: int) -> list[Line]:
    from hardstand.views.finding import severity

    lines: list[Line] = []
    for one in found:
        about = printable(", ".join(one["about"]))
        words = line(*severity(one["severity"]), "  ", (one["code"], "strong"), "  ", about)
        lines += indented(flow(words, measure - 2, hang=2), 2)
        lines += indented(flow(one["text"], measure - 4), 4)
    return lines


def _contradiction(why: Form, measure: int) -> list[Line]:
    lines = flow("There is no layout. These cannot all be had:", measure, ink="strong")
    for one in why["requirements"]:
        lines += indented(flow(f"· {printable(one)}", measure - 2, hang=2), 2)
    if why["ways_out"]:
        lines += [BLANK, *flow("Any one of these would do:", measure)]
        for one in why["ways_out"]:
            lines += indented(flow(f"· {printable(one)}", measure - 2, hang=2), 2)
    if not why["proven"]:
        said = "Not every step was decided: fewer of them may do."
        lines += [BLANK, *flow(said, measure, ink="quiet")]
    return lines


def _left(form: Form, measure: int) -> list[Line]:
    lines: list[Line] = []
    held = [one for one in form["held"] if one["why"] != "was not asked to move"]
    if held:
        said = "; ".join(f"{one['item']} {one['why']}" for one in held)
        lines += [BLANK, *flow(line(("Not moved: ", "quiet"), printable(said)), measure, hang=2)]
    if form["leads_left_out"]:
        said = ", ".join(form["leads_left_out"])
        words = line(("Left out, their far ends having no place: ", "quiet"), printable(said))
        lines += [BLANK, *flow(words, measure, hang=2)]
    return lines
