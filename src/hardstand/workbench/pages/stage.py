"""The page of a stage that has no drawing of its own: its tables, its figures and its findings."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.views.harness import harness_plates
from hardstand.views.plates import Plate, cell_text
from hardstand.views.power import power_plates
from hardstand.views.stage_form import stage_form
from hardstand.workbench.asked import Asked, Common, NoSuchPageError, common
from hardstand.workbench.findings import Note, notes_of

PLATES: dict[str, Callable[..., list[Plate]]] = {"power": power_plates, "harness": harness_plates}


@dataclass(frozen=True)
class Row:
    """One row of a table: its cells as text, and what lies behind it, one line each."""

    cells: list[str]
    within: Sequence[str]


@dataclass(frozen=True)
class Table:
    """One table of a stage: heads with their style, the rows that matter most, the others, a remark."""

    title: str
    heads: list[tuple[str, str]]
    first: list[Row]
    others: list[Row]
    left: str
    said: str


@dataclass(frozen=True)
class StagePage:
    """The stage's tables and its JSON form beside its notes."""

    common: Common
    tables: list[Table]
    form: dict[str, Any]
    notes: list[Note]


def stage(asked: Asked) -> StagePage:
    """What a stage's page shows."""
    held = asked.held
    name = asked.query.get("name", "")
    if name not in held.form["stages"]:
        raise NoSuchPageError(f"There is no stage {name}.",
                              f"The stages are {', '.join(held.form['stages'])}.")  # fmt: skip
    form = stage_form(held.assessment, held.asbuilt, name)
    title = form["title"][:1].upper() + form["title"][1:]
    plates = PLATES[name](form[name], asked.preferences.units) if name in form and name in PLATES else []
    return StagePage(common(asked, name, title, form["state"]), [_table(one) for one in plates], form,
                     notes_of(held.form, {}, name))  # fmt: skip


def _table(plate: Plate) -> Table:
    heads = [(one.head, "flows" if one.flowed else "" if one.align == "left" or not at else "n")
             for at, one in enumerate(plate.columns)]  # fmt: skip
    behind = list(plate.within) or [()] * (len(plate.first) + len(plate.others))
    rows = [Row([cell_text(cell) for cell in row], within)
            for row, within in zip([*plate.first, *plate.others], behind, strict=True)]  # fmt: skip
    many = len(plate.first)
    left = plate.left or f"{len(plate.others)} more"
    return Table(plate.title, heads, rows[:many], rows[many:], left, plate.said)
