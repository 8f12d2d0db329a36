"""A drawing as SVG text: for a page that has the style sheets, or to stand alone with its lettering."""

from __future__ import annotations

import base64
import re
from functools import cache
from importlib.resources import files
from typing import Literal
from xml.etree import ElementTree as ET

from hardstand.views.drawing.svg import Sheet, element

Ink = Literal["light", "dark"]
_FONT = re.compile(r"url\(fonts/([a-z-]+\.woff2)\)")


@cache
def style_sheet() -> str:
    """The tokens and the drawing's own rules, with the lettering inside."""
    look = files("hardstand") / "data" / "look"
    text = "".join((look / name).read_text(encoding="utf-8") for name in ("tokens.css", "drawing.css"))

    def within(match: re.Match[str]) -> str:
        font = base64.b64encode((look / "fonts" / match[1]).read_bytes()).decode("ascii")
        return f"url(data:font/woff2;base64,{font})"

    return _FONT.sub(within, text)


def svg_text(sheet: Sheet, prefix: str, *, alone: bool = True, ink: Ink | None = None) -> str:
    """A sheet as SVG text. `alone` puts the style sheet and the lettering inside.

    Without it the text is for a page that already has `tokens.css` and `drawing.css`. `ink` says
    whether the paper is light or dark; without it that is left to whoever shows the drawing.
    """
    root = element(sheet, prefix)
    if ink is not None:
        root.set("data-paper", ink)
    if alone:
        style = ET.Element("style")
        style.text = style_sheet()
        root.insert(2, style)
    return ET.tostring(root, encoding="unicode", short_empty_elements=True) + "\n"
