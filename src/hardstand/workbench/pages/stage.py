"""The page of a stage that has no drawing of its own: its figures and its findings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hardstand.views.stage_form import stage_form
from hardstand.workbench.asked import Asked, Common, NoSuchPageError, common
from hardstand.workbench.findings import Note, notes_of


@dataclass(frozen=True)
class StagePage:
    """The stage's JSON form beside its notes."""

    common: Common
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
    return StagePage(common(asked, name, title, form["state"]), form, notes_of(held.form, {}, name))
