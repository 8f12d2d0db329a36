"""`hardstand channels`: find which output is to feed and command what."""

from __future__ import annotations

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
    from hardstand.channel_plan_value import Outcome, Request
    from hardstand.workspace import Workspace


@click.command(cls=Command, section="Ask", short_help="find which output should feed and command what")
@folder
@click.option("--keep", metavar="NAMES", default="",
              help="these stay plugged in where they are: channels, leads or items, with commas")
@click.option("--split", metavar="NAMES", default="",
              help="branches that share one output now get outputs of their own: leads or items, with commas")
@click.option("--anew", is_flag=True, help="count changes last: the best plan, however much is replugged")
@click.option("--write", is_flag=True, help="write the plan; else nothing is written")
@options
@as_json
@click.pass_obj
def channels(talk: Talk, /, folder: Path, keep: str, split: str, options: tuple[str, ...], *, anew: bool,
             write: bool) -> int:
    """Find the plan of channels that loses least when one thing fails, and have it assessed.

    Sought first: no receiver, hub, pack, lead or rail alone takes pitch, roll or both halves of a
    pair. Then few changes, short leads, hubs and packs loaded alike. Currents stay within limits. What
    cannot be had is told with its reason. Prove every surface by moving it, before the first flight.

    Exit status 0 with a plan, 1 where there is none or it is worse, 2 if the folder can't be read.
    """
    from hardstand.channel_plan_value import Request
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    workspace = open_folder(folder, options)
    outcome = _planned(talk, workspace, Request(_names(keep), _names(split), anew))
    if not outcome.form["plugs"]:
        raise Refusal("There is nothing to plan: no lead goes from an output of a receiver or distribution "
                      "unit to what obeys it.", "Describe the leads ([[lead]]) and channels ([[channel]]).")
    good = outcome.found and outcome.passed
    if write and good:
        return _written(talk, workspace, outcome)
    if talk.as_json:
        talk.data(outcome.form)
    else:
        talk.page(_page(talk, outcome.form))
        if good and outcome.changes:
            talk.say(_next(talk))
    return 0 if good else 1


def _names(text: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for one in text.split(",") if (name := one.strip())))


def _planned(talk: Talk, workspace: Workspace, request: Request) -> Outcome:
    """Plan with progress on the terminal; raises Refusal for a name that nothing has."""
    from hardstand.channel_plan import plan_channels
    from hardstand.channel_plan_value import NoSuchNameError
    from hardstand.cli.progress import progress
    from hardstand.description.write import NotWritableError

    try:
        with progress(talk, "reading the aeroplane") as tell:
            return plan_channels(workspace, request, tell)
    except NoSuchNameError as error:
        raise Refusal(f"{error}.", did_you_mean(error.name, error.known)) from None
    except NotWritableError as error:
        raise Refusal(f"The plan cannot be made: {error}.") from None


def _written(talk: Talk, workspace: Workspace, outcome: Outcome) -> int:
    """Write the plan as a revision."""
    if not talk.as_json:
        talk.page(_page(talk, outcome.form))
    if not outcome.changes:
        raise Refusal("Nothing was changed: it is plugged so already.", status=0)
    moved = [one["lead"] for one in outcome.form["plugs"] if one["moved"]]
    more = f" and {len(moved) - 3} more" if len(moved) > 3 else ""
    why = f"replugged {', '.join(moved[:3])}{more}" if moved else "put the channels in order"
    return make(talk, workspace, outcome.changes, why, look=False, also={"plan": outcome.form})


def _page(talk: Talk, form: dict[str, Any]) -> Any:
    from hardstand.views.channels import channels_page

    return channels_page(form, talk.measure, talk.wide)


def _next(talk: Talk) -> Any:
    from hardstand.views.flow import flow

    return flow("Nothing was written; `hardstand channels DIR --write` with the same wishes writes it, and "
                "`hardstand undo` takes it back.", talk.measure, ink="quiet")
