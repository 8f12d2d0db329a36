"""`hardstand compare`: the description and its options, assessed whole and side by side."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.cli.shared import as_json, units
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.comparison.compare import Placed
    from hardstand.standards.units import System
    from hardstand.workspace import Tell, Workspace


@click.command(cls=Command, section="Ask", short_help="put options side by side, and say what differs")
@click.argument("names", cls=Argument, metavar="OPTION", nargs=-1,
                help="the options to compare, or several at once as A+B; all of them, each by itself, "
                     "if left out")
@click.option("--in", "folder", metavar="DIR", type=Path, default=".", help="the aeroplane's folder")
@click.option("--place", "place_first", is_flag=True,
              help="place what may move anew in each option before it is compared; writes nothing")
@click.option("--work", type=click.IntRange(1, 10_000), default=2, metavar="N",
              help="with --place, how much to search for each, some ten seconds each; 2 if left out")
@units
@as_json
@click.pass_obj
def compare(talk: Talk, names: tuple[str, ...], folder: Path, place_first: bool, work: int,
            units: System) -> int:
    """Lay each option over the description, assess it whole, and put the results side by side.

    The description without options is the first column. Compared are items, mass, CG and ballast to
    the target, the tightest clearance, leads and their length, leads to make, and the findings that
    come and go; what differs is told in words, the largest first. The first column always stands as
    it is described.
    """
    from hardstand.cli.progress import progress
    from hardstand.comparison import compare as compared
    from hardstand.views.comparison import comparison_page
    from hardstand.views.notice import NOTICE
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    with progress(talk, "reading the aeroplane") as tell:
        workspace = open_folder(folder)
        columns = _columns(workspace, names)
        places = _placed(workspace, columns, work, tell) if place_first else {}
        form: dict[str, Any] = {**compared(workspace, columns, tell, places).as_json(), "notice": NOTICE}
    if talk.as_json:
        talk.data(form)
    else:
        talk.page(comparison_page(form, talk.measure, talk.wide, units))
    return 0


def _placed(workspace: Workspace, columns: Sequence[tuple[str, ...]], work: int,
            tell: Tell) -> dict[tuple[str, ...], Placed]:
    """Each column with the best layout found for it; Ctrl-C ends the search with what it has."""
    from hardstand.cli.interrupted import interruptible
    from hardstand.comparison.placing import placed
    from hardstand.placement_value import Request

    with interruptible() as stopped:
        return {one: placed(workspace, one, Request(work=work), tell, stopped) for one in columns}


def _columns(workspace: Workspace, names: Sequence[str]) -> list[tuple[str, ...]]:
    """The options of each column; raises Refusal where one is not described."""
    from hardstand.comparison import named_columns

    known = [str(row.get("id")) for row in workspace.base.rows.get("option", [])]
    if not known:
        raise Refusal("The description holds no options, so there is nothing to compare.",
                      "An [[option]] names another set of values.")
    columns = named_columns(names, known)
    strange = next((one for column in columns for one in column if one not in known), None)
    if strange is not None:
        raise Refusal(f"There is no option {strange}.", did_you_mean(
            strange, known, f"The options are {', '.join(known)}."))
    if not columns:
        raise Refusal("No option is named.", f"The options are {', '.join(known)}.")
    return columns
