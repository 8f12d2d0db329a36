"""A value as TOML text, in the style of what stood there before."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from datetime import date, datetime, time
from decimal import Decimal
from numbers import Integral, Real
from typing import Any

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_NUMBER = re.compile(r"(?<![\w.\"'])[+-]?\d[\d_]*(?:\.(\d+))?(?![\w.:])")


class NotWritableError(ValueError):
    """A change can't be written as text without touching something else, or not at all."""


def plain(value: Any) -> Any:
    """The value in the types that the standard parser gives: tuples become lists, and so on.

    >>> plain((1, 2.5))
    [1, 2.5]
    """
    if isinstance(value, bool | str | date | datetime | time) or value is None:
        return value
    if isinstance(value, Integral):
        return int(value)
    if isinstance(value, Real):
        return float(value)
    if isinstance(value, Mapping):
        return {str(key): plain(one) for key, one in value.items() if one is not None}
    if isinstance(value, list | tuple):
        return [plain(one) for one in value]
    raise NotWritableError(f"a {type(value).__name__} can't be written in the file")


def render(value: Any, style: str = "") -> str:
    """A value as TOML, on one line unless `style` is a text over several lines.

    `style` is the text of a value that this one should look like: whole numbers stay whole where
    they can, numbers with decimals keep at least as many, and texts keep their kind of quotes.
    Never loses precision. Raises NotWritableError for what TOML or the format can't hold.

    >>> render(265.0, "260"), render(13, "12.50"), render([265.0, -34.5], "[260, -34]")
    ('265', '13.00', '[265, -34.5]')
    >>> render("it", "'as'"), render(True)
    ("'it'", 'true')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return _number(value, style, whole=isinstance(value, int))
    if isinstance(value, str):
        return _text(value, style)
    if isinstance(value, list):
        return f"[{', '.join(render(one, style) for one in value)}]"
    if isinstance(value, Mapping):
        pairs = ", ".join(f"{render_key(key)} = {render(one)}" for key, one in value.items())
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, date | datetime | time):
        return value.isoformat()
    raise NotWritableError(f"a {type(value).__name__} can't be written in the file")


def render_key(key: str) -> str:
    """A key, in quotes only where it needs them.

    >>> render_key("at_mm"), render_key("a b")
    ('at_mm', '"a b"')
    """
    return key if _BARE_KEY.fullmatch(key) else _text(key, "")


def _number(value: float, style: str, *, whole: bool) -> str:
    if not math.isfinite(value):
        raise NotWritableError(f"{value} is not a number that the file can hold")
    sample = _NUMBER.search(style)
    decimals = "" if sample is None else (sample[1] or "")
    if not whole and (not value.is_integer() or abs(value) >= 1e15):
        text = repr(value)
        text = text if "e" in text else format(Decimal(text), "f")
    elif not whole and (sample is None or decimals):
        text = f"{value:.1f}"
    else:
        text = f"{int(value):_}" if sample is not None and "_" in sample[0] else str(int(value))
    if not decimals or "e" in text:
        return text
    before, _, after = text.partition(".")
    return f"{before}.{after.ljust(len(decimals), '0')}"


def _text(value: str, style: str) -> str:
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    several_lines = style.startswith(('"""', "'''")) and "\n" in value
    literal = style.startswith("'") and "'" not in value and not several_lines
    literal = literal and value.isprintable()
    try:
        value.encode()
        text = tomlkit.string(value, literal=literal, multiline=several_lines).as_string()
    except (TOMLKitError, UnicodeEncodeError) as error:
        raise NotWritableError(f"this text can't be written in the file: {error}") from None
    # The first newline after the opening quotes is not part of the value.
    opening = several_lines and (style[3:5].strip(" \t\r")[:1] == "\n" or value[0] == "\n")
    return f"{text[:3]}\n{text[3:]}" if opening else text
