"""Where every key and value of a TOML text stands: paths with their spans in the text.

The standard parser gives the data and forgets the text. This reader does the reverse: it assumes a
text that the parser accepts (on another it stops at the place it can't follow) and notes spans, so
that an error can name its line and an edit can replace exactly one value.
"""

from __future__ import annotations

import contextlib
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

Path = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_KEY_PART = re.compile(r"""[A-Za-z0-9_-]+|"(?:\\.|[^"\\\n])*"|'[^'\n]*'""")
_DOT = re.compile(r"[ \t]*\.[ \t]*")
_EQUALS = re.compile(r"[ \t]*=[ \t]*")
_STRING = re.compile(
    r'"""(?:\\.|[^\\])*?"""(?:"{0,2})'
    r"|'''.*?'''(?:'{0,2})"
    r'|"(?:\\.|[^"\\\n])*"'
    r"|'[^'\n]*'",
    re.DOTALL,
)
_SCALAR = re.compile(r"[^\s,\[\]{}#]+(?: \d\d:[^\s,\[\]{}#]+)?")  # a date may hold a space


@dataclass(frozen=True, slots=True)
class Node:
    """One header, key with value, or element of an array: `text[start:end]`.

    A pair's value alone is `text[value:end]`. `inline` is set for what stands inside braces.
    """

    kind: Literal["table", "pair", "element"]
    path: Path
    start: int
    value: int
    end: int
    inline: bool = False


class _Scanner:
    """One pass over a text; `nodes` grows until the end or the first place it can't follow."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.nodes: list[Node] = []
        self.rows: dict[Path, int] = {}  # array of tables → rows so far
        self.brackets: list[int] = []  # where the brackets that are open now were opened

    def run(self) -> None:
        table: Path = ()
        while True:
            self._skip(_BLANK)
            if self.at >= len(self.text):
                return
            if self.text[self.at] == "[":
                table = self._header()
            else:
                self._pair(table, inline=False)

    def _skip(self, pattern: re.Pattern[str]) -> str:
        match = pattern.match(self.text, self.at)
        if match is None:
            raise _LostError
        self.at = match.end()
        return match[0]

    def _key(self) -> tuple[str, ...]:
        parts = []
        while True:
            raw = self._skip(_KEY_PART)
            parts.append(_unquoted(raw))
            if not _DOT.match(self.text, self.at):
                return tuple(parts)
            self._skip(_DOT)

    def _header(self) -> Path:
        start = self.at
        is_row = self.text.startswith("[[", start)
        self.at += 2 if is_row else 1
        self._skip(_BLANK)
        key = self._key()
        self._skip(_BLANK)
        closing = "]]" if is_row else "]"
        if not self.text.startswith(closing, self.at):
            raise _LostError
        self.at += len(closing)
        path: Path = ()
        for part in key[:-1]:
            path = (*path, part)
            path = (*path, self.rows[path] - 1) if path in self.rows else path
        path = (*path, key[-1])
        if is_row:
            self.rows[path] = self.rows.get(path, 0) + 1
        if path in self.rows:
            path = (*path, self.rows[path] - 1)
        self.nodes.append(Node("table", path, start, self.at, self.at))
        return path

    def _pair(self, table: Path, *, inline: bool) -> None:
        start = self.at
        path = (*table, *self._key())
        self._skip(_EQUALS)
        place, value = len(self.nodes), self.at
        self._value(path)
        self.nodes.insert(place, Node("pair", path, start, value, self.at, inline))

    def _value(self, path: Path) -> None:
        first = self.text[self.at : self.at + 1]
        if first == "[":
            self._sequence("]", path)
        elif first == "{":
            self._sequence("}", path)
        else:
            self._skip(_STRING if first in {'"', "'"} else _SCALAR)

    def _sequence(self, closing: str, path: Path) -> None:
        self.brackets.append(self.at)
        self.at += 1
        count = 0
        while True:
            self._skip(_BLANK)
            if self.text.startswith(closing, self.at):
                self.at += 1
                self.brackets.pop()
                return
            if closing == "}":
                self._pair(path, inline=True)
            else:
                place, start = len(self.nodes), self.at
                self._value((*path, count))
                node = Node("element", (*path, count), start, start, self.at)
                self.nodes.insert(place, node)
            count += 1
            self._skip(_BLANK)
            if self.text.startswith(",", self.at):
                self.at += 1
            elif not self.text.startswith(closing, self.at):
                raise _LostError


class _LostError(Exception):
    """The text can't be followed from here; what was noted before still holds."""


def _unquoted(raw: str) -> str:
    if raw[0] not in "\"'":
        return raw
    try:
        return str(tomllib.loads(f"key = {raw}")["key"])
    except tomllib.TOMLDecodeError:
        raise _LostError from None


@lru_cache(maxsize=8)
def scan(text: str) -> tuple[Node, ...]:
    r"""Every header, pair and array element, in the order of the text; a pair before what it holds.

    Rows of an array of tables and elements of an array have their number in the path. Stops without
    complaint where the text can't be followed.

    >>> [(node.path, node.start) for node in scan("[[item]]\nat_mm = [2, 3]")]
    [(('item', 0), 0), (('item', 0, 'at_mm'), 9),
     (('item', 0, 'at_mm', 0), 18), (('item', 0, 'at_mm', 1), 21)]
    """
    return tuple(_scanned(text).nodes)


def open_bracket(text: str) -> int | None:
    r"""Where the innermost bracket that is never closed was opened, in a text that does not parse.

    >>> open_bracket("at_mm = [2, 3\nturn_deg = 90")
    8
    """
    brackets = _scanned(text).brackets
    return brackets[-1] if brackets else None


def _scanned(text: str) -> _Scanner:
    scanner = _Scanner(text)
    with contextlib.suppress(_LostError, RecursionError):
        scanner.run()
    return scanner


def row_paths(nodes: tuple[Node, ...], kind: str) -> Iterator[Path]:
    """The paths of the rows of one kind, whichever way they are written."""
    for node in nodes:
        if len(node.path) == 2 and node.path[0] == kind and isinstance(node.path[1], int):
            yield node.path
