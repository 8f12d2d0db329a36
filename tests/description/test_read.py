from __future__ import annotations

import os
from pathlib import Path

import pytest

from hardstand.description.problems import UnreadableError
from hardstand.description.read import read_folder, read_texts
from tests.aeroplanes import PARTS, SMALL, swapped, texts
from tests.description.reading import HEAD, line_of, only, problems, read


def test_a_description_is_read_whole() -> None:
    """Rows come in the order of the file, tables that are not there are None, options are named."""
    found = read()
    assert [mass.id for mass in found.description.mass] == ["body", "nose", "tail"]
    assert found.description.stability is None
    assert found.description.fuel is not None
    assert found.description.fuel.density_kg_m3 == 800.0
    assert found.options == ()


def test_the_least_that_can_be_read() -> None:
    """A name is enough."""
    assert read(HEAD, parts="").description.aeroplane.name == "Bare"


@pytest.mark.parametrize(
    "old, new, what, line_with",
    [
        ("mass_g = 6000", "mass_kg = 6", "there is no field mass_kg here", "mass_kg"),
        ("mass_g = 6000", 'mass_g = "6 km"', '"6 km" is not a mass: that is a length', '"6 km"'),
        ("mass_g = 6000", "mass_g = true", "true is not a number", "true"),
        ("mass_g = 6000", "mass_g = nan", "this number is not finite", "nan"),
        ("mass_g = 6000", "mass_g = -inf", "this number is not finite", "-inf"),
        ("mass_g = 6000", "mass_g = 0", "0 is out of range", "mass_g = 0\n"),
        ("mass_g = 6000", "mass_g = 1e9", "1000000000.0 is out of range", "1e9"),
        ("mass_g = 6000", f"mass_g = {'9' * 400}", "this number is out of range", "9" * 400),
        ("mass_g = 6000", f"mass_g = {'[' * 90}{']' * 90}", "[[[[[…]]]]] is not a number", "mass_g = [["),
        ("at_mm = [990, 0, 0]", "at_mm = [990]", "this list has 1 entry", "[990]"),
        ("at_mm = [990, 0, 0]", "at_mm = [990, 0, 0, 0]", "this list has 4 entries", "[990, 0, 0, 0]"),
        ("at_mm = [990, 0, 0]", "at_mm = 990", "990 has the wrong form", "at_mm = 990"),
        ('id = "body"', 'di = "body"', "there is no field di here", "di ="),
        ('id = "body"', 'id = "the body"', '"the body" cannot stand here', '"the body"'),
        ('surface = "wing"', 'surface = "wnig"', '"wnig" is not one of the words known here', "wnig"),
        ('part = "main-tank"', 'part = "mian-tank"', "there is no part mian-tank", "mian-tank"),
        ("fuel_pct = 100", "fuel_pct = 101", "101 is out of range", "fuel_pct = 101"),
        ("flown = false", "flown = 0", "0 has the wrong form", "flown = 0"),
        ('name = "Small"', 'name = "S\\u001b[31m"', "this text holds a character that cannot be seen",
         "S\\u001b"),
        ("capacity_ml = 1500", "capacity_ml = 1600",
         "a box of inside_mm holds 1500 ml, less than capacity_ml", "inside_mm"),
        ('cg_range_state = "empty"\n', "", "cg_range_mm belongs to one loading state: which?",
         "cg_range_mm"),
        ("cg_range_mm = [135, 175]", "cg_range_mm = [175, 135]",
         "the lower end 175 is above the upper end 135", "cg_range_mm"),
        ("[fuel]\ndensity_kg_m3 = 800\n", "", "there are tanks but no [fuel] with density_kg_m3",
         'id = "main"'),
        ("format = 1", "format = 2", "format 2 is not known", "format"),
        ("format = 1", "", "the line `format = 1` is missing", ""),
        ('[[mass]]\nid = "body"', '[[mas]]\nid = "body"', "there is no table mas", "[[mas]]"),
        ("[cg_mark]", "[[cg_mark]]", "cg_mark has the wrong form here", "[[cg_mark]]"),
        ("[[bay]]", "[bay]", "bay has the wrong form here", "[bay]"),
        ("x_mm = 700", "x_mm = 0", "bay fuselage already has a section at station 0", ""),
        ("bottom_mm = -20\ntop_mm = 20", "bottom_mm = 20\ntop_mm = -20",
         "bottom_mm 20 is not below top_mm -20", "bottom_mm = 20"),
    ],
)  # fmt: skip
def test_one_slip_is_told_once_at_its_line(old: str, new: str, what: str, line_with: str) -> None:
    """Each single slip gives one problem, at the line where it is, in words."""
    main = swapped(SMALL, old, new)
    found = only(main)
    assert found.what == what
    assert found.file == "aeroplane.toml"
    if line_with:
        assert found.line == line_of(main, line_with)


def test_all_slips_are_told_at_once_in_the_order_of_the_lines() -> None:
    """Slips in three files and in many rows do not hide one another."""
    main = swapped(SMALL, "mass_g = 6000", 'mass_g = "six"')
    main = swapped(main, 'item = "tank-main"', 'item = "tank-mian"')
    main = swapped(main, "x_mm = 700", "x_mm = 0")
    found = problems(main, "[[weighing]\n", PARTS.replace("mass_g = 100", "mass_g = -1"))
    assert [(one.file, one.where) for one in found] == [
        ("aeroplane.toml", "section f2"),
        ("aeroplane.toml", "mass body, mass_g"),
        ("aeroplane.toml", "tank main, item"),
        ("measurements.toml", ""),
        ("parts/own.toml", "part main-tank, mass_g"),
    ]
    assert [one.line for one in found[:3]] == sorted(one.line or 0 for one in found[:3])


def test_a_broken_file_of_parts_does_not_cost_every_item_an_error() -> None:
    """What may stand in a file that can't be read is given the benefit of the doubt."""
    found = problems(swapped(SMALL, "mass_g = 6000", "mass_g = 0"), parts=PARTS + "[[part]\n")
    assert [one.file for one in found] == ["aeroplane.toml", "parts/own.toml"]


def test_a_row_without_a_readable_id_does_not_cost_its_users_an_error() -> None:
    """The three that name the item are not told of: only the missing id is."""
    assert only(swapped(SMALL, 'id = "gear-left"\n', "")).what == "id is missing"


def test_a_list_of_wrong_entries_costs_a_few_problems() -> None:
    """A thousand wrong entries are one slip."""
    found = problems(swapped(SMALL, "flown = false", f"without = [{', '.join(['1'] * 1000)}]"))
    assert len(found) == 3
    assert found[0].where == "state empty, without, number 1"


def test_a_missing_main_file_is_said() -> None:
    """Parts alone are no aeroplane; what to do is said."""
    with pytest.raises(UnreadableError) as caught:
        read_texts({"parts/own.toml": PARTS})
    (found,) = caught.value.problems
    assert found.what == "there is no aeroplane.toml in this folder"
    assert "hardstand new" in found.hint


@pytest.mark.parametrize("text", ["", "\n\n", "# nothing\n", "\r\n"])
def test_an_empty_file_is_told_what_it_needs(text: str) -> None:
    """Format and name are asked for."""
    assert [one.what for one in problems(text, parts="")] == [
        "the line `format = 1` is missing",
        "the table [aeroplane] is missing",
    ]


def test_windows_line_ends_read_alike() -> None:
    """The same data, and the same lines in errors."""
    crlf = SMALL.replace("\n", "\r\n")
    assert read(crlf).description == read().description
    bad = swapped(SMALL, "mass_g = 6000", "mass_g = 0")
    assert only(bad.replace("\n", "\r\n")).line == only(bad).line


@pytest.mark.parametrize(
    "value, what",
    [
        ("9" * 5000, "this number has thousands of digits"),
        ("[" * 3000 + "]" * 3000, "brackets are nested too deeply"),
        ("0x" + "f" * 5000, "this number is out of range"),
    ],
)
def test_what_would_break_the_parser_is_a_problem_like_any_other(value: str, what: str) -> None:
    """Numbers of thousands of digits and thousands of brackets."""
    main = swapped(SMALL, "mass_g = 6000", f"mass_g = {value}")
    found = only(main)
    assert found.what == what
    assert len(found.found) < 70


def test_a_huge_array_is_refused_quickly_and_briefly() -> None:
    """A hundred thousand points in an outline."""
    points = ", ".join(["[1, 2]"] * 100_000)
    main = f'{SMALL}[[tray]]\nid = "t"\ntop_z_mm = 0\noutline_mm = [{points}]\n'
    found = only(main)
    assert found.expected == "at most 400 entries"
    assert len(found.found) < 70


def test_a_table_in_the_wrong_file_is_sent_home() -> None:
    """A weighing in the main file, a mass among the parts."""
    found = only(f'{SMALL}[[weighing]]\nid = "w"\nstate = "empty"\n')
    assert found.what == "weighing does not belong in this file"
    assert found.hint == "move it to measurements.toml"
    assert only(parts=f'{PARTS}[[mass]]\nid = "m"\n').hint == "move it to aeroplane.toml"


def folder(path: Path, files: dict[str, bytes]) -> Path:
    """A folder with these files."""
    for name, content in files.items():
        (path / name).parent.mkdir(exist_ok=True)
        (path / name).write_bytes(content)
    return path


def test_a_folder_is_read(tmp_path: Path) -> None:
    """With a byte order mark, and given by its main file."""
    files = {name: text.encode() for name, text in texts().items()}
    files["aeroplane.toml"] = b"\xef\xbb\xbf" + files["aeroplane.toml"]
    made = folder(tmp_path, files)
    assert read_folder(made).description == read().description
    assert read_folder(made / "aeroplane.toml").description == read().description


def test_bytes_that_are_no_text_are_located(tmp_path: Path) -> None:
    """The line of the wrong byte, in each file."""
    bad = (
        swapped(SMALL, "mass_g = 6000", "mass_g = 6000 # †").encode().replace("†".encode(), b"\xff")
    )
    made = folder(tmp_path, {"aeroplane.toml": bad, "parts/own.toml": b"\xc3\n" + PARTS.encode()})
    with pytest.raises(UnreadableError) as caught:
        read_folder(made)
    assert [(one.file, one.line) for one in caught.value.problems] == [
        ("aeroplane.toml", line_of(SMALL, "mass_g = 6000")),
        ("parts/own.toml", 1),
    ]


def test_what_is_no_folder_has_no_aeroplane(tmp_path: Path) -> None:
    """A folder that is not there, an empty one."""
    for path in (tmp_path, tmp_path / "nowhere"):
        with pytest.raises(UnreadableError, match="1 problem"):
            read_folder(path)


def test_a_folder_in_the_place_of_a_file_is_said(tmp_path: Path) -> None:
    """`aeroplane.toml` is a folder."""
    (tmp_path / "aeroplane.toml").mkdir()
    with pytest.raises(UnreadableError) as caught:
        read_folder(tmp_path)
    assert caught.value.problems[0].file == "aeroplane.toml"


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0,
                    reason="the system lets this user read everything")  # fmt: skip
def test_a_file_that_may_not_be_read_is_said(tmp_path: Path) -> None:
    """Permissions withdrawn."""
    made = folder(tmp_path, {name: text.encode() for name, text in texts().items()})
    (made / "parts" / "own.toml").chmod(0)
    with pytest.raises(UnreadableError) as caught:
        read_folder(made)
    assert caught.value.problems[0].file == "parts/own.toml"
