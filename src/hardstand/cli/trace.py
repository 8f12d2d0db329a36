"""`hardstand trace`: where a number came from, down to the line of the file."""

from __future__ import annotations

from fnmatch import fnmatchcase
from pathlib import Path
from typing import TYPE_CHECKING

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.cli.shared import as_json, folder, options, units
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.assessment import Assessment
    from hardstand.standards.units import System
    from hardstand.workspace import Workspace


@click.command(cls=Command, section="Ask", short_help="show where a number came from, to the line")
@click.argument("figure", cls=Argument, required=False,
                help="the address of a figure (balance.cg-x@ref) or of an input "
                     "(mass.fin.mass_g); with * it lists those that fit")
@folder
@options
@units
@click.option("--all", "every", is_flag=True, help="every input, however little it counts")
@as_json
@click.pass_obj
def trace(talk: Talk, figure: str | None, folder: Path, options: tuple[str, ...], units: System,
          every: bool) -> int:
    """Show the tree behind a figure: the steps, and the inputs with value, tolerance, kind and line.

    The share says how much of the figure's uncertainty an input brings: weigh or measure what
    stands first. An input's own address shows which figures it moves.
    """
    from hardstand.cli.progress import progress
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    with progress(talk, "reading the aeroplane") as tell:
        workspace = open_folder(folder, options)
        assessment = workspace.assess(tell=tell)
    wanted = figure or "*"
    if any(sign in wanted for sign in "*?["):
        found = [one for one in assessment.addresses() if fnmatchcase(one, wanted)]
        if len(found) != 1:
            return _list(talk, assessment, found, wanted, units)
        wanted = found[0]
    return _one(talk, workspace, assessment, wanted, units, every=every)


def _list(talk: Talk, assessment: Assessment, found: list[str], wanted: str, units: System) -> int:
    from hardstand.views.figures import figures_page

    if not found:
        raise Refusal(f"No figure fits {wanted}.", "`hardstand trace` lists all figures.")
    forms = [assessment.figure(one).as_json() for one in found]
    if talk.as_json:
        talk.data({"format": 1, "figures": forms})
    else:
        talk.page(figures_page(forms, talk.measure, talk.wide, units))
    return 0


def _one(talk: Talk, workspace: Workspace, assessment: Assessment, wanted: str, units: System,
         *, every: bool) -> int:
    from hardstand.standing import stand_of
    from hardstand.views import trace as view
    from hardstand.views.trace_form import input_addresses, moved_form, trace_form

    raw = workspace.read.raw
    if wanted in assessment.addresses():
        form = trace_form(assessment, wanted, lambda address: stand_of(raw, address))
        page = view.trace_page
    elif wanted in (known := input_addresses(assessment)):
        form = moved_form(assessment, wanted, lambda address: stand_of(raw, address))
        page = view.moved_page
    else:
        names = assessment.addresses() if "@" in wanted else [*assessment.addresses(), *known]
        raise Refusal(f"There is no figure {wanted}.", did_you_mean(
            wanted, names, "`hardstand trace` lists all figures."))
    if talk.as_json:
        talk.data(form)
    else:
        talk.page(page(form, talk.measure, talk.wide, units, every=every))
    return 0
