"""Making changes: shown, tried, asked where needed, written, and the verdict before and after."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import click

from hardstand.cli.check import assessed
from hardstand.cli.refusal import UNREADABLE, Refusal
from hardstand.cli.talk import Talk

if TYPE_CHECKING:
    from hardstand.changes import AnyChange
    from hardstand.views.ink import Line
    from hardstand.workspace import Workspace

Seen = Callable[[dict[str, Any]], dict[str, Any]]
look_option = click.option("--look", is_flag=True, help="only show what would change; write nothing")


def make(talk: Talk, workspace: Workspace, changes: Sequence[AnyChange], why: str, *, look: bool,
         ask: bool = False, page: Sequence[Line] | None = None,
         also: Mapping[str, Any] | None = None, seen: Seen = dict) -> int:
    """Show changes, make them, and print the verdict before and after.

    `page` is shown in place of the list of changes, where that would be too long to read; `also` are
    further fields of the JSON form. `seen` makes the assessment before one to compare with, where a
    name in it is another now.
    """
    from hardstand.changes import change_as_json
    from hardstand.cli.running import say_problems
    from hardstand.description.problems import UnreadableError
    from hardstand.description.write import NotWritableError, StaleChange
    from hardstand.views.changes import outcome_lines

    form = {"format": 1, "changes": [change_as_json(one) for one in changes], **(also or {})}
    try:
        try:
            workspace.tried(changes)
        except UnreadableError as error:
            return say_problems(talk, error, "Nothing was changed: with this it could not be read")
        if not talk.as_json:
            talk.page(_listed(talk, workspace, changes) if page is None else page)
        if look:
            return _looked(talk, form)
        if ask and talk.is_asked_by_person and not click.confirm("Make this change?", err=True):
            raise Refusal("Nothing was changed.", status=0)
        before = assessed(talk, workspace.folder.path, workspace.options)
        edited = workspace.change(changes, why)
    except StaleChange as stale:
        raise Refusal(f"Nothing was changed: {stale}.", "Check again; the file is no longer what "
                      "this change was made for.", UNREADABLE) from None
    except NotWritableError as error:
        raise Refusal(f"Nothing was changed: {error}.", status=UNREADABLE) from None
    after = assessed(talk, workspace.folder.path, workspace.options)
    name = edited.revision.name if edited.revision else ""
    if talk.as_json:
        talk.data({**form, "revision": name or None, "before": before["counts"],
                   "after": after["counts"]})
    else:
        talk.page([(), *outcome_lines(seen(before), after, name, talk.measure)])
    return 0


def _listed(talk: Talk, workspace: Workspace, changes: Sequence[AnyChange]) -> Sequence[Line]:
    from hardstand.changes import change_as_json
    from hardstand.cli.addresses import place_of
    from hardstand.views.changes import changes_lines

    places = [place_of(workspace, one) for one in changes]
    return changes_lines([change_as_json(one) for one in changes], places, talk.measure)


def _looked(talk: Talk, form: Mapping[str, Any]) -> int:
    if talk.as_json:
        talk.data({**form, "revision": None})
    return 0
