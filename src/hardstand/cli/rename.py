"""`hardstand rename`: another id for a row, wherever it is named."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import click

from hardstand.cli.folders import must_hold_aeroplane
from hardstand.cli.making import look_option, make
from hardstand.cli.refusal import Refusal
from hardstand.cli.shared import as_json, folder
from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk


@click.command(cls=Command, section="Change", short_help="give a row another id, wherever it is named")
@click.argument("row", cls=Argument, metavar="KIND.ID", help="which row, such as item.rx-left")
@click.argument("new", cls=Argument, metavar="NEW-ID", help="its new id, such as receiver-left")
@folder
@look_option
@as_json
@click.pass_obj
def rename(talk: Talk, row: str, new: str, folder: Path, look: bool) -> int:
    """Give a row another id in every place that names it, options and measurements included.

    The former id is kept as an [[alias]] in aeroplane.toml: what was measured or signed under it
    still belongs to the row, and no other row can take it. Names, notes and comments stay as they
    are.
    """
    from hardstand.description.new_ids import RenameError
    from hardstand.description.renaming import rename as renamed
    from hardstand.description.rewording import path_in_words
    from hardstand.views.renaming import renamed_page
    from hardstand.workspace import open_folder

    must_hold_aeroplane(folder)
    kind, point, old = row.partition(".")
    if not point:
        raise Refusal(f"{row} is not the name of a row.", "Write KIND.ID, such as item.rx-left.")
    workspace = open_folder(folder)
    try:
        found = renamed(workspace.base, kind, old, new)
    except RenameError as error:
        raise Refusal(str(error), error.hint) from None
    places = [{"where": path_in_words(one.table, one.row, one.path), "file": one.file, "line": one.line}
              for one in found.places]  # fmt: skip
    return make(talk, workspace, found.changes, f"rename {row} to {new}", look=look,
                page=renamed_page(row, new, places, talk.measure), also={"places": places},
                seen=lambda form: under_new_id(form, old, new))


def under_new_id(form: dict[str, Any], old: str, new: str) -> dict[str, Any]:
    """An assessment's form with its findings about and saying the new id, to compare with the next.

    >>> form = {"findings": [{"about": ["rx"], "text": "Item rx touches rx-left."}]}
    >>> under_new_id(form, "rx", "a")["findings"]
    [{'about': ['a'], 'text': 'Item a touches rx-left.'}]
    """
    word = re.compile(rf"(?<![\w-]){re.escape(old)}(?![\w-])")
    findings = [{**one, "about": [new if about == old else about for about in one["about"]],
                 "text": word.sub(new, one["text"])} for one in form["findings"]]  # fmt: skip
    return {**form, "findings": findings}
