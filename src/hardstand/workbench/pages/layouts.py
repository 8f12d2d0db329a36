"""The page of better layouts: what may move, how far the search is, what it found."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from hardstand.asbuilt import AsBuilt
from hardstand.description.places import Tray
from hardstand.standards.units import System
from hardstand.views.drawing.numbering import item_numbers
from hardstand.views.in_other_units import in_units
from hardstand.workbench.asked import Asked, Common, NoSuchPageError, common
from hardstand.workbench.bench import Held
from hardstand.workbench.compared import Compared, Row, compared
from hardstand.workbench.drawn.inline import inline
from hardstand.workbench.drawn.kept import Drawings
from hardstand.workbench.drawn.layout import WIDTH, layout_drawing
from hardstand.workbench.layouts import free_items, staying
from hardstand.workbench.long import Standing
from hardstand.workbench.pages.layouts_found import LayoutFound, answer_words, found_in
from hardstand.workbench.since import Difference

WIDE = 760.0
WORK = ((1, "short: a minute or so"), (3, "usual: some minutes"), (10, "long: up to half an hour"),
        (10_000, "until stopped"))  # fmt: skip
_DRAWINGS = Drawings()


@dataclass(frozen=True)
class Tick:
    """An item that may move: its number in the drawings, and whether it is ticked."""

    id: str
    number: str
    name: str
    ticked: bool


@dataclass(frozen=True)
class LayoutsPage:
    """The form (`trays` with their ticks, what `stays` and why), the search, and what it found.

    `answer` says how it ended; `changed` is what is no longer as it was when the search began.
    """

    common: Common
    search: Standing
    trays: list[tuple[Tray, list[Tick]]]
    stays: list[tuple[str, str]]
    present: Sequence[tuple[str, Markup]]
    answer: str
    layouts: list[LayoutFound]
    compared: Compared | None
    form: Mapping[str, Any] | None
    changed: Sequence[Difference]
    work: Sequence[tuple[int, str]] = WORK


def layouts(asked: Asked) -> LayoutsPage:
    """What the page of better layouts shows."""
    held, search = asked.held, asked.bench.seeking.now
    if not held.asbuilt.trays:
        raise NoSuchPageError("No tray is described.", "Describe [[tray]] first.")
    units = asked.preferences.units
    form = search.result["placement"] if search.result else None
    comparison = search.result["comparison"] if search.result else None
    changed = asked.bench.changed_since(search.about, held) if search.about and form else []
    table = compared(comparison, units) if comparison and form and form["layouts"] else None
    table = table.with_row(_costs(form, units)) if table and form else None
    found = found_in(search, held, changed, table, units) if form and table else []
    trays = _trays(held, search, search.about if found and search.about else held)
    view = "where things on trays could stand better"
    return LayoutsPage(
        common(asked, "fit", "Better layouts", view), search, trays,
        [(one, why) for one, why in staying(held.asbuilt).items()],
        [] if found else _present(held, [tray for tray, _ in trays]),
        answer_words(form, units) if form else "", found, table, form, changed,
    )  # fmt: skip


def _costs(form: Mapping[str, Any], units: System) -> Row:
    """What the present layout and each one found cost on the scale on which they are compared."""
    costs = [form["start"]["cost_mm"], *(one["cost_mm"] for one in form["layouts"])]
    return Row("cost, as thin lead", tuple((in_units(f"{one:.0f} mm", units), "") for one in costs))


def _trays(held: Held, search: Standing, drawn: Held) -> list[tuple[Tray, list[Tick]]]:
    """The trays on which something may move, with what stands there, ticked as it was asked last.

    Items have their numbers in what is drawn on the page: the layouts found, or the trays as they stand.
    """
    asbuilt: AsBuilt = held.asbuilt
    asked = search.asked.get("free")
    numbers = item_numbers(drawn.asbuilt)
    every = free_items(asbuilt)
    rows = [(tray, [Tick(one.id, numbers.get(one.id, ""), one.name, asked is None or one.id in asked)
                    for one in every if one.on == tray.id]) for tray in asbuilt.trays]  # fmt: skip
    return [(tray, ticks) for tray, ticks in rows if ticks]


def _present(held: Held, trays: Sequence[Tray]) -> list[tuple[str, Markup]]:
    """The trays as they stand now, for a wide and for a narrow screen."""
    if not trays:
        return []
    widths = (("wide-screen", WIDE), ("narrow-screen", WIDTH))
    return [(name, _plan(held, trays, name, width)) for name, width in widths]


def _plan(held: Held, trays: Sequence[Tray], name: str, width: float) -> Markup:
    sheet = _DRAWINGS.get_or(
        (held.digest, held.workspace.options, name),
        lambda: layout_drawing(held.asbuilt, held.assessment, trays, {}, "Trays as they stand", width))  # fmt: skip
    return inline(sheet, f"present-{name}")
