"""The page of the trays: things are moved here, and their distances read."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.places import Tray
from hardstand.views.drawing.equipment import corners
from hardstand.views.fit_form import fit_form
from hardstand.workbench.actions.trying import cg_words, gap_words, in_order
from hardstand.workbench.asked import Asked, Common, NoSuchPageError, common
from hardstand.workbench.findings import Note, notes_of
from hardstand.workbench.pages.tray_drawing import TrayDrawing


@dataclass(frozen=True)
class ItemRow:
    """One item of the table: where it stands, its box, the tightest of its distances.

    `at` and `turn` are as the file holds them, as JSON, so that a change can say what it saw;
    `turned` is a quarter further.
    """

    id: str
    name: str
    x_mm: float
    y_mm: float
    size_mm: tuple[float, float, float]
    top_mm: float
    at: str
    turn: str
    turned: str
    tray: str
    tightest: Mapping[str, Any] | None


@dataclass(frozen=True)
class TraysPage:
    """`sheet` makes its drawing when it is laid out; `selected` is the item that is marked, with its distances.

    `search` is how far the search for a better layout is.
    """

    common: Common
    sheet: TrayDrawing
    trays: Sequence[Tray]
    shown: str
    items: list[ItemRow]
    selected: ItemRow | None
    gaps: list[dict[str, str]]
    cg: dict[str, str] | None
    notes: list[Note]
    search: str


def trays(asked: Asked) -> TraysPage:
    """What the page of the trays shows: one of them, or all that lie in one stretch."""
    held = asked.held
    every = held.asbuilt.trays
    if not every:
        raise NoSuchPageError("No tray is described.", "Describe [[tray]] first.")
    wanted = asked.query.get("item", "")
    item = next((one for one in held.asbuilt.items if one.id == wanted), None)
    shown = asked.query.get("tray") or (item.on if item and item.on else every[0].id)
    here = [one for one in every if one.id == shown]
    if not here:
        raise NoSuchPageError(f"There is no tray {shown}.",
                              f"The trays are {', '.join(one.id for one in every)}.")  # fmt: skip
    tightest = _tightest(fit_form(held.assessment, held.asbuilt))
    rows = [_row(asked, one, tightest.get(one.id)) for one in held.asbuilt.items if one.on == shown]
    rows.sort(key=lambda one: one.tightest["spare"] if one.tightest else float("inf"))
    selected = next((one for one in rows if one.id == wanted), None)
    units = asked.preferences.units
    form = fit_form(held.assessment, held.asbuilt, selected.id) if selected else {"groups": {}}
    checks = in_order(form)
    gaps = [gap_words(one, selected.id, units) for one in checks[:8]] if selected else []
    drawing = TrayDrawing(asked, here, selected.id if selected else "", [f"item.{one.id}" for one in rows])
    return TraysPage(
        common(asked, "fit", "Trays", here[0].name or here[0].id), drawing, every, shown, rows,
        selected, gaps, cg_words(held, units), notes_of(held.form, drawing.zones, "fit"),
        asked.bench.seeking.now.phase,
    )  # fmt: skip


def _tightest(form: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    """The check with the least to spare of each id."""
    found: dict[str, Mapping[str, Any]] = {}
    for row in (one for group in form["groups"].values() for one in group):
        for name in row["about"]:
            if name not in found or row["spare"] < found[name]["spare"]:
                found[name] = row
    return found


def _row(asked: Asked, item: PlacedItem, tightest: Mapping[str, Any] | None) -> ItemRow:
    workspace = asked.held.workspace
    at = workspace.value_at(f"item.{item.id}.at_mm")
    turn = workspace.value_at(f"item.{item.id}.turn_deg")
    x, y, _ = item.centre_mm
    return ItemRow(item.id, item.name, x, y, item.size_mm, float(corners(item)[:, 2].max()),
                   json.dumps(at), json.dumps(turn), json.dumps((item.turn_deg + 90.0) % 360.0),
                   item.on or "", tightest)  # fmt: skip
