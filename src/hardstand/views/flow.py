"""Sentences flowed into a measure, with a hanging indent, keeping the ink of each word."""

from __future__ import annotations

import re

from hardstand.views.ink import Ink, Line, Span, line, printable, width_of

# A number stays with its unit, its ± and its sign: "250 ± 4 mm" is never torn at the line's end.
_UNITS = "mm|g|kg|kPa|N|V|A|mAh|ml|oz|lb|in|°C|m/s|s"
_GLUE = re.compile(rf"(?<=\d) (?=±)|(?<=±) (?=\d)|(?<=\d) (?=(?:{_UNITS})\b|%)")
_FIXED = "\u00a0"


def flow(content: str | Line, measure: int, hang: int = 0, ink: Ink = "plain") -> list[Line]:
    """Break a sentence at spaces so that no line is wider than `measure` cells.

    Lines after the first begin `hang` cells further right. A single word that is wider than the
    measure is cut, so that a line never runs out of the page.

    >>> [text for one in flow("a box touches the next one", 12, hang=2) for text, _ in one]
    ['a box', '  ', 'touches', '  ', 'the next', '  ', 'one']
    """
    spans = line((content, ink)) if isinstance(content, str) else content
    words = [piece for span in spans for piece in _words(span)]
    lines: list[Line] = []
    row: list[Span] = []
    used = 0
    for text, word_ink in words:
        for part in _cut(text, measure - hang):
            room = measure - (hang if lines else 0)
            size = width_of(part)
            if row and used + size > room and part != " ":
                lines.append(_closed(row, hang if lines else 0))
                row, used = [], 0
            if part == " " and not row:
                continue
            row.append((part, word_ink))
            used += size
    if row:
        lines.append(_closed(row, hang if lines else 0))
    return lines


def _words(span: Span) -> list[Span]:
    text, ink = span
    glued = _GLUE.sub(_FIXED, printable(text))
    return [(piece, ink) for piece in re.split(r"( )", glued) if piece]


def _cut(word: str, room: int) -> list[str]:
    """A word in pieces that fit; after a full stop, a slash, an @ or a hyphen where there is one."""
    pieces = []
    while width_of(word) > room:
        end = room
        while width_of(word[:end]) > room:  # wide signs take two cells
            end -= 1
        joint = max(word.rfind(sign, 1, end) for sign in "./@-") + 1
        end = joint if joint > 1 else max(end, 1)
        pieces.append(word[:end])
        word = word[end:]
    return [*pieces, word]


def _closed(row: list[Span], hang: int) -> Line:
    """A row as a line: trailing spaces dropped, neighbours of one ink joined."""
    while row and row[-1][0] == " ":
        row.pop()
    joined: list[Span] = [(" " * hang, "plain")] if hang else []
    kept = len(joined)
    for glued, ink in row:
        text = glued.replace(_FIXED, " ")
        if len(joined) > kept and joined[-1][1] == ink:
            joined[-1] = (joined[-1][0] + text, ink)
        else:
            joined.append((text, ink))
    return tuple(joined)
