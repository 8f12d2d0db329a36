"""The place where a text stops being TOML, and what is said about it."""

from __future__ import annotations

import re
from dataclasses import dataclass

_AFTER_EQUALS = re.compile(r"""[^="']*=\s*(.*?)\s*$""")


@dataclass(frozen=True, slots=True)
class SyntaxSlip:
    """Where a text stops being TOML: `line` and `column` from 1, `found` the offending line."""

    line: int
    column: int
    what: str
    found: str
    expected: str = ""
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Stop:
    """Where the parser stopped: its message, the text, line and column (from 1)."""

    message: str
    text: str
    line: int
    column: int

    @property
    def words(self) -> str:
        """The line on which the parser stopped."""
        return self.line_text(self.line)

    def line_text(self, line: int) -> str:
        """A line of the text, by number."""
        return self.text.split("\n")[line - 1].strip("\r")

    @property
    def value(self) -> str:
        """What stands after the first `=` of the line, without a comment that follows a space."""
        match = _AFTER_EQUALS.match(self.words)
        return re.sub(r"\s+#[^\"']*$", "", match[1]) if match else ""

    def slip(self, what: str, expected: str = "", hint: str = "", line: int = 0) -> SyntaxSlip:
        """A slip here, or at the beginning of another `line`."""
        found = self.line_text(line or self.line).strip()
        found = "".join(char if char.isprintable() else "�" for char in found)
        found = found if len(found) <= 60 else found[:59] + "…"
        column = 1 if line and line != self.line else self.column
        return SyntaxSlip(line or self.line, column, what, found, expected, hint)
