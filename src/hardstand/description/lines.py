"""Line numbers, found in the text only when there is an error to report."""

from __future__ import annotations

import re
from bisect import bisect_right
from functools import lru_cache
from itertools import accumulate

from hardstand.description.scan import Path, scan
from hardstand.description.slip_rules import RULES
from hardstand.description.syntax_stop import Stop, SyntaxSlip

_POSITION = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")


def locate(text: str, path: tuple[str | int, ...]) -> int:
    r"""The line (from 1) of a key path such as `("item", 3, "at_mm")` in a text that parses.

    A number is the row within an array of tables, or the element within an array. Where the key is
    missing it is the line of the nearest thing above it that is there, and 1 where nothing is.

    >>> locate('format = 1\n\n[cg_mark]\nname = "x"', ("cg_mark", "name"))
    4
    >>> locate('format = 1\n\n[cg_mark]\nname = "x"', ("cg_mark", "at_mm", 0))
    3
    """
    places = _places(text)
    while path and path not in places:
        path = path[:-1]
    return bisect_right(_line_starts(text), places[path]) if path else 1


@lru_cache(maxsize=8)
def _places(text: str) -> dict[Path, int]:
    """Path → offset of its first mention, with the tables that are only mentioned on the way."""
    places: dict[Path, int] = {}
    for node in scan(text):
        for length in range(1, len(node.path) + 1):
            places.setdefault(node.path[:length], node.start)
    return places


@lru_cache(maxsize=8)
def _line_starts(text: str) -> list[int]:
    lengths = (len(line) + 1 for line in text.split("\n"))
    return [0, *accumulate(lengths)][:-1]


def syntax_error(text: str, error: Exception) -> SyntaxSlip:
    """What is wrong with a text that the standard parser refused with `error`.

    Always gives a line that exists. The hint is a guess at the slip, in plain words.

    >>> text = 'name = "Tarnwing'
    >>> import tomllib
    >>> try: tomllib.loads(text)
    ... except tomllib.TOMLDecodeError as error: print(syntax_error(text, error).what)
    a text has no closing quote
    """
    if isinstance(error, RecursionError):
        return SyntaxSlip(1, 1, "brackets are nested too deeply", "", "a few levels at most")
    position = _POSITION.search(str(error))
    lines = text.split("\n")
    if position is not None and position[1]:
        line, column = int(position[1]), int(position[2])
    else:
        line = next((i for i in range(len(lines), 1, -1) if lines[i - 1].strip()), 1)
        column = len(lines[line - 1]) + 1
    line = max(1, min(line, len(lines)))
    stop = Stop(_POSITION.sub("", str(error)), text, line, column)
    found = (slip for rule in RULES if (slip := rule(stop)) is not None)
    return next(found, stop.slip(f"this line is not understood ({stop.message.lower()})"))
