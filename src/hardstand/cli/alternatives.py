"""`hardstand options`: the named alternatives of an aeroplane."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.shared import as_json, folder
from hardstand.cli.sheet import Command
from hardstand.cli.talk import Talk


@click.command("options", cls=Command, section="Look up", short_help="list the named alternatives")
@folder
@as_json
@click.pass_obj
def list_options(talk: Talk, folder: Path) -> int:
    """List the options of the description: named sets of changes; `hardstand compare` compares them."""
    from hardstand.views.history import options_page

    must_hold_aeroplane(folder)
    forms = options_form(folder)
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
