"""A file's text parsed table by table, so that after an edit only what was touched is parsed again.

A table is its header's line with everything down to the next header that opens a table of its own.
What can't be told apart this way for certain (texts over several lines, a name opened twice, a
fault) goes to the standard parser as one piece, which then decides: result and errors are its own.
"""

from __future__ import annotations

import marshal
import re
import tomllib
from functools import lru_cache
from itertools import pairwise
from typing import Any

_HEADER = re.compile(
    r"^(?:\[\[[A-Za-z0-9_-]+\]\]|\[[A-Za-z0-9_-]+\])[ \t]*(?:#[^\n]*)?\r?$", re.MULTILINE
)
# Equal content gives equal bytes, 1, 1.0 and true each their own; dates have none.
IMAGE = 2
_KEPT = 8192  # tables: several large aeroplanes


def load(text: str) -> dict[str, Any]:
    r"""What `tomllib.loads` makes of a text, and what it raises; nothing in it is shared.

    Assumes that no text over several lines is in it; else, and wherever in doubt, the whole is
    parsed in one. Raises tomllib.TOMLDecodeError, ValueError and RecursionError as that does.

    >>> load("format = 1\n[[item]]\nid = 'rx'\n[[item]]\nid = 'hub'")
    {'format': 1, 'item': [{'id': 'rx'}, {'id': 'hub'}]}
    """
    found = _by_tables(text)
    return tomllib.loads(text) if found is None else found


def _by_tables(text: str) -> dict[str, Any] | None:
    """The tables put together, or None where they do not follow from the parts alone."""
    if '"""' in text or "'''" in text:
        return None
    starts = [0, *(header.start() for header in _HEADER.finditer(text)), len(text)]
    head = _image(text[: starts[1]])
    if head is None:
        return None
    found: dict[str, Any] = marshal.loads(head)  # noqa: S302 written here, a line ago
    closed = set(found)  # opened in a way that no later header may add to
    for start, stop in pairwise(starts[1:]):
        image = _image(text[start:stop])
        if image is None:
            return None
        table = marshal.loads(image)  # noqa: S302
        if len(table) != 1:
            return None
        ((name, value),) = table.items()
        if name in closed or (name in found and not isinstance(value, list)):
            return None
        if isinstance(value, list):
            found.setdefault(name, []).extend(value)
        else:
            found[name] = value
            closed.add(name)
    return found


def row_span(text: str, kind: str, number: int) -> tuple[int, int] | None:
    r"""Where a row of an array of tables stands with its header; None where it has none of its own.

    Found by lines that look like headers. In a text over several lines such a line may be no header:
    whoever edits by this has to parse what came of it.

    >>> row_span("[[item]]\nid = 'rx'\n[[item]]\nid = 'hub'", "item", 1)
    (19, 38)
    """
    own = f"[[{kind}]]"
    starts = [header.start() for header in _HEADER.finditer(text)]
    rows = [at for at, start in enumerate(starts) if text.startswith(own, start)]
    if number >= len(rows):
        return None
    at = rows[number]
    return starts[at], starts[at + 1] if at + 1 < len(starts) else len(text)


@lru_cache(maxsize=_KEPT)
def _image(part: str) -> bytes | None:
    """One part parsed by itself, as bytes of which each reader makes its own; None with a fault."""
    try:
        return marshal.dumps(tomllib.loads(part))
    except (ValueError, RecursionError):  # no TOML by itself, or a date, of which there is no image
        return None
