"""`hardstand undo`, `redo` and `history`: going back, forward, and seeing what was written."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.check import assessed
from hardstand.cli.folders import open_at
from hardstand.cli.refusal import Refusal
from hardstand.cli.shared import as_json, folder
from hardstand.cli.sheet import Command
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.description.revisions import Edited, Revision


@click.command(cls=Command, section="Change", short_help="take back the latest change")
@folder
@as_json
@click.pass_obj
def undo(talk: Talk, folder: Path) -> int:
    """Take back the latest change, as a new revision: nothing is ever lost by it.

    An edit made with another program counts as a change of its own.
    """
    from hardstand.description.revisions import undo as step

    return _stepped(talk, folder, step)


@click.command(cls=Command, section="Change", short_help="make again what undo took back")
@folder
@as_json
@click.pass_obj
def redo(talk: Talk, folder: Path) -> int:
    """Make again what the latest undo took back, as long as nothing else was changed since."""
    from hardstand.description.revisions import redo as step

    return _stepped(talk, folder, step)


def _stepped(talk: Talk, folder: Path, step: Any) -> int:
    from hardstand.description.problems import UnreadableError
    from hardstand.description.revisions import NothingToUndoError
    from hardstand.views.changes import outcome_lines
    from hardstand.views.trouble import trouble_page

    place = open_at(folder)
    try:
        edited: Edited = step(place)
    except NothingToUndoError as error:
        raise Refusal(f"Nothing was changed: {error}.", "`hardstand history` lists what was written.",
                      0) from None
    revision = edited.revision
    name, why = (revision.name, revision.why) if revision else ("", "")
    if not talk.as_json:
        talk.page(trouble_page(f"{name}  {why}", "", talk.measure))
    try:
        after = assessed(talk, folder, ())
    except UnreadableError:
        after = None
    if talk.as_json:
        talk.data({"format": 1, "revision": name or None, "why": why,
                   "after": after["counts"] if after else None})
    elif after:
        talk.page([(), *outcome_lines(None, after, "", talk.measure)])
    else:
        talk.say(trouble_page("The aeroplane as it is now cannot be read.",
                              "`hardstand check` says why.", talk.measure))
    return 0


@click.command(cls=Command, section="Look up", short_help="list what was written, and when")
@folder
@as_json
@click.pass_obj
def history(talk: Talk, folder: Path) -> int:
    """List the revisions: every text of the description that the program has seen or written."""
    from hardstand.description.revisions import history as revisions
    from hardstand.views.history import history_page

    forms = [revision_form(one) for one in revisions(open_at(folder))]
    if talk.as_json:
        talk.data({"format": 1, "revisions": forms})
    else:
        talk.page(history_page(forms, talk.measure, talk.wide))
    return 0


def revision_form(revision: Revision) -> dict[str, Any]:
    """A revision as plain data."""
    return {"name": revision.name, "number": revision.number, "sha256": revision.sha256,
            "when": revision.when, "who": revision.who, "why": revision.why, "step": revision.step,
            "of": revision.of}
