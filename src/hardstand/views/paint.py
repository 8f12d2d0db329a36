"""Lines of ink as characters for one output: with escape sequences, plain, or in narrow encodings.

Only weight, reversal and one accent are used, on the terminal's own colours, so that a light and a
dark background read alike. The accent is the terminal's red and marks only what is selected or
being measured; no meaning rests on it alone.
"""

from __future__ import annotations

from collections.abc import Iterable

from hardstand.views.ink import Ink, Line, Span

_ESCAPES: dict[Ink, str] = {
    "plain": "", "strong": "1", "quiet": "2", "reversed": "1;7", "accent": "1;31",
}
# What to print where an encoding lacks a sign. Nothing here loses the meaning of a finding.
_NARROW = str.maketrans({
    "−": "-", "±": "+/-", "×": "x", "·": ".", "°": " deg", "µ": "u", "Ω": "ohm", "²": "2", "³": "3",
    "→": "->", "←": "<-", "↔": "<>", "■": "#", "▲": "^", "○": "o", "◌": ".", "✓": "v", "◐": "~",
    "━": "=", "─": "-", "│": "|", "├": "|", "└": "`", "…": "...", "–": "-", "—": "-", "’": "'",
    "‘": "'", "“": '"', "”": '"', "∞": "inf", "≤": "<=", "≥": ">=", "▪": "*", "▏": "|", "█": "#",
})  # fmt: skip


def paint(lines: Iterable[Line], *, colour: bool, encoding: str = "utf-8") -> str:
    r"""All lines as one text, each with its line end.

    `colour` asks for escape sequences; without it only the characters remain. A sign that
    `encoding` cannot hold is replaced by a plain one.

    >>> paint([(("no-go", "reversed"), (" fit", "plain"))], colour=True)
    '\x1b[1;7mno-go\x1b[0m fit\n'
    >>> paint([(("−6.2 mm", "plain"),)], colour=False, encoding="ascii")
    '-6.2 mm\n'
    """
    text = "".join(_painted(one, colour) + "\n" for one in lines)
    return narrowed(text, encoding)


def narrowed(text: str, encoding: str) -> str:
    """The text as it can be written in an encoding, with plain signs for those it lacks."""
    try:
        text.encode(encoding)
    except UnicodeEncodeError:
        plain = text.translate(_NARROW)
        return plain.encode(encoding, "replace").decode(encoding)
    except LookupError:
        return text.translate(_NARROW)
    return text


def _painted(one: Line, colour: bool) -> str:
    if not colour:
        return "".join(text for text, _ in one).rstrip()
    return "".join(_span(span) for span in one)


def _span(span: Span) -> str:
    text, ink = span
    escape = _ESCAPES[ink]
    return f"\x1b[{escape}m{text}\x1b[0m" if escape else text
