"""What is wrong with a file: where, what stands there, what was expected, what to do.

Problems are collected, never raised one by one, so that a builder sees all of them at once.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches
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

    >>> nearest("frnt-tray", ["front-tray", "main-tray"])
    'front-tray'
    >>> nearest("zzz", ["front-tray"])
    ''
    """
    names = list(known)
    folded = {name.lower().replace("_", "-"): name for name in names}
    wanted = word.lower().replace("_", "-")
    if wanted in folded:
        return folded[wanted]
    close = get_close_matches(wanted, list(folded), n=1, cutoff=0.6)
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
    """A value as it would stand in the file, cut to a readable length.

    >>> cut(True), cut("abc")
    ('true', '"abc"')
    """
    if isinstance(value, bool):
        text = "true" if value else "false"
    elif isinstance(value, str):
        text = f'"{value}"'
    else:
        text = str(value)
    return text if len(text) <= most else text[: most - 1] + "…"
