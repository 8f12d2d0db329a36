"""`hardstand place`: find where everything aboard could stand better."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.making import make
from hardstand.cli.refusal import Refusal, did_you_mean
from hardstand.cli.shared import as_json, folder, options
from hardstand.cli.sheet import Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.placement_value import Outcome, Request
    from hardstand.workspace import Workspace


@click.command(cls=Command, section="Ask", short_help="find where things on trays could stand better")
@folder
@click.option("--free", metavar="ITEMS", help="move only these: ids with commas; else all that may move")
@click.option("--alternatives", type=click.IntRange(1, 9), default=1, metavar="N",
              help="find up to so many that differ truly; 1 if left out")
@click.option("--write", type=click.IntRange(1, 9), is_flag=False, flag_value=1, metavar="[N]",
              help="write layout N, the first if no number is given; else nothing is written")
@click.option("--work", type=click.IntRange(1, 10_000), default=2, metavar="N",
              help="how much to search, some ten seconds each; 2 if left out")
@click.option("--seconds", type=click.FloatRange(0.0, min_open=True), metavar="S",
              help="cut the search off after so long; says so")
@click.option("--seed", type=click.IntRange(0, 2**31 - 1), default=1, metavar="N",
              help="begin elsewhere; the same seed and work give the same layout")
@options
@as_json
@click.pass_obj
def place(talk: Talk, folder: Path, free: str | None, alternatives: int, write: int | None, work: int,
          seconds: float | None, seed: int, options: tuple[str, ...]) -> int:
    """Find positions and quarter turns for what stands on trays, as cheap as can be, and check them.

    What may not move is respected: ranges (move_x_mm, move_y_mm), keep-outs, plugs, heights, the
    skin. Leads, CG, gyro, aerials and access are weighed in millimetres of thin lead. Every layout
    passes the checks in three dimensions before it is shown. Ctrl-C ends with the best so far.

    Exit status 0 with a layout, 1 where there is none, 2 if the folder can't be read.
    """
    from hardstand.placement_value import Request
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    workspace = open_folder(folder, options)
    wanted = None if free is None else tuple(dict.fromkeys(one.strip() for one in free.split(",")))
    count = max(alternatives, write or 1)
    outcome = _placed(talk, workspace, Request(
        wanted, count, work, math.inf if seconds is None else seconds, seed))
    form = outcome.as_json()
    if write is not None and form["layouts"]:
        return _written(talk, workspace, outcome, form, write)
    if talk.as_json:
        talk.data(form)
    else:
        talk.page(_page(talk, form))
        if form["layouts"]:
            talk.say(_next(talk, len(form["layouts"])))
    return 0 if form["layouts"] else 1


def _placed(talk: Talk, workspace: Workspace, request: Request) -> Outcome:
    """Search with progress on the terminal; raises Refusal where an item cannot be moved."""
    from hardstand.cli.interrupted import interruptible
    from hardstand.cli.progress import progress
    from hardstand.engines.fit.placement import NotFreeError
    from hardstand.placement import place as search

    try:
        with progress(talk, "reading the aeroplane") as tell, interruptible() as stopped:
            return search(workspace, request, tell, stopped)
    except NotFreeError as error:
        known = [one.id for one in workspace.as_built().items if one.on is not None]
        known = [] if error.item in known else known
        raise Refusal(f"{error.item or 'An item without a name'} cannot be moved: it {error.why}.",
                      did_you_mean(error.item, known) if known else "") from None


def _written(talk: Talk, workspace: Workspace, outcome: Outcome, form: dict[str, Any],
             number: int) -> int:
    """Write one of the layouts as a revision."""
    layouts = outcome.layouts
    if number > len(layouts):
        raise Refusal(f"There is no layout {number}: {len(layouts)} were found.",
                      "Nothing was written.")
    chosen = layouts[number - 1]
    if not talk.as_json:
        talk.page(_page(talk, form))
    if not chosen.changes:
        raise Refusal("Nothing was changed: everything stands there already.", status=0)
    return make(talk, workspace, chosen.changes, f"placed {_some(chosen.changes)}", look=False,
                also={"placement": form})


def _some(changes: Sequence[Any]) -> str:
    """The items that changes are about, the first three by id."""
    items = list(dict.fromkeys(one.address.split(".")[1] for one in changes))
    more = f" and {len(items) - 3} more" if len(items) > 3 else ""
    return ", ".join(items[:3]) + more


def _page(talk: Talk, form: dict[str, Any]) -> Any:
    from hardstand.views.placement import placement_page

    return placement_page(form, talk.measure, talk.wide)


def _next(talk: Talk, count: int) -> Any:
    from hardstand.views.flow import flow

    which = "it" if count == 1 else "layout N"
    number = "" if count == 1 else " N"
    return flow(f"Nothing was written; `hardstand place DIR --write{number}` with the same wishes "
                f"writes {which}, and `hardstand undo` takes it back.", talk.measure, ink="quiet")
