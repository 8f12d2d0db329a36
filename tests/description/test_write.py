from __future__ import annotations

import copy
import tomllib
from typing import Any
from unittest.mock import patch

import numpy as np
import pytest
import tomlkit
from hypothesis import assume, given
from hypothesis import strategies as st

from hardstand.changes import AddRow, AnyChange, Change, RemoveRow, same_value
from hardstand.description.write import (
    NotWritableError,
    StaleChange,
    apply_to_text,
    apply_to_texts,
)
from tests.description.toml_texts import Layout, layouts

SAMPLE = """\
# The aeroplane of the tests.
format = 1

[aeroplane]
name = 'Tarnwing 20'  # working name
cg_range_mm = [243, 260]   # aft of the mark
span_mm = 2_400
note = \"\"\"
two
lines\"\"\"

# ---- equipment ----

# bought used
[[item]]
id = "rx-left"
at_mm = [260, -34.50]
mass_g = "14.5 oz"  # from the scale

[[tray]]
id = "front"
outline_mm = [
  [210, -60],  # front left
  [480, -78],
  # the widest place
  [480, 78],
  [210, 60],   # front right
]
top_z_mm = -18.0

# the spare
# (not yet fitted)
[[item]]
id = "rx-right"
at_mm = [260, 34]
box = { size_mm = [1, 2], note = "x" }
turn_deg = 0
# turned when the tray is glued

# ---- the end ----
"""


def lines_changed(old: str, new: str) -> tuple[list[str], list[str]]:
    """The lines that differ: those that went and those that came, cut of what is alike around."""
    before, after = old.split("\n"), new.split("\n")
    while before and after and before[0] == after[0]:
        del before[0], after[0]
    while before and after and before[-1] == after[-1]:
        del before[-1], after[-1]
    return before, after


@pytest.mark.parametrize(
    "change, went, came",
    [
        (
            Change("aeroplane.name", "Tarnwing 20", "Tarnwing 21"),
            ["name = 'Tarnwing 20'  # working name"],
            ["name = 'Tarnwing 21'  # working name"],
        ),
        (
            Change("aeroplane.name", "Tarnwing 20", "Tarn's"),
            ["name = 'Tarnwing 20'  # working name"],
            ['name = "Tarn\'s"  # working name'],
        ),
        (
            Change("aeroplane.cg_range_mm", [243, 260], [245.5, 260.0]),
            ["cg_range_mm = [243, 260]   # aft of the mark"],
            ["cg_range_mm = [245.5, 260]   # aft of the mark"],
        ),
        (Change("aeroplane.span_mm", 2400.0, 12400), ["span_mm = 2_400"], ["span_mm = 12_400"]),
        (
            Change("aeroplane.note", "two\nlines", "two\nother\nlines"),
            [],
            ["other"],
        ),
        (
            Change("item.rx-left.at_mm", [260, -34.5], (265.0, -40.0)),
            ["at_mm = [260, -34.50]"],
            ["at_mm = [265, -40.00]"],
        ),
        (
            Change("item.rx-left.mass_g", 411.0680853125, 398),
            ['mass_g = "14.5 oz"  # from the scale'],
            ["mass_g = 398  # from the scale"],
        ),
        (Change("tray.front.top_z_mm", -18, -16), ["top_z_mm = -18.0"], ["top_z_mm = -16.0"]),
        (Change("tray.front.top_z_mm", -18, -16.25), ["top_z_mm = -18.0"], ["top_z_mm = -16.25"]),
        (Change("item.rx-right.turn_deg", 0, 90.0), ["turn_deg = 0"], ["turn_deg = 90"]),
        (Change("item.rx-right.turn_deg", 0, np.int64(90)), ["turn_deg = 0"], ["turn_deg = 90"]),
        (
            Change("item.rx-right.turn_deg", 0, np.float64(0.5)),
            ["turn_deg = 0"],
            ["turn_deg = 0.5"],
        ),
        (Change("item.rx-right.turn_deg", 0, None), ["turn_deg = 0"], []),
        (Change("tray.front.hole", None, True), [], ["hole = true"]),
        (
            Change("item.rx-right.box", {"size_mm": [1, 2], "note": "x"}, {"size_mm": [1, 3]}),
            ['box = { size_mm = [1, 2], note = "x" }'],
            ["box = { size_mm = [1, 3] }"],
        ),
        (
            Change(
                "item.rx-right.box",
                {"size_mm": [1, 2], "note": "x"},
                {"size_mm": [1, 2], "note": "x", "flag": False},
            ),
            ['box = { size_mm = [1, 2], note = "x" }'],
            ['box = { size_mm = [1, 2], note = "x", flag = false }'],
        ),
    ],
)
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_only_the_value_is_touched(
    change: Change, went: list[str], came: list[str], newline: str
) -> None:
    """An edit changes the lines of its value and no other, in their own style and newlines."""
    text = SAMPLE.replace("\n", newline)
    new = apply_to_text(text, [change])
    assert new.count("\r\n") == (new.count("\n") if newline == "\r\n" else 0)
    assert lines_changed(SAMPLE, new.replace("\r\n", "\n")) == (went, came)


OUTLINE = [[210, -60], [480, -78], [480, 78], [210, 60]]


@pytest.mark.parametrize(
    "points, went, came",
    [
        (
            [*OUTLINE[:3], [215, 60]],
            ["  [210, 60],   # front right"],
            ["  [215, 60],   # front right"],
        ),
        ([OUTLINE[0], *OUTLINE[2:]], ["  [480, -78],", "  # the widest place"], []),
        (OUTLINE[:3], ["  [210, 60],   # front right"], []),
        ([*OUTLINE, [200.0, 0]], [], ["  [200, 0],"]),
        ([OUTLINE[0], [300, -70], *OUTLINE[1:]], [], ["  [300, -70],"]),
    ],
)
def test_arrays_keep_their_layout(
    points: list[list[float]], went: list[str], came: list[str]
) -> None:
    """A point of an outline is changed, added or taken out on its own line, comments staying."""
    new = apply_to_text(SAMPLE, [Change("tray.front.outline_mm", OUTLINE, points)])
    assert lines_changed(SAMPLE, new) == (went, came)


@pytest.mark.parametrize(
    "text, old, new, expected",
    [
        ("a = [1, 2, 3]", [1, 2, 3], [1, 3], "a = [1, 3]"),
        ("a = [1, 2, 3]", [1, 2, 3], [1], "a = [1]"),
        ("a = [1, 2, 3,]", [1, 2, 3], [1, 2], "a = [1, 2,]"),
        ("a = [1]", [1], [], "a = []"),
        ("a = []", [], [1, 2], "a = [1, 2]"),
        ("a = [1.0]", [1], [1, 2], "a = [1.0, 2.0]"),
        ("a = [\n  1, # one\n  2 # two\n]", [1, 2], [1], "a = [\n  1, # one\n]"),
        ("a = [\n  1,\n  2 # two\n]", [1, 2], [1, 2, 3], "a = [\n  1,\n  2, # two\n  3\n]"),
        ("a = [\n  1, # one\n]", [1], [1, 3], "a = [\n  1, # one\n  3,\n]"),
        ('a = ["x"]', ["x"], ["x", "y\t\\"], 'a = ["x", "y\\t\\\\"]'),
    ],
)
def test_arrays_of_other_lengths(text: str, old: Any, new: Any, expected: str) -> None:
    """Elements join and leave an array the way the array is laid out."""
    heading = "[aeroplane]\n"
    assert apply_to_text(heading + text, [Change("aeroplane.a", old, new)]) == heading + expected


def test_a_row_is_added_after_its_kind_with_blank_lines() -> None:
    """A new row follows the last one of its kind, apart by a blank line, in the siblings' style."""
    row = {"id": "gyro", "at_mm": [300.0, 0.0], "turn_deg": 90.0, "level": None}
    new = apply_to_text(SAMPLE, [AddRow("item", row)])
    added = ["[[item]]", 'id = "gyro"', "at_mm = [300, 0]", "turn_deg = 90"]
    assert lines_changed(SAMPLE, new) == ([], [*added, ""])
    assert "# turned when the tray is glued\n\n[[item]]" in new
    assert "turn_deg = 90\n\n# ---- the end ----" in new
    between = apply_to_text(SAMPLE, [AddRow("tray", {"id": "aft"})])
    assert 'top_z_mm = -18.0\n\n[[tray]]\nid = "aft"\n\n# the spare\n' in between


def test_interleaved_rows_stay_where_they_are() -> None:
    """Rows of different kinds in turn keep their places through every sort of edit."""
    new = apply_to_text(
        SAMPLE,
        [
            Change("item.rx-right.turn_deg", 0, 90),
            AddRow("item", {"id": "gyro"}),
            Change("item.gyro.at_mm", None, [1, 2]),
            Change("tray.front.top_z_mm", -18.0, -17.0),
        ],
    )
    headers = [line for line in new.split("\n") if line.startswith("[")]
    assert headers == ["[aeroplane]", "[[item]]", "[[tray]]", "[[item]]", "[[item]]"]
    assert 'id = "gyro"\nat_mm = [1, 2]\n' in new


def test_a_row_leaves_with_its_own_comment_only() -> None:
    """Taking out a row takes the comment directly above it and leaves the banners."""
    new = apply_to_text(SAMPLE, [RemoveRow("item", "rx-right")])
    gone = SAMPLE[SAMPLE.index("# the spare") : SAMPLE.index("# ---- the end")]
    assert new == SAMPLE.replace(gone, "")
    new = apply_to_text(SAMPLE, [RemoveRow("item", "rx-left")])
    gone = SAMPLE[SAMPLE.index("# bought used") : SAMPLE.index("[[tray]]")]
    assert new == SAMPLE.replace(gone, "")
    new = apply_to_text(SAMPLE, [RemoveRow("tray", "front")])
    assert "# the spare" in new
    assert "front left" not in new


def test_rows_in_braces_can_be_edited() -> None:
    """Rows written as an array of tables in braces are changed, added and taken out as well."""
    text = 'item = [{ id = "a", turn_deg = 0 }, { id = "b" }]\n'
    new = apply_to_text(text, [Change("item.a.turn_deg", 0, 90), Change("item.b.x_mm", None, 1)])
    assert new == 'item = [{ id = "a", turn_deg = 90 }, { id = "b", x_mm = 1 }]\n'
    new = apply_to_text(text, [AddRow("item", {"id": "c"}), RemoveRow("item", "a")])
    assert new == 'item = [{ id = "b" }, { id = "c" }]\n'


@pytest.mark.parametrize(
    "old, new, expected",
    [
        ({"a": 1, "b": 2, "c": 3}, {"c": 3}, "{ c = 3 }"),
        ({"a": 1, "b": 2}, {}, "{}"),
        ({}, {"a": 1, "b": 2}, "{ a = 1, b = 2 }"),
        ({"a": 1}, {"b": 2, "c": 3}, "{ b = 2, c = 3 }"),
        ({"a": 1, "b": 2}, {"a": 1.5, "c": 3, "d": 4}, "{ a = 1.5, c = 3, d = 4 }"),
    ],
)
def test_tables_in_braces_gain_and_lose_pairs(old: Any, new: Any, expected: str) -> None:
    """Several pairs at once may come and go in a table in braces."""
    pairs = ", ".join(f"{key} = {value}" for key, value in old.items())
    text = (
        f"[aeroplane]\nbox = {{ {pairs} }} # note\n" if pairs else "[aeroplane]\nbox = {} # note\n"
    )
    done = apply_to_text(text, [Change("aeroplane.box", old, new)])
    assert done == f"[aeroplane]\nbox = {expected} # note\n"


def test_lines_that_look_like_headers_deceive_nobody() -> None:
    """Where a text over several lines or an array holds such lines, the row is found all the same."""
    text = (
        "[[item]]\nid = 'a'\nnote = \"\"\"\n[[item]]\nid = 'b'\n\"\"\"\nat = [\n[1]\n,\n[2]\n]\n"
        "mass_g = 1\n[[item]]\nid = 'c'\nmass_g = 2\n"
    )
    for row_id, old in (("a", 1), ("c", 2)):
        new = apply_to_text(text, [Change(f"item.{row_id}.mass_g", old, 7)])
        rows = {row["id"]: row for row in tomllib.loads(new)["item"]}
        assert rows[row_id]["mass_g"] == 7
        assert lines_changed(text, new) == ([f"mass_g = {old}"], ["mass_g = 7"])


def test_a_missing_table_is_begun_at_the_end() -> None:
    """The first value of a table that stands once brings the table with it."""
    new = apply_to_text("format = 1\n", [Change("cg_mark.name", None, "the root")])
    assert new == 'format = 1\n\n[cg_mark]\nname = "the root"\n'
    assert apply_to_text("", [AddRow("item", {"id": "a"})]) == '[[item]]\nid = "a"\n'
    assert apply_to_text("a = 1", [AddRow("item", {"id": "a"})]) == 'a = 1\n\n[[item]]\nid = "a"\n'


@pytest.mark.parametrize(
    "change, expected, found",
    [
        (Change("item.rx-right.turn_deg", 90, 0), 90, 0),
        (Change("item.rx-right.turn_deg", None, 0), None, 0),
        (Change("item.rx-right.turn_deg", False, 0), False, 0),
        (Change("item.rx-right.name", "x", "y"), "x", None),
        (Change("item.hub.turn_deg", 0, 90), 0, None),
        (Change("item.rx-left.mass_g", 400.0, 398), 400.0, "14.5 oz"),
        (RemoveRow("item", "hub"), "hub", None),
        (AddRow("tray", {"id": "front"}), None, tomllib.loads(SAMPLE)["tray"][0]),
    ],
)
def test_what_changed_meanwhile_is_refused(change: AnyChange, expected: Any, found: Any) -> None:
    """A change whose old value does not stand is refused with both values."""
    with pytest.raises(StaleChange, match="has changed meanwhile") as caught:
        apply_to_text(SAMPLE, [change])
    assert (caught.value.expected, caught.value.found) == (expected, found)
    assert caught.value.address in {"tray.front", "item.hub", getattr(change, "address", "")}


@pytest.mark.parametrize(
    "text, change",
    [
        ("a = ", Change("aeroplane.a", None, 1)),
        ("[aeroplane]\n", Change("aeroplane.a", None, float("nan"))),
        ("[aeroplane]\n", Change("aeroplane.a", None, object())),
        ("[aeroplane]\n", Change("aeroplane.a", None, "\ud800")),
        ("[aeroplane]\na = [1, 2]\n", Change("aeroplane.a.x", 1, 2)),
        ("[[item]]\nid = 'a'\n[[item]]\nid = 'a'\n", Change("item.a.x_mm", None, 1)),
        ("[item]\na = 1\n", AddRow("item", {"id": "a"})),
        ("[[item]]\nid = 'a'\n[item.sub]\nb = 1\n", Change("item.a.sub", {"b": 1}, None)),
    ],
)
def test_what_cannot_be_written_is_refused(text: str, change: AnyChange) -> None:
    """A text that does not parse or a value that TOML can't hold is refused, never half written."""
    with pytest.raises(NotWritableError):
        apply_to_text(text, [change])


def test_changes_find_their_file() -> None:
    """Each change goes to the file with its row, the first part to a file of its own."""
    texts = {
        "aeroplane.toml": "[[item]]\nid = 'a'\n",
        "parts/servo.toml": "[[part]]\nid = 's'\nmass_g = 60\n",
        "parts/zero.toml": "[[part]]\nid = 'z'\n",
    }
    changes: list[AnyChange] = [
        Change("part.s.mass_g", 60, 62),
        Change("item.a.turn_deg", None, 90),
        AddRow("measurement", {"id": "m1"}),
        RemoveRow("part", "z"),
    ]
    new = apply_to_texts(texts, changes)
    assert new == {
        "aeroplane.toml": "[[item]]\nid = 'a'\nturn_deg = 90\n",
        "parts/servo.toml": "[[part]]\nid = 's'\nmass_g = 62\n",
        "parts/zero.toml": "",
        "measurements.toml": '[[measurement]]\nid = "m1"\n',
    }
    first = apply_to_texts({"aeroplane.toml": ""}, [AddRow("part", {"id": "p"})])
    assert first == {"parts/own.toml": '[[part]]\nid = "p"\n'}
    with pytest.raises(StaleChange):
        apply_to_texts(texts, [AddRow("part", {"id": "s"})])


NEW_VALUES = st.recursive(
    st.booleans() | st.integers(-(10**6), 10**6) | st.floats(-1e6, 1e6) | st.text(max_size=6)
    | st.floats(allow_nan=False, allow_infinity=False) | st.dates(),
    lambda one: st.lists(one, max_size=4) | st.dictionaries(st.text(max_size=3), one, max_size=3),
    max_leaves=5,
)  # fmt: skip


@given(layouts(), st.data(), st.sampled_from(["\n", "\r\n"]))
def test_any_change_of_any_layout(layout: Layout, data: st.DataObject, newline: str) -> None:
    """Any value in any layout can be set, added or taken out, and nothing else differs."""
    assume(layout.ids)
    text = layout.text.replace("\n", newline)
    kind, row_id = data.draw(st.sampled_from(layout.ids))
    before = tomllib.loads(text)
    row = next(row for row in before[kind] if row["id"] == row_id)
    field = data.draw(st.sampled_from(["at_mm", "mass_g", "note", "name", "fresh"]))
    value = data.draw(st.none() | NEW_VALUES)
    old = row.get(field)
    new = apply_to_text(text, [Change(f"{kind}.{row_id}.{field}", old, value)])
    row[field] = value
    if value is None:
        del row[field]
    assert same_value(tomllib.loads(new), before)
    if newline == "\n":  # the other parser leaves \r\n in texts over several lines
        assert same_value(tomlkit.parse(new).unwrap(), before)
    kept = [line for line in text.split("\n") if line.lstrip().startswith("# ")]
    if not isinstance(old, str | list):  # these may hold lines that look like comments
        found = iter(new.split("\n"))
        assert all(line in found for line in kept)
    again = apply_to_text(new, [Change(f"{kind}.{row_id}.{field}", value, old)])
    assert same_value(tomllib.loads(again), tomllib.loads(text))
    with patch("hardstand.description.write.row_span", return_value=None):
        assert apply_to_text(text, [Change(f"{kind}.{row_id}.{field}", old, value)]) == new


@given(layouts(), st.sampled_from(["item", "tray", "wire"]), st.sampled_from(["\n", "\r\n"]))
def test_adding_and_taking_out_a_row_is_no_change(layout: Layout, kind: str, newline: str) -> None:
    """A row added and taken out again leaves the text as it was, blank lines aside."""
    text = layout.text.replace("\n", newline)
    row = {"id": "new", "at_mm": [1.5, 2.0], "note": "x"}
    added = apply_to_text(text, [AddRow(kind, row)])
    assert tomllib.loads(added)[kind][-1] == row
    without = apply_to_text(added, [RemoveRow(kind, "new")])
    assert [one for one in without.splitlines() if one] == [one for one in text.splitlines() if one]


@pytest.mark.parametrize("kind", ["item", "tray", "wire"])
def test_a_row_that_comes_and_goes_leaves_no_trace(kind: str) -> None:
    """Where rows stand apart, adding one and taking it out gives the same bytes."""
    added = apply_to_text(SAMPLE, [AddRow(kind, {"id": "new"})])
    assert apply_to_text(added, [RemoveRow(kind, "new")]) == SAMPLE


@given(layouts(), st.data())
def test_taking_out_any_row(layout: Layout, data: st.DataObject) -> None:
    """Any row can be taken out of any layout, and the others stay as they are."""
    assume(layout.ids)
    kind, row_id = data.draw(st.sampled_from(layout.ids))
    before = tomllib.loads(layout.text)
    expected = copy.deepcopy(before)
    expected[kind] = [row for row in before[kind] if row["id"] != row_id]
    expected = {key: value for key, value in expected.items() if value != []}
    assert tomllib.loads(apply_to_text(layout.text, [RemoveRow(kind, row_id)])) == expected


def test_keys_and_rows_inside_an_option_are_written_in_place() -> None:
    """A key that only gets another name, and a field of a row under a heading, keep their line."""
    text = (
        '[[option]]\nid = "a"\n\n[option.set]\n"lead.A.to" = "hub.in"   # one\n'
        "'lead.B.to' = 1  # two\nbare.dotted = 2\n\n"
        '[[option.add.item]]\nid = "hub"  # three\nat_mm = [1, 2]\n\n[[option.add.item]]\nid = "b"\n'
    )
    data = tomllib.loads(text)["option"][0]
    keys = {"lead.C.to": "hub.in", "lead.D.to": 1, "bare": {"dotted": 2}}
    rows = {"item": [{"id": "hat", "at_mm": [1, 2]}, {"id": "b"}]}
    new = apply_to_text(
        text,
        [Change("option.a.set", data["set"], keys), Change("option.a.add", data["add"], rows)],
    )
    assert new == text.replace("lead.A", "lead.C").replace("lead.B", "lead.D").replace(
        '"hub"  #', '"hat"  #'
    )


def test_a_port_is_named_with_its_part() -> None:
    """Where two parts have a port of one id, the part's id before it says which."""
    text = '[[port]]\npart = "a"\nid = "out"\n\n[[port]]\npart = "b"\nid = "out"\n'
    new = apply_to_text(text, [Change("port.b.out.part", "b", "c")])
    assert new == text.replace('"b"', '"c"')
    with pytest.raises(NotWritableError, match="more than one"):
        apply_to_text(text, [Change("port.out.part", "a", "c")])
