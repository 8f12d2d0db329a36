"""`hardstand options`: the named alternatives of an aeroplane, side by side."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from hardstand.cli.check import assessed
from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.shared import as_json, folder
from hardstand.cli.sheet import Command
from hardstand.cli.talk import Talk


@click.command("options", cls=Command, section="Look up", short_help="list the named alternatives")
@folder
@click.option("--compare", is_flag=True, help="assess each one and put the verdicts side by side")
@as_json
@click.pass_obj
def list_options(talk: Talk, folder: Path, compare: bool) -> int:
    """List the options of the description: named sets of changes, to be compared with it."""
    from hardstand.views.history import options_page

    must_hold_aeroplane(folder)
    forms = options_form(folder)
    if compare and forms:
        from hardstand.views.notice import tally

        forms.insert(0, {"id": None, "name": "", "note": "", "changes": 0})
        for one in forms:
            form = assessed(talk, folder, (one["id"],) if one["id"] else ())
            one["counts"], one["verdict"] = form["counts"], tally(form)
    if talk.as_json:
        talk.data({"format": 1, "options": forms})
    else:
        talk.page(options_page(forms, talk.measure, talk.wide))
    return 0


def options_form(folder: Path) -> list[dict[str, Any]]:
    """The options of a folder as plain data, in the order of the file."""
    from hardstand.description.option_changes import changes_of
    from hardstand.workspace import open_folder

    workspace = open_folder(folder)
    return [{"id": row["id"], "name": row.get("name", ""), "note": row.get("note", ""),
             "changes": sum(1 for _ in changes_of(row))}
            for row in workspace.base.rows.get("option", [])]
