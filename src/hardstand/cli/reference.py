"""The page docs/commands.md, made from the commands' own help.

`python -m hardstand.cli.reference` prints it; a test holds the page to it.
"""

from __future__ import annotations

import io
import sys

from hardstand.cli.help_page import command_help, program_help
from hardstand.cli.program import program
from hardstand.views.paint import paint

_MEASURE = 78
_HEAD = """\
# The commands

This page is made from the program's own help by `python -m hardstand.cli.reference`; a test holds it
to that. What `--json` prints is in [json.md](json.md).

Data goes to standard output and talk to standard error, so that either can be sent elsewhere. In a
pipe the text is plain. `NO_COLOR` is honoured, `COLUMNS` sets the width, and `HARDSTAND_DEBUG=1`
prints the trace behind a failure of the program itself.

| exit status | means |
| --- | --- |
| 0 | done; `check` and `demo`: no no-go was found |
| 1 | `check` and `demo`: a no-go stands that is not accepted; `fmt --check`: untidy |
| 2 | it could not be read or written; every reason is printed |
| 3 | wrong usage |
| 130, 141 | stopped from the keyboard; the reader of the output went away |
"""


def reference() -> str:
    """The text of docs/commands.md.

    >>> reference().startswith("# The commands")
    True
    """
    page = io.StringIO()
    page.write(f"{_HEAD}\n```\n{paint(program_help(program, _MEASURE), colour=False)}```\n")
    for name, command in program.commands.items():
        text = paint(command_help(command, f"hardstand {name}", _MEASURE), colour=False)
        page.write(f"\n## {name}\n\n```\n{text}```\n")
    return page.getvalue()


if __name__ == "__main__":
    sys.stdout.write(reference())
