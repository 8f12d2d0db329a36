"""`hardstand schema`: the description's form, for editors."""

from __future__ import annotations

import click

from hardstand.cli.sheet import Argument, Command
from hardstand.cli.talk import Talk

FILES = ("aeroplane", "parts", "measurements")


@click.command(cls=Command, section="Look up",
               short_help="print what the files may hold, for an editor")
@click.argument("file", cls=Argument, type=click.Choice(FILES), default="aeroplane", metavar="FILE",
                help="aeroplane, parts or measurements; aeroplane if left out")
@click.pass_obj
def schema(talk: Talk, file: str) -> int:
    """Print the JSON Schema of one of the description's files.

    An editor that knows it completes the fields and marks slips while you write. Save it beside
    the folder and put `#:schema PATH` on the file's first line.
    """
    from hardstand.views.schema import schema_of

    talk.data(schema_of(file))
    return 0
