"""What is wrong with a file: where, what stands there, what was expected, what to do.

Problems are collected, never raised one by one, so that a builder sees all of them at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from itertools import islice
from typing import Any


@dataclass(frozen=True, slots=True)
class Problem:
    """One located fault of the description.

    `where` is the key path in words (`item rx-left, turn_deg`), `found` the offending text, cut to a
    readable length, `expected` what may stand there, `hint` what to do.
    """

    file: str
    line: int | None
    where: str
    what: str
    found: str = ""
    expected: str = ""
    hint: str = ""
    address: str = ""

    def as_json(self) -> dict[str, Any]:
        """The problem as plain data."""
        return {
            "file": self.file,
            "line": self.line,
            "where": self.where,
            "what": self.what,
            "found": self.found,
            "expected": self.expected,
            "hint": self.hint,
            "address": self.address,
        }


class UnreadableError(Exception):
    """The description cannot be read; `problems` holds every reason that was found."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        count = len(self.problems)
        super().__init__(f"{count} problem{'' if count == 1 else 's'} in the aeroplane's files")


def nearest(word: str, known: Iterable[str]) -> str:
    """The known name nearest to a mistyped one, or an empty string when none is near.

    Capitals, and - for _, count for nothing; so do letters in the wrong order.

    >>> nearest("frnt-tray", ["front-tray", "main-tray"]), nearest("di", ["name", "id"])
    ('front-tray', 'id')
    >>> nearest("zzz", ["front-tray"])
    ''
    """
    folded = {name.lower().replace("_", "-"): name for name in known}
    wanted = word[:80].lower().replace("_", "-")
    if wanted in folded:
        return folded[wanted]
    close = get_close_matches(wanted, list(folded), n=1, cutoff=0.6)
    close = close or [name for name in folded if sorted(name) == sorted(wanted)]
    return folded[close[0]] if close else ""


def listed(names: Iterable[str], most: int = 8) -> str:
    """Names for a sentence, cut after `most` with the number left out.

    >>> listed(["a", "b", "c"], most=2)
    'a, b and 1 more'
    """
    all_names = list(names)
    if len(all_names) <= most:
        return ", ".join(all_names) if all_names else "none"
    return f"{', '.join(all_names[:most])} and {len(all_names) - most} more"


def cut(value: Any, most: int = 60) -> str:
    """A value as it would stand in the file, on one line and cut to a readable length.

    Unseen characters show as �. However large or deep the value is, only its beginning is looked at.

    >>> cut(True), cut("abc"), cut([1, 2.5, "x"]), cut({"id": "a"})
    ('true', '"abc"', '[1, 2.5, "x"]', '{ id = "a" }')
    """
    text = _as_written(value, most, 4)
    return text if len(text) <= most else text[: most - 1] + "…"


def _as_written(value: Any, most: int, depth: int) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        seen = "".join(one if one.isprintable() else "�" for one in value[: most + 1])
        return f'"{seen}"'
    if isinstance(value, int) and not -(10**80) < value < 10**80:
        return "a number of very many digits"
    if isinstance(value, list | tuple):
        inside = "…" if depth == 0 else ", ".join(
            _as_written(one, most, depth - 1) for one in islice(value, most))  # fmt: skip
        return f"[{inside}]"
    if isinstance(value, Mapping):
        inside = "…" if depth == 0 else ", ".join(
            f"{key[:most]} = {_as_written(one, most, depth - 1)}"
            for key, one in islice(value.items(), most))  # fmt: skip
        return f"{{ {inside} }}" if inside else "{}"
    return str(value)
