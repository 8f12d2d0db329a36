from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.description.lines import locate, syntax_error
from hardstand.description.scan import scan
from tests.description.toml_texts import Layout, layouts

SAMPLE = """\
format = 1  # the first line

[aeroplane]
"name" = "Tarnwing # 20"
note = \"\"\"
[[item]]
id = "not a row"
\"\"\"
cg.range_mm = [
  243,  # low
  # a comment
  260,
]

[[item]]
id = "a"
[[tray]]
id = "t"
outline_mm = [[1, 2],
  [3, 4], [5,
  6]]
[[item]]
'id' = "b"
box = { size_mm = [1, 2], "odd key" = 3 }
[item.sub]
depth_mm = 4
"""


@pytest.mark.parametrize(
    "path, line",
    [
        (("format",), 1),
        (("aeroplane",), 3),
        (("aeroplane", "name"), 4),
        (("aeroplane", "note"), 5),
        (("aeroplane", "cg"), 9),
        (("aeroplane", "cg", "range_mm", 0), 10),
        (("aeroplane", "cg", "range_mm", 1), 12),
        (("aeroplane", "missing"), 3),
        (("item",), 15),
        (("item", 0, "id"), 16),
        (("tray", 0, "outline_mm", 1), 20),
        (("tray", 0, "outline_mm", 2, 1), 21),
        (("item", 1), 22),
        (("item", 1, "id"), 23),
        (("item", 1, "at_mm", 0), 22),
        (("item", 1, "box", "odd key"), 24),
        (("item", 1, "sub", "depth_mm"), 26),
        (("item", 7, "id"), 15),
        (("nothing", 2), 1),
        ((), 1),
    ],
)
def test_locate(path: tuple[str | int, ...], line: int) -> None:
    """Each kind of key is found on its line, a missing one on that of its nearest parent."""
    assert locate(SAMPLE, path) == line
    assert locate(SAMPLE.replace("\n", "\r\n"), path) == line


@given(layouts())
def test_every_path_of_a_known_layout_is_found(layout: Layout) -> None:
    """Whatever the layout, every key is found on the line it was put on."""
    tomllib.loads(layout.text)
    for path, line in layout.where.items():
        assert locate(layout.text, path) == line
        assert locate(layout.text, (*path, "missing")) == line


def _value_at(data: Any, path: tuple[str | int, ...]) -> Any:
    for part in path:
        data = data[part]
    return data


@given(layouts())
def test_spans_hold_exactly_the_values(layout: Layout) -> None:
    """The text between a value's ends, parsed by itself, is the value in the data."""
    data = tomllib.loads(layout.text)
    paths = set()
    for node in scan(layout.text):
        paths.add(node.path)
        if node.kind != "table":
            alone = tomllib.loads(f"value = {layout.text[node.value : node.end]}")["value"]
            assert alone == _value_at(data, node.path)
    assert paths >= layout.where.keys()


SLIPS = [
    ('a = 1\nname = "Tarn\nb = 2', 2, "no closing quote"),
    ("a = 1\nb = '''x\ny\n", 2, "no closing quote"),
    ("name = Tarn", 1, "between quotes"),
    ("at_mm = [1, 2\nb = 3\n", 1, "never closed"),
    ("at_mm = [1, 2,\n\n[[item]]\nb = 3\n", 1, "never closed"),
    ("a = 1\nat_mm = [1 2]\n", 2, "comma is missing"),
    ("a = [\n  [1, 2]\n  [3, 4],\n]\n", 3, "comma is missing"),
    ('name "x"', 1, "= is missing"),
    ('name: "x"', 1, "colon"),
    ("cg range = 3", 1, "no spaces"),
    ("a = True", 1, "not a value"),
    ("a = ", 1, "no value"),
    ("a = 12,5", 1, "with a point"),
    ("a = 14.5 oz", 1, "unit stands between quotes"),
    ("a = 60°", 1, "unit stands between quotes"),
    ("a = 012", 1, "does not begin with 0"),
    ("a = 5.", 1, "digits follow"),
    ("a = .5", 1, "begins with a digit"),
    ("a = −3", 1, "minus"),
    ("a = “x”", 1, "printed quotes"),
    ('a = "a "b" c"', 1, "ends before the line"),
    ("a = 1 b = 2", 1, "two settings"),
    ("a = [1, 2]]", 1, "one closing bracket too many"),
    ("\n[x]\na = 1\nb = 2\na = 3\n", 5, "a is already given in line 3"),
    ("[x]\n[y]\n[x]\n", 3, "already there in line 1"),
    ("[[x]]\n[x]\n", 2, "already there in line 1"),
    ("a = { b = 1, b = 2 }", 1, "b is already given"),
    ("[[x]\na = 1", 1, "heading is not closed"),
    ("[x\na = 1", 1, "heading is not closed"),
    ("[x] y = 1", 1, "follows the heading"),
    ("a = { b = 1\nc = 2\n", 1, "braces"),
    ('a = "C:\\my"', 1, "backslash"),
    ("// note", 1, "comment begins with #"),
    ("= 3", 1, "no key"),
    ("!x", 1, "key or a heading"),
    ("a = 1\x00", 1, "can't be seen"),
    ("a = [1, !]", 1, "is not a value"),
]


@pytest.mark.parametrize("text, line, words", SLIPS)
def test_common_slips_are_named(text: str, line: int, words: str) -> None:
    """A common slip is reported on the line where it was made, in plain words, on any newline."""
    for variant in (text, text.replace("\n", "\r\n")):
        with pytest.raises(tomllib.TOMLDecodeError) as caught:
            tomllib.loads(variant)
        slip = syntax_error(variant, caught.value)
        assert words in slip.what
        assert slip.line == line
        seen = variant.replace("\x00", "\N{REPLACEMENT CHARACTER}")
        assert slip.found in seen.split("\n")[line - 1]


@given(layouts(), st.data())
def test_any_broken_text_has_a_line(layout: Layout, data: st.DataObject) -> None:
    """A text with a piece cut out or replaced is read, or refused with a line that exists."""
    text = layout.text
    start = data.draw(st.integers(0, len(text)))
    end = data.draw(st.integers(start, min(len(text), start + 4)))
    piece = data.draw(st.sampled_from(["", *"\"'[]{}=,é\n\x00"]))
    broken = text[:start] + piece + text[end:]
    try:
        tomllib.loads(broken)
    except tomllib.TOMLDecodeError as error:
        slip = syntax_error(broken, error)
        assert 1 <= slip.line <= broken.count("\n") + 1
        assert slip.what
        assert slip.column >= 1
        assert len(slip.found) <= 60


def test_deep_nesting_is_a_slip() -> None:
    """Brackets nested beyond reason are reported, not followed into a crash."""
    text = "a = " + "[" * 100_000
    slip = syntax_error(text, RecursionError())
    assert "nested too deeply" in slip.what
    assert locate(text, ("a",)) == 1
