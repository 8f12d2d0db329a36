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
    from hardstand.standards.units import System
    from hardstand.workspace import Workspace


@click.command(cls=Command, section="Ask", short_help="put options side by side, and say what differs")
@click.argument("names", cls=Argument, metavar="OPTION", nargs=-1,
                help="the options to compare, or several at once as A+B; all of them, each by itself, "
                     "if left out")
@click.option("--in", "folder", metavar="DIR", type=Path, default=".", help="the aeroplane's folder")
@units
@as_json
@click.pass_obj
def compare(talk: Talk, names: tuple[str, ...], folder: Path, units: System) -> int:
    """Lay each option over the description, assess it whole, and put the results side by side.

    The description without options is the first column. Compared are items, mass, CG and ballast to
    the target, the tightest clearance, leads and their length, leads to make, and the findings that
    come and go; what differs is told in words, the largest first.
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
        form: dict[str, Any] = {**compared(workspace, columns, tell).as_json(), "notice": NOTICE}
    if talk.as_json:
        talk.data(form)
    else:
        talk.page(comparison_page(form, talk.measure, talk.wide, units))
    return 0


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
