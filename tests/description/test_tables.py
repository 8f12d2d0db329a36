"""A text parsed table by table is what the standard parser makes of the whole, faults included."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

import hardstand
from hardstand.description.tables import _by_tables, load

DEMO = Path(hardstand.__file__).parent / "data" / "demo" / "s1" / "aeroplane.toml"
LINES = [
    "[[item]]", "[[item]] # again", "[item]", "[tray]", "[[tray]]", "[ tray ]", '["item"]', "[item.sub]",
    "[[item.more]]", "[tray.a.b]", "[[ item ]]", "id = 1", "id = 1.0", "id = true", "id = -0.0", "x = 2",
    "x = nan", "item = 5", "item = [{ id = 1 }]", "item.id = 3", "tray.x = 4", "a = [", "[1],", "[1]", "[[2]]",
    "]", "]]", 't = """', '"""', "s = '''", "'''", "# [item]", "", "day = 1979-05-27", "b = {", "c = { d = [1] }",
    "\\", "=", 'e = "[[item]]"', "\t[[item]]", "  id = 7", "[[item]]\r", "x = 3\r", "\r", "f = 0xff", "[item",
]  # fmt: skip


def outcome(parser: Callable[[str], Any], text: str) -> str:
    """What a parser makes of a text, types, signs and order of keys included, or what it raises."""
    try:
        return repr(parser(text))
    except (ValueError, RecursionError) as error:
        return f"{type(error).__name__}: {error}"


@given(lines=st.lists(st.sampled_from(LINES), max_size=14), ended=st.booleans())
@example(lines=["[[item]]", "a = [", "[1]", "]"], ended=True)
@example(lines=["item = 5", "[[item]]"], ended=False)
@example(lines=["[item]", "[[item]]"], ended=True)
@example(lines=["[[item]]", "[tray.a.b]", "[tray]"], ended=True)
def test_lines_in_any_order_are_read_as_by_the_standard_parser(lines: list[str], *, ended: bool) -> None:
    """Or refused with the same words at the same place; a second time, out of what is kept, too."""
    text = "\n".join(lines) + ("\n" if ended else "")
    expected = outcome(tomllib.loads, text)
    assert outcome(load, text) == expected
    assert outcome(load, text) == expected


@given(st.data())
def test_a_large_text_with_a_slip_in_it_is_read_as_by_the_standard_parser(data: st.DataObject) -> None:
    """A piece of the demo's file taken out, put in elsewhere, or a line put in."""
    text = DEMO.read_text(encoding="utf-8")[-6000:]
    text = text[text.index("\n[[") :]
    start = data.draw(st.integers(0, len(text)))
    stop = data.draw(st.integers(start, min(len(text), start + 200)))
    put = data.draw(st.sampled_from([*LINES, text[start:stop]]))
    place = data.draw(st.integers(0, len(text)))
    edited = text[:start] + text[stop:]
    edited = edited[:place] + put + edited[place:]
    assert outcome(load, edited) == outcome(tomllib.loads, edited)


def test_what_was_read_is_the_reader_s_own() -> None:
    """Changing it changes nothing that is read later."""
    first = load("[[item]]\nat_mm = [1, 2]\n")
    first["item"][0]["at_mm"].append(3)
    assert load("[[item]]\nat_mm = [1, 2]\n") == {"item": [{"at_mm": [1, 2]}]}


@pytest.mark.parametrize("moment", ["s0", "s1", "s2"])
def test_the_demo_is_read_by_its_tables(moment: str) -> None:
    """None of its files needs the slower way."""
    for path in (DEMO.parent.parent / moment).rglob("*.toml"):
        text = path.read_text(encoding="utf-8")
        assert repr(_by_tables(text)) == repr(tomllib.loads(text)), path.name
