from __future__ import annotations

import pytest

from hardstand.description.model import MEASUREMENT_TABLES, PARTS_TABLES, ROWS, SINGLES
from hardstand.description.problems import cut, listed, nearest
from hardstand.description.raw import MAIN, MEASUREMENTS, Raw, parse, tables_of
from tests.aeroplanes import SMALL, WEIGHED, texts
from tests.description.reading import line_of

FILES = texts(SMALL, WEIGHED.format(nose=1, left=2, right=3))


def test_rows_of_all_files_stand_together_with_their_places() -> None:
    """Parts of two files follow one another, each with its own line."""
    raw, problems = parse(FILES | {"parts/more.toml": '# one\n\n[[part]]\nid = "late"\n'})
    assert not problems
    assert [row["id"] for row in raw.rows["part"]] == ["late", "main-tank", "strut"]
    assert raw.line("part", 0, "id") == ("parts/more.toml", 4)
    assert raw.line("part", 1) == ("parts/own.toml", 2)
    assert raw.line("reading", 2, "reading_g")[0] == MEASUREMENTS
    assert raw.line("cg_mark", -1, "at_mm", 1) == (MAIN, line_of(SMALL, "at_mm = [800, 100, 0]"))
    assert raw.row_id("part", 0) == "late"
    assert raw.row_id("cg_mark", -1) == ""


def test_a_row_without_an_id_goes_by_its_number() -> None:
    """So does one whose id is no text."""
    raw, _ = parse({MAIN: "[[mass]]\n[[mass]]\nid = 5\n"})
    assert [raw.row_id("mass", index) for index in (0, 1)] == ["number 1", "number 2"]
    assert raw.ids()["mass"] == set()


@pytest.mark.parametrize(
    "file, table",
    [(MAIN, "part"), (MAIN, "mass"), (MEASUREMENTS, "reading"), ("parts/x.toml", "port")],
)
def test_which_tables_stand_in_which_file(file: str, table: str) -> None:
    """Parts may also stand in the main file."""
    assert table in tables_of(file)


def test_every_table_has_a_file() -> None:
    """All kinds of rows and tables, none left out."""
    assert set(tables_of(MAIN)) | set(MEASUREMENT_TABLES) | set(PARTS_TABLES) == {*ROWS, *SINGLES}


def test_a_copy_can_be_changed_alone() -> None:
    """Rows, places and marks of the one it was made from stay."""
    raw, _ = parse(FILES)
    copy = raw.copied()
    copy.rows["mass"][0]["mass_g"] = 1
    del copy.places["mass"][0]
    copy.singles["cg_mark"]["name"] = "other"
    assert raw.rows["mass"][0]["mass_g"] == 6000
    assert len(raw.places["mass"]) == len(raw.rows["mass"])
    assert raw.singles["cg_mark"]["name"] != "other"


def test_a_broken_file_leaves_its_tables_in_doubt() -> None:
    """And no others."""
    raw, problems = parse(FILES | {MEASUREMENTS: "[["})
    assert raw.unsure == set(MEASUREMENT_TABLES)
    assert [one.file for one in problems] == [MEASUREMENTS]
    assert "mass" in raw.rows


@pytest.mark.parametrize(
    "text, what, hint",
    [
        ("mas = 5", "there is no table mas", "did you mean mass?"),
        ("mass = 5", "mass has the wrong form here", "head it with [[mass]]"),
        ("mass = [5]", "mass has the wrong form here", "head it with [[mass]]"),
        ("[mass]", "mass has the wrong form here", "head it with [[mass]]"),
        ("[[fuel]]", "fuel has the wrong form here", "head it with [fuel]"),
        ("[[zzzzz]]", "there is no table zzzzz", ""),
        ("mass = []", "", ""),
        ('"a\\u001b[31m" = 1', "there is no table a�[31m", ""),
    ],
)
def test_a_table_of_the_wrong_name_or_form(text: str, what: str, hint: str) -> None:
    """One problem each, with its line."""
    raw, problems = parse({MAIN: f"format = 1\n{text}\n"})
    assert [(one.what, one.hint, one.line) for one in problems] == (
        [(what, hint, 2)] if what else []
    )
    assert isinstance(raw, Raw)


def test_values_are_cut_to_a_line_however_large_they_are() -> None:
    """Deep, long, unseen, of very many digits."""
    deep: list[object] = []
    for _ in range(100_000):
        deep = [deep]
    for value in (
        deep,
        ["x"] * 10**6,
        {"a" * 10**6: 1},
        10**10_000,
        "a\n\x1b" * 10**6,
        -(10**5000),
    ):
        text = cut(value)
        assert len(text) <= 60
        assert text.isprintable()
    assert cut({}) == "{}"
    assert cut(1.5) == "1.5"


def test_the_nearest_name() -> None:
    """Whatever the case, and quickly for a name of any length."""
    assert nearest("RX_Left", ["rx-left", "rx-right"]) == "rx-left"
    assert nearest("x" * 10**6, ["rx-left"]) == ""
    assert nearest("a", []) == ""
    assert listed([]) == "none"
