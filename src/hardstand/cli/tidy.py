"""`hardstand fmt`: the files tidied, white space only."""

from __future__ import annotations

from pathlib import Path

import click

from hardstand.cli.folders import open_at
from hardstand.cli.refusal import NO_GO, UNREADABLE, Refusal
from hardstand.cli.shared import as_json, folder
from hardstand.cli.sheet import Command
from hardstand.cli.talk import Talk


@click.command("fmt", cls=Command, section="Change", short_help="tidy the files, white space only")
@folder
@click.option("--check", "only_check", is_flag=True, help="write nothing; exit status 1 if untidy")
@as_json
@click.pass_obj
def fmt(talk: Talk, folder: Path, only_check: bool) -> int:
    """Tidy the description's files: one space round `=`, a blank line before each table.

    Comments, order, numbers and the layout of lists stay as you wrote them.
    """
    from hardstand.cli.tidied import NotTidiedError, tidied
    from hardstand.description.revisions import record
    from hardstand.views.trouble import trouble_page

    place = open_at(folder)
    texts = place.texts()
    untidy: dict[str, str] = {}
    for name, text in texts.items():
        try:
            new = tidied(text)
        except NotTidiedError as error:
            raise Refusal(f"{name}: {error}.", "`hardstand check` says more.", UNREADABLE) from None
        if new != text:
            untidy[name] = new
    if untidy and not only_check:
        record(place)  # the text as it is stays in the history
        place.write(untidy)
        record(place, "tidied")
    if talk.as_json:
        talk.data({"format": 1, "untidy": sorted(untidy), "written": bool(untidy) and not only_check})
    else:
        done = "untidy" if only_check else "tidied"
        said = f"{', '.join(sorted(untidy))}: {done}." if untidy else "All files are tidy."
        talk.page(trouble_page(said, "", talk.measure))
    return NO_GO if untidy and only_check else 0
