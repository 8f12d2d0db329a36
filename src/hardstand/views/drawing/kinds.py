"""The closed sets a drawing is made of: lines by their meaning, lettering by its use, two media.

A line is named for what it means (ISO 128-2), never for how it looks; `css` is its class in
`data/look/tokens.css`, where weight, dash and colour stand.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

Line = Literal[
    "cut", "outline", "thin", "hidden", "centre", "phantom", "plug", "hatch", "rule",
    "item", "neighbour", "solid", "paper", "selected", "accent", "accent-thin", "accent-solid",
]  # fmt: skip
LINES: Mapping[Line, str] = {
    "cut": "cut",  # border, limit, ends of a section plane
    "outline": "ol",  # visible edge
    "thin": "th",  # dimension, leader, neighbouring edge
    "hidden": "hid",  # edge behind something
    "centre": "cl",  # axis, station
    "phantom": "ph",  # other position of a moving part; what lies before the plane of the drawing
    "plug": "plug",  # room that a plug needs
    "hatch": "hl",  # cut or forbidden ground
    "rule": "hl",  # table, grid
    "item": "box",  # visible edge with the paper behind it
    "neighbour": "boxt",  # the same, thin
    "solid": "solid",  # filled with ink
    "paper": "pap",  # filled with paper
    "selected": "sel",
    "accent": "ac",
    "accent-thin": "act",
    "accent-solid": "acf",
}

Use = Literal["name", "dimension", "micro", "tick", "caption", "head", "title", "value", "key",
              "note", "number", "reversed", "measured", "plane"]  # fmt: skip
Face = Literal["lettering", "lettering-narrow", "notes"]


@dataclass(frozen=True, slots=True)
class Lettering:
    """One use of lettering: its face, height (font size) in design pixels on screen and on paper.

    `spacing_em` is what the style sheet adds after each letter; `css` the class.
    """

    face: Face
    screen: float
    paper: float
    spacing_em: float
    css: str


LETTERING: Mapping[Use, Lettering] = {
    "name": Lettering("lettering-narrow", 12.0, 14.0, 0.01, "t-nam"),
    "dimension": Lettering("lettering", 12.0, 14.0, 0.01, "t-dim"),
    "micro": Lettering("lettering-narrow", 11.0, 14.0, 0.03, "t-mic"),
    "tick": Lettering("lettering", 11.0, 10.0, 0.01, "t-dim"),
    "caption": Lettering("lettering", 11.0, 14.0, 0.06, "t-cap"),
    "head": Lettering("lettering", 20.0, 19.5, 0.01, "t-dim"),
    "title": Lettering("lettering", 30.0, 27.0, 0.01, "t-dim"),
    "value": Lettering("lettering", 17.0, 17.5, 0.01, "t-dim"),
    "key": Lettering("lettering", 10.5, 10.0, 0.05, "t-key"),
    "note": Lettering("notes", 13.0, 14.0, 0.0, "t-not"),
    "number": Lettering("lettering", 12.0, 12.0, 0.0, "t-num"),
    "reversed": Lettering("lettering", 12.0, 12.0, 0.0, "t-rev"),
    "measured": Lettering("lettering", 13.0, 14.0, 0.01, "t-ac"),
    "plane": Lettering("lettering", 16.0, 17.5, 0.01, "t-dim"),
}


@dataclass(frozen=True, slots=True)
class Medium:
    """Where a drawing stands. `unit` is the length of one design pixel in units of the sheet.

    On screen the sheet counts in pixels, on paper in millimetres; a design pixel is 0.25 mm there.
    """

    name: Literal["screen", "paper"]
    unit: float

    def height(self, use: Use) -> float:
        """Font size of a use of lettering, in units of the sheet.

        >>> SCREEN.height("name"), PAPER.height("name")
        (12.0, 3.5)
        """
        lettering = LETTERING[use]
        return (lettering.paper if self.name == "paper" else lettering.screen) * self.unit


SCREEN = Medium("screen", 1.0)
PAPER = Medium("paper", 0.25)
