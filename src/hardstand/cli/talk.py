"""What a command says and where: data to standard output, talk to standard error.

A `Talk` knows how wide the terminal is, whether it shows colour and which signs it can print, so
that no command has to.
"""

from __future__ import annotations

import json
import math
import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TextIO

from hardstand.views.ink import Line
from hardstand.views.paint import paint

_NARROWEST, _WIDEST, _COMFORTABLE = 40, 200, 102


def colour_wanted(stream: TextIO, environ: Mapping[str, str]) -> bool:
    """Whether to send escape sequences: only to a terminal, and not where NO_COLOR is set.

    >>> import io
    >>> colour_wanted(io.StringIO(), {})
    False
    """
    if environ.get("NO_COLOR") or environ.get("TERM") == "dumb":
        return False
    return _is_terminal(stream)


def _is_terminal(stream: TextIO) -> bool:
    try:
        return stream.isatty()
    except (ValueError, AttributeError):  # closed, or not a whole stream
        return False


def terminal_width(stream: TextIO, environ: Mapping[str, str]) -> int:
    """Cells of a line: COLUMNS where set, else the terminal's, else 80; between 40 and 200.

    >>> import io
    >>> terminal_width(io.StringIO(), {}), terminal_width(io.StringIO(), {"COLUMNS": "1000"})
    (80, 200)
    """
    wished = environ.get("COLUMNS", "")
    columns = int(wished) if wished.isascii() and wished.isdigit() and len(wished) < 6 else 0
    if not columns and _is_terminal(stream):
        try:
            columns = os.get_terminal_size(stream.fileno()).columns
        except (OSError, ValueError):
            columns = 0
    return min(max(columns or 80, _NARROWEST), _WIDEST)


class ReaderGoneError(Exception):
    """Whoever read the output has gone away; it is no failure of anything."""


@dataclass
class Talk:
    """The two streams of a run and how they are to be written on."""

    out: TextIO
    err: TextIO
    colour_out: bool
    colour_err: bool
    width: int
    as_json: bool = False

    @property
    def measure(self) -> int:
        """Cells of a line of text: a comfortable measure, however wide the terminal is."""
        return min(self.width, _COMFORTABLE) - 2

    @property
    def wide(self) -> int:
        """Cells of a table, which may use the whole terminal."""
        return self.width - 2

    def page(self, lines: Iterable[Line]) -> None:
        """Print what was asked for."""
        self._write(self.out, paint(lines, colour=self.colour_out, encoding=_encoding(self.out)),
                    colour=self.colour_out)

    def say(self, lines: Iterable[Line]) -> None:
        """Print talk: what went wrong, what to do next."""
        self._write(self.err, paint(lines, colour=self.colour_err, encoding=_encoding(self.err)),
                    colour=self.colour_err)

    def data(self, form: Mapping[str, Any]) -> None:
        """Print a JSON object, readable by people too; a number that is none is null."""
        plain_only = _encoding(self.out).lower().replace("-", "") != "utf8"
        text = json.dumps(_finite(form), ensure_ascii=plain_only, indent=2, allow_nan=False)
        self._write(self.out, text + "\n", colour=True)

    def text(self, text: str) -> None:
        """Print a text as it is, for another program or a file."""
        self._write(self.out, text, colour=True)

    @property
    def is_asked_by_person(self) -> bool:
        """Whether someone sits at the terminal who can answer a question."""
        import sys

        return _is_terminal(self.err) and _is_terminal(self.out) and _is_terminal(sys.stdin)

    def _write(self, stream: TextIO, text: str, *, colour: bool) -> None:
        import click

        try:
            click.echo(text, file=stream, nl=False, color=colour)
        except BrokenPipeError:
            raise ReaderGoneError from None


def talk_on(out: TextIO, err: TextIO, environ: Mapping[str, str]) -> Talk:
    """A talk on two streams, as the environment wishes it."""
    return Talk(out, err, colour_wanted(out, environ), colour_wanted(err, environ),
                terminal_width(out, environ))


def _encoding(stream: TextIO) -> str:
    return getattr(stream, "encoding", None) or "utf-8"


def _finite(value: Any) -> Any:
    """The same data with every number that JSON cannot hold as None."""
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, Mapping):
        return {str(key): _finite(one) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [_finite(one) for one in value]
    return value
