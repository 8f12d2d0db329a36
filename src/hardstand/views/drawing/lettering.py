"""How wide a text is, from the vendored lettering's own advance widths."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from hardstand.views.drawing.kinds import LETTERING, Medium, Use

CAPITAL = 0.72  # capital height by font size, all three faces
DESCENT = 0.24  # what hangs below the line, the longest of the three


@cache
def _widths() -> Mapping[str, Mapping[str, int]]:
    text = (files("hardstand") / "data" / "look" / "widths.json").read_text(encoding="utf-8")
    found: dict[str, dict[str, int]] = json.loads(text)
    return found


def width(text: str, use: Use, medium: Medium) -> float:
    """Width of a text in units of the sheet; a letter that the face lacks counts as its widest.

    >>> from hardstand.views.drawing.kinds import PAPER, SCREEN
    >>> width("", "name", SCREEN)
    0.0
    >>> round(width("Gyro", "name", PAPER) / width("Gyro", "name", SCREEN), 4)  # 3.5 mm to 12 px
    0.2917
    """
    lettering = LETTERING[use]
    table = _widths()[lettering.face]
    size = medium.height(use)
    widest = max(table.values())
    advance = sum(table.get(letter, widest) for letter in text) / 1000.0
    return (advance + len(text) * lettering.spacing_em) * size


def wrapped(text: str, use: Use, medium: Medium, measure: float) -> list[str]:
    """A text in lines no wider than `measure`, broken between words; a longer word stands alone.

    >>> from hardstand.views.drawing.kinds import SCREEN
    >>> wrapped("one two three", "name", SCREEN, 40.0)
    ['one two', 'three']
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, use, medium) <= measure:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def shortened(text: str, use: Use, medium: Medium, measure: float) -> str:
    """A text cut to a measure, with an ellipsis made of points where something was left out.

    >>> from hardstand.views.drawing.kinds import SCREEN
    >>> shortened("Telemetry hub", "name", SCREEN, 50.0)
    'Telemetr...'
    """
    if width(text, use, medium) <= measure:
        return text
    kept = text
    while kept and width(f"{kept}...", use, medium) > measure:
        kept = kept[:-1]
    return f"{kept.rstrip()}..."
