from __future__ import annotations

from typing import Any

import pytest

from hardstand.asbuilt.measuring import MeasureError
from hardstand.asbuilt.weighing_in import weigh_in_rows
from hardstand.changes import AddRow
from hardstand.description.model import Description
from hardstand.description.read import Read, read_texts
from hardstand.description.write import apply_to_texts
from tests.small_aeroplane import TEXT


def leg(name: str, x_mm: float) -> str:
    """A leg of the small aeroplane."""
    return (
        f'\n[[leg]]\nid = "{name}"\nitem = "rx"\nplace = "{name}"\npivot_mm = [{x_mm}, 0, 0]\n'
        f"contact_mm = [{x_mm}, 0, -90]\nwheel_radius_mm = 30\nwheel_width_mm = 20\nmoving_g = 10\n"
        f"down_mm = [{x_mm}, 0, -60]\nup_mm = [{x_mm}, 0, 0]\n"
    )


TEXTS = {
    "aeroplane.toml": TEXT + leg("nose", 200) + leg("left", 700) + leg("right", 700)
    + '\n[[alias]]\nid = "leg.front"\nnow = "nose"\n'
}  # fmt: skip
READ = read_texts(TEXTS)


def shown(**masses: float) -> list[dict[str, Any]]:
    """Readings under legs."""
    return [{"under": name, "reading_g": mass} for name, mass in masses.items()]


def read_again(rows: list[AddRow]) -> Read:
    """The aeroplane as read after the rows were written into its files."""
    return read_texts({**TEXTS, **apply_to_texts(TEXTS, rows)})


def read_back(rows: list[AddRow]) -> Description:
    """Its description."""
    return read_again(rows).description


def test_scales_under_the_legs() -> None:
    """One weighing and a reading for each scale, in measurements.toml; what was not given is left out."""
    weighing = {"state": "empty", "pitch_deg": 0.5, "by": None}
    readings = shown(front=400, left=700, right=710)
    rows = weigh_in_rows(READ, weighing, [{**one, "resolution_g": 5} for one in readings])
    assert rows[0] == AddRow("weighing", {"id": "weigh-in-1", "state": "empty", "pitch_deg": 0.5})
    assert [one.row["under"] for one in rows[1:]] == ["nose", "left", "right"]
    read = read_back(rows)
    assert [one.reading_g for one in read.reading] == [400, 700, 710]
    assert {one.resolution_g for one in read.reading} == {5}
    assert list(apply_to_texts(TEXTS, rows)) == ["measurements.toml"]
    assert weigh_in_rows(read_again(rows), {"state": "empty"}, readings)[0].row["id"] == "weigh-in-2"


def test_the_options_built_in_are_written_down() -> None:
    """Those that alter a mass or its place; a weigh-in is then of this aeroplane alone."""
    main = TEXTS["aeroplane.toml"] + (
        '\n[[option]]\nid = "quiet"\n[option.set]\n"item.rx.note" = "x"\n'
        '\n[[option]]\nid = "heavy"\n[option.set]\n"item.rx.mass_g" = 90\n')  # fmt: skip
    read = read_texts({"aeroplane.toml": main}, ["quiet", "heavy"])
    rows = weigh_in_rows(read, {"state": "empty"}, shown(nose=400, left=700, right=710))
    assert rows[0].row["options"] == ["heavy"]


def test_scales_under_points() -> None:
    """Two scales that stand under no leg have names of their own."""
    readings = [{"at_mm": [x, 0, -90], "reading_g": 900} for x in (200, 700)]
    rows = weigh_in_rows(READ, {"state": "empty"}, readings)
    assert [one.row["id"] for one in rows[1:]] == ["weigh-in-1-scale", "weigh-in-1-scale-2"]
    assert read_back(rows).reading[1].at_mm == (700, 0, -90)


def test_a_two_point_stand() -> None:
    """A stand is a weighing alone."""
    given = {
        "state": "empty",
        "stand_x_mm": 590,
        "tips": "tail",
        "weight_g": 50,
        "weight_x_mm": 100,
    }
    weighing = read_back(weigh_in_rows(READ, given, [])).weighing[0]
    assert (weighing.method, weighing.tips, weighing.weight_x_mm) == ("stand", "tail", 100)


@pytest.mark.parametrize(
    "given, readings, says, hint",
    [
        ({}, shown(nose=1, left=1), "which state", "empty"),
        ({"state": "emty"}, shown(nose=1, left=1), "no state emty", "empty?"),
        ({"state": "empty"}, shown(nse=1, left=1), "no leg nse", "nose?"),
        ({"state": "empty"}, [], "Nothing", "--stand"),
        ({"state": "empty"}, shown(nose=1), "1 reading is", "two or three"),
        ({"state": "empty"}, shown(nose=1) * 2, "two readings of nose", "each leg"),
        ({"state": "empty", "tips": "nose"}, shown(nose=1, left=1), "--tips", "--stand"),
        ({"state": "empty", "weight_x_mm": 3}, shown(nose=1, left=1), "--at", "--stand"),
        ({"state": "empty", "stand_x_mm": 590}, [], "Which way", "--tips"),
        ({"state": "empty", "stand_x_mm": 590}, shown(nose=1), "two weigh-ins", ""),
        ({"state": "empty", "stand_x_mm": 590, "tips": "nose", "weight_g": 3}, [], "place", "--at"),
    ],
)
def test_what_is_no_weigh_in(
    given: dict[str, Any], readings: list[dict[str, Any]], says: str, hint: str
) -> None:
    """What is missing, of the other kind or not there is refused with what to give."""
    with pytest.raises(MeasureError, match=says) as refused:
        weigh_in_rows(READ, given, readings)
    assert hint in refused.value.hint
