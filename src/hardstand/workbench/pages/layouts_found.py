"""Layouts that were found, as the page shows them: drawn, told, and whether they can be taken."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from markupsafe import Markup

from hardstand.standards.units import System
from hardstand.views.drawing.numbering import item_numbers
from hardstand.views.in_other_units import in_units
from hardstand.views.number import shown
from hardstand.views.placement_words import saved_words, stop_words, turn_words
from hardstand.views.words import sentence
from hardstand.workbench.bench import Held
from hardstand.workbench.compared import Compared
from hardstand.workbench.drawn.inline import inline
from hardstand.workbench.drawn.kept import Drawings
from hardstand.workbench.drawn.layout import Spot, layout_drawing
from hardstand.workbench.long import Standing
from hardstand.workbench.since import Difference

Form = Mapping[str, Any]
Taking = Literal["can", "taken", "stale", "same"]
_DRAWINGS = Drawings()


@dataclass(frozen=True)
class Move:
    """What moves: its number in the drawing, id and name, to where."""

    number: str
    id: str
    name: str
    words: str


@dataclass(frozen=True)
class LayoutFound:
    """One layout. `taking` says whether it can be taken, stands already, or was found for another state."""

    number: int
    drawing: Markup
    saved: str
    differences: tuple[str, ...]
    moves: list[Move]
    shorts: list[str]
    stops: list[str]
    taking: Taking


def found_in(search: Standing, held: Held, changed: Sequence[Difference], table: Compared,
             units: System) -> list[LayoutFound]:  # fmt: skip
    """The layouts of a search that is done."""
    assert search.result is not None  # which a search that is done has
    form, about = search.result["placement"], search.about
    assert about is not None
    numbers = item_numbers(about.asbuilt)
    return [
        LayoutFound(
            one["number"], _drawn(search, about, form, one), in_units(saved_words(form, one), units),
            table.differences[one["number"]],
            [_move(place, numbers, about, units) for place in one["places"] if place["moved"]],
            [_short(lead, units) for lead in one["short_leads"]],
            [in_units(sentence(stop_words(stop)), units) for stop in one["stops"]],
            _taking(one, held, changed),
        )
        for one in form["layouts"]
    ]  # fmt: skip


def _taking(layout: Form, held: Held, changed: Sequence[Difference]) -> Taking:
    if not layout["changes"]:
        return "same"
    new = {one["address"]: one["new"] for one in layout["changes"]}
    if all(held.workspace.value_at(address) == value for address, value in new.items()):
        return "taken" if {one.address for one in changed} <= set(new) else "stale"
    return "stale" if changed else "can"


def _move(place: Form, numbers: Mapping[str, str], about: Held, units: System) -> Move:
    x, y = (shown(one, "mm", None, units) for one in place["at_mm"])
    was = place["was"]
    turned = place["turn_deg"] % 360.0 != was["turn_deg"] % 360.0
    turn = f", {turn_words(place['turn_deg'], was['turn_deg'])}" if turned else ""
    names = {tray.id: tray.name or tray.id for tray in about.asbuilt.trays}
    on = f", on {names[place['on']]}" if place["on"] != was["on"] else ""
    return Move(numbers[place["item"]], place["item"], place["name"], f"x {x}, y {y}{turn}{on}")


def _short(lead: Form, units: System) -> str:
    needs, has = shown(lead["needs_mm"], "mm", None, units), shown(lead["has_mm"], "mm", None, units)
    return f"Lead {lead['lead']} is too short then: it needs {needs} and has {has}."


def _drawn(search: Standing, about: Held, form: Form, layout: Form) -> Markup:
    """The trays on which anything moves in any layout, so that all drawings show the same ones."""
    touched = {on for one in form["layouts"] for place in one["places"] if place["moved"]
               for on in (place["on"], place["was"]["on"])}  # fmt: skip
    trays = [one for one in about.asbuilt.trays if one.id in touched] or list(about.asbuilt.trays)
    spots = {one["item"]: Spot(one["on"], (one["at_mm"][0], one["at_mm"][1]), one["turn_deg"])
             for one in layout["places"] if one["moved"]}  # fmt: skip
    number = layout["number"]
    sheet = _DRAWINGS.get_or(
        (about.digest, search.number, number),
        lambda: layout_drawing(about.asbuilt, about.assessment, trays, spots, f"Layout {number}"))  # fmt: skip
    return inline(sheet, f"layout-{number}")


def answer_words(form: Form, units: System) -> str:
    """How a search ended, with what is proven.

    >>> answer_words({"ending": "proven", "layouts": [{"cost_mm": 4.0, "gap_mm": 0.0}]}, "metric")
    'No layout on whole millimetres is better than the first: proven.'
    """
    if form["contradiction"] if not form["layouts"] else None:
        return "There is no layout: what is asked cannot all be had."
    if form["layouts"]:
        return _proven_words(form, form["layouts"][0], units)
    if form["refused"]:
        return ("No layout that was found passes the checks in three dimensions, so none is given. "
                "This is what the last one brings.")  # fmt: skip
    return "No layout was found, and none was excluded. Let it look for longer, or let more things move."


def _proven_words(form: Form, best: Form, units: System) -> str:
    if form["ending"] == "proven" and best["gap_mm"] < 1e-6:
        return "No layout on whole millimetres is better than the first: proven."
    cut = "It was stopped: this is the best that it had. " if form["ending"] == "cancelled" else ""
    if not form["bound_mm"]:
        return f"{cut}How much better a layout could be is not known yet: let it look for longer."
    least, best_mm = (in_units(f"{one:.0f} mm", units) for one in (form["bound_mm"], best["cost_mm"]))
    gap = f"at most {best['gap_pct']:.1f} %" if best["gap_pct"] >= 0.1 else "not even 0.1 %"
    return (f"{cut}The first costs as much as {best_mm} of thin lead. That none costs less than {least} is "
            f"proven, so {gap} is left to be gained.")  # fmt: skip
