"""The page of the balance: every state on the CG chart, packs to slide, what was weighed."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from hardstand.asbuilt.value import PlacedItem
from hardstand.views.balance_form import balance_form
from hardstand.workbench.actions.trying import cg_words
from hardstand.workbench.asked import Asked, Common, common
from hardstand.workbench.drawn.balance import balance_drawing, balance_zones
from hardstand.workbench.drawn.inline import inline
from hardstand.workbench.drawn.kept import Drawings
from hardstand.workbench.findings import Note, notes_of

WIDTH = 960.0
_DRAWINGS = Drawings()


@dataclass(frozen=True)
class Slide:
    """An item that can be slid along its tray, from and to as station of its middle, mm."""

    id: str
    name: str
    low_mm: float
    high_mm: float
    at_mm: float
    at: str


@dataclass(frozen=True)
class BalancePage:
    """`states` have their figures in JSON form; `judged` is the one that the range belongs to."""

    common: Common
    sheet: BalanceDrawing
    form: Mapping[str, Any]
    judged: Mapping[str, Any] | None
    states: Sequence[Mapping[str, Any]]
    slides: list[Slide]
    cg: dict[str, str] | None
    notes: list[Note]


class BalanceDrawing:
    """The chart, made when it is first asked for: some answers leave it out."""

    def __init__(self, asked: Asked) -> None:
        self._asked = asked

    @property
    def markup(self) -> Markup | None:
        """The chart; None where no CG behind a mark was worked out."""
        held = self._asked.held
        sheet = _DRAWINGS.get_or(
            (held.digest, held.workspace.options),
            lambda: balance_drawing(held.asbuilt, held.assessment, WIDTH) or "")  # fmt: skip
        if not sheet:
            return None
        states = [f"balance.cg@{one.id}" for one in held.asbuilt.states]
        return inline(sheet, "balance", states, "chart")


def balance(asked: Asked) -> BalancePage:
    """What the page of the balance shows."""
    held = asked.held
    form = balance_form(held.assessment, held.asbuilt)
    wanted = asked.query.get("state") or held.asbuilt.aeroplane.cg_range_state or ""
    judged = next((one for one in form["states"] if one["id"] == wanted and one["cg"]), None)
    slides = [one for item in held.asbuilt.items if (one := _slide(asked, item)) is not None]
    zones = balance_zones(held.asbuilt, held.assessment, WIDTH)
    return BalancePage(
        common(asked, "balance", "Balance", "CG of every state against its mass"),
        BalanceDrawing(asked), form, judged, form["states"], slides,
        cg_words(held, asked.preferences.units), notes_of(held.form, zones, "balance"),
    )  # fmt: skip


def _slide(asked: Asked, item: PlacedItem) -> Slide | None:
    """A slide for a pack on a tray, within its own bounds or those of the tray."""
    tray = next((one for one in asked.held.asbuilt.trays if one.id == item.on), None)
    at = asked.held.workspace.value_at(f"item.{item.id}.at_mm")
    if item.kind != "pack" or tray is None or not all(isinstance(one, int | float) for one in at):
        return None
    stations = [x for x, _ in tray.outline_mm]
    low, high = item.movable_x_mm or (min(stations), max(stations))
    return Slide(item.id, item.name, low, high, at[0], json.dumps(at))
