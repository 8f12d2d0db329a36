"""`hardstand show`: everything that one stage worked out."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.cli.shared import as_json, folder, options, units
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.standards.units import System
    from hardstand.views.ink import Line

STAGES = ("fit", "balance", "power", "harness", "gear", "controls", "fuel", "turbine", "radio",
          "lights", "bench", "flight")


@click.command(cls=Command, section="Ask", short_help="show everything that one stage worked out")
@click.argument("stage", cls=Argument, help=f"one of {', '.join(STAGES)}")
@folder
@options
@units
@click.option("--all", "every", is_flag=True, help="long lists whole")
@as_json
@click.pass_obj
def show(talk: Talk, stage: str, folder: Path, options: tuple[str, ...], units: System,
         every: bool) -> int:
    """Show everything that one stage worked out: its tables, figures and findings.

    balance: mass and CG in every state, sensitivities, what to weigh next, ways to put it right.
    fit: the tightest clearances first, and the distances of gyros and aerials.
    power: packs, rails and charge, and what each single failure takes.
    harness: the plan of channels, every lead with its current, and what feeds what.
    """
    if stage not in STAGES:
        raise Refusal(f"There is no stage {stage}.", did_you_mean(
            stage, STAGES, f"The stages are {', '.join(STAGES)}."))
    must_hold_aeroplane(folder)
    form = stage_form(talk, stage, folder, options)
    if talk.as_json:
        talk.data(form)
    else:
        talk.page(_page(talk, form, units, every=every))
    return 0


def stage_form(talk: Talk, stage: str, folder: Path, options: Sequence[str]) -> dict[str, Any]:
    """What one stage worked out, as plain data; raises UnreadableError."""
    from hardstand.cli.progress import progress
    from hardstand.views.stage_form import stage_form as form_of
    from hardstand.workspace import open_folder

    with progress(talk, "reading the aeroplane") as tell:
        workspace = open_folder(folder, options)
        assessment = workspace.assess(tell=tell)
        return form_of(assessment, workspace.as_built(), stage)


def _page(talk: Talk, form: dict[str, Any], units: System, *, every: bool) -> list[Line]:
    from hardstand.views.stage_page import stage_page

    return stage_page(form, talk.measure, talk.wide, units, every=every)
