"""Ink on paper for the terminal: lines of spans, each with a weight of ink.

A view returns lines; only `paint` turns them into characters for one terminal. So a view can be
tested as plain text, and the same lines serve a coloured screen, a monochrome one and a pipe.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from typing import Literal

Ink = Literal["plain", "strong", "quiet", "reversed", "accent"]
Span = tuple[str, Ink]
Line = tuple[Span, ...]

BLANK: Line = ()


def line(*parts: str | Span) -> Line:
    """A line from pieces; bare text is in plain ink.

    >>> line("CG ", ("250 mm", "strong"))
    (('CG ', 'plain'), ('250 mm', 'strong'))
    """
    return tuple((part, "plain") if isinstance(part, str) else part for part in parts if part)


def text_of(one: Iterable[Span]) -> str:
    """The characters of a line without its ink.

    >>> text_of(line("CG ", ("250 mm", "strong")))
    'CG 250 mm'
    """
    return "".join(text for text, _ in one)


def width_of(text: str) -> int:
    """How many terminal cells a text takes: wide East Asian signs two, combining marks none.

    >>> width_of("250 ± 4"), width_of("機体")
    (7, 4)
    """
    if text.isascii():
        return len(text)
    return sum(_cells(sign) for sign in text)


def _cells(sign: str) -> int:
    if unicodedata.combining(sign):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def printable(text: str) -> str:
    r"""A text from a file with its control signs made visible, so that it cannot steer a terminal.

    >>> printable("a\x1b[31mb\tc")
    'a␛[31mb c'
    """
    if text.isprintable():
        return text
    return "".join(_visible(sign) for sign in text)


def _visible(sign: str) -> str:
    if sign.isprintable():
        return sign
    if sign.isspace():
        return " "
    return chr(0x2400 + ord(sign)) if ord(sign) < 0x20 else "�"


def indented(lines: Iterable[Line], cells: int) -> list[Line]:
    """Lines moved right by a number of cells; empty ones stay empty.

    >>> text_of(indented([line("a")], 2)[0])
    '  a'
    """
    margin: Span = (" " * cells, "plain")
    return [(margin, *one) if one else one for one in lines]
