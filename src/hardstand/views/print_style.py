"""The style sheets of the look in the form that a typesetter reads.

Browsers resolve `var(--ink)` and `:root` themselves. What turns SVG into PDF knows plain CSS only:
this writes the same rules with the values that paper has, and leaves out what is for screens.
"""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files

_COMMENT = re.compile(r"/\*.*?\*/", re.DOTALL)
_RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")
_NESTED = re.compile(r"@[a-z-]+[^{};]*\{(?:[^{}]*\{[^{}]*\})*[^{}]*\}")
_VARIABLE = re.compile(r"(--[a-z0-9-]+)\s*:\s*([^;}]+)")
_USED = re.compile(r"var\((--[a-z0-9-]+)\)")
_PAPER, _FINE = "svg.drawing.on-paper", "svg.drawing.on-paper.fine"
# A typesetter takes "Narrow" at the end of a name for a width and gives the other lettering instead.
_NARROW, NARROW_IN_PRINT = "Lettering Narrow", "Narrow Lettering"
# None of these is known to the reader: figures of the printed notes are tabular, and 84 % wide, by themselves.
_UNKNOWN = re.compile(r"(?:font-feature-settings|font-stretch|cursor|background)\s*:[^;]*;?")


@cache
def print_style(*, fine: bool = False) -> str:
    """Every rule of the style sheets that can touch a printed sheet, with its values put in.

    `fine`: with the thinner outline of views of a whole aeroplane. Rules keep their order, so the
    later one wins where both fit, as in a browser.

    >>> "stroke-width: .7px" in print_style(), "var(" in print_style()
    (True, False)
    """
    look = files("hardstand") / "data" / "look"
    text = "".join((look / name).read_text(encoding="utf-8")
                   for name in ("tokens.css", "drawing.css"))
    rules = [(selector.strip(), body)
             for selector, body in _RULE.findall(_NESTED.sub("", _COMMENT.sub("", text)))]
    values: dict[str, str] = {}
    for wanted in (":root", _PAPER) + ((_FINE,) if fine else ()):
        for selector, body in rules:
            if selector == wanted:
                values |= dict(_VARIABLE.findall(body))
    kept = []
    for selector, body in rules:
        plain = _UNKNOWN.sub("", _VARIABLE.sub("", body)).strip(" ;\n")
        if plain and ":" not in selector and not selector.startswith("@"):
            kept.append(f"{selector} {{ {_filled(plain, values)} }}")
    return "\n".join(kept) + "\n"


def _filled(text: str, values: dict[str, str]) -> str:
    """A rule's text with the variables' values in place; a value may name another variable."""
    while _USED.search(text):
        text = _USED.sub(lambda match: values[match[1]].strip(), text)
    return text.replace(_NARROW, NARROW_IN_PRINT)
