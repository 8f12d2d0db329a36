"""TOML texts with known layout, for the tests that treat the aeroplane's file as text."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

from hypothesis import strategies as st

KEYS = ["at_mm", "mass_g", "note", "name", "turn_deg"]
KINDS = ["item", "tray", "lead"]
COMMENTS = ["", "# plain", '# holds "quotes" and [brackets', "# key = 1", "\t# [[item]]"]
VALUES = [
    "12", "12.50", "-3", "1_000", "true", "1979-05-27 07:32:00Z", '"text # no comment"',
    "'[not] {a} table'", '"""one\n[[item]]\nkey = 2\n"""', "'''a\n\n'''", "[]", "[260, -34.5]",
    "[\n  1, # first\n\n  # between\n  [2, 3],\n]", '{ a = 1, "b.c" = [2, { d = 3 }] }',
    '["a", "b]", """c\n"""]',
]  # fmt: skip


@dataclass
class Layout:
    """A text under construction: its lines, where each key path begins, and the first rows' ids."""

    lines: list[str] = field(default_factory=list)
    where: dict[tuple[str | int, ...], int] = field(default_factory=dict)
    rows: Counter[str] = field(default_factory=Counter)
    ids: list[tuple[str, str]] = field(default_factory=list)

    def note(self, *path: str | int) -> None:
        """The next line is where a path begins."""
        self.where[path] = len(self.lines) + 1

    def add(self, text: str) -> None:
        """One piece of text that may span lines."""
        self.lines += text.split("\n")

    @property
    def text(self) -> str:
        """The text as a whole."""
        return "\n".join(self.lines) + "\n"


def spelled(draw: Any, key: str) -> str:
    """A key, bare or in one of the two quotes."""
    return str(draw(st.sampled_from([key, f'"{key}"', f"'{key}'"])))


def _gap(draw: Any, layout: Layout) -> None:
    for comment in draw(st.lists(st.sampled_from(COMMENTS), max_size=2)):
        layout.add(comment)


def _pairs(draw: Any, layout: Layout, path: tuple[str | int, ...]) -> None:
    for key in draw(st.lists(st.sampled_from(KEYS), unique=True, max_size=3)):
        _gap(draw, layout)
        layout.note(*path, key)
        after = draw(st.sampled_from(["", "  # after"]))
        layout.add(f"{spelled(draw, key)} = {draw(st.sampled_from(VALUES))}{after}")
    if draw(st.booleans()):
        layout.note(*path, "deep", "inner")
        layout.add(f"deep . {spelled(draw, 'inner')} = 7")


@st.composite
def layouts(draw: Any) -> Layout:
    """A text with tables and interleaved rows of several kinds."""
    layout = Layout()
    if draw(st.booleans()):
        layout.note("format")
        layout.add("format = 1")
    singles = draw(st.lists(st.sampled_from(["aeroplane", "cg_mark"]), unique=True, max_size=2))
    rows = draw(st.lists(st.sampled_from(KINDS), max_size=6))
    for kind in draw(st.permutations([*singles, *rows])):
        _gap(draw, layout)
        if kind in singles:
            layout.note(kind)
            layout.add(f"[{spelled(draw, kind)}]")
            _pairs(draw, layout, (kind,))
            continue
        number = layout.rows[kind]
        layout.rows[kind] += 1
        layout.note(kind, number)
        layout.add(f"[[ {spelled(draw, kind)} ]]")
        layout.note(kind, number, "id")
        layout.add(f'id = "{kind}-{number}"')
        layout.ids.append((kind, f"{kind}-{number}"))
        _pairs(draw, layout, (kind, number))
        if draw(st.booleans()):
            layout.note(kind, number, "sub")
            layout.add(f"[{kind}.sub]")
            _pairs(draw, layout, (kind, number, "sub"))
    _gap(draw, layout)
    return layout
