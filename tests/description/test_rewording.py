from __future__ import annotations

from typing import Any

import pytest
from pydantic import BaseModel, ValidationError

from hardstand.description.faults import Fault, checked
from hardstand.description.fields import Table
from hardstand.description.items import Item
from hardstand.description.model import ROWS, SINGLES
from hardstand.description.rewording import near_field, path_in_words, reworded


def fault(model: type[Table], row: dict[str, Any], field: str) -> Fault:
    """The one fault of a row at a field."""
    (found,) = [one for one in checked(model, row)[1] if one.loc[:1] == (field,)]
    return found


@pytest.mark.parametrize(
    "table, field, value, what, expected, hint",
    [
        ("mass", "mass_kg", 2, "there is no field mass_kg here", None,
         'write mass_g, in g; another unit can be written as text, mass_g = "…"'),
        ("mass", "mass", 2, "there is no field mass here", None,
         'write mass_g, in g; another unit can be written as text, mass_g = "…"'),
        ("item", "trun_deg", 2, "there is no field trun_deg here", None, "did you mean turn_deg?"),
        ("item", "colour", 2, "there is no field colour here", None,
         "take the line out, or see `hardstand schema` for what each table may hold"),
        ("mass", "mass_g", -1, "-1 is out of range", "more than 0 g", "mass_g is in g"),
        ("fuel", "reserve_pct", 120, "120 is out of range", "at most 100 %", "reserve_pct is in %"),
        ("mass", "mass_g", "5", '"5" is not a mass: it has no unit; without quotes it is taken as g',
         'a number in g, or text with a unit such as "14.5 oz"', ""),
        ("stability", "tail_efficiency", "0.9", '"0.9" is not a number', "a number",
         "write the number without quotes"),
        ("mass", "mass_g", True, "true is not a number", "a number", ""),
        ("port", "count", 2.0, "2.0 is not a whole number", "a whole number, without a point", ""),
        ("port", "count", "2", '"2" is not a number', "a whole number", "write the number without quotes"),
        ("port", "face", "frnt", '"frnt" is not one of the words known here',
         "one of front, back, left, right, top, bottom", "did you mean front?"),
        ("mass", "id", "a b", '"a b" cannot stand here',
         "letters, figures, hyphens and underscores, beginning with a letter or figure", ""),
        ("accept", "code", "Fit", '"Fit" cannot stand here', "a stage and a name, such as fit.box-gap", ""),
        ("mass", "name", "a\x1b", "this text holds a character that cannot be seen",
         "characters that can be seen, tabs and line ends", ""),
        ("mass", "name", "a" * 401, "this text is too long", "at most 400 characters", ""),
        ("mass", "name", 5, "5 has the wrong form", "text in quotes", ""),
        ("mass", "removable", 1, "1 has the wrong form", "true or false", ""),
        ("mass", "at_mm", 5, "5 has the wrong form", "a list in square brackets", ""),
        ("mass", "at_mm", [5], "this list has 1 entry", "3 entries", ""),
        ("mass", "at_mm", [], "this list has 0 entries", "3 entries", ""),
        ("mass", "at_mm", [1, 2, 3, 4], "this list has 4 entries", "at most 3 entries", ""),
        ("tray", "outline_mm", [[0, 0], [1, 1]], "this list has 2 entries", "at least 3 entries", ""),
        ("tray", "outline_mm", [[0, 0], [9, 9], [9, 0], [0, 9]],
         "the outline crosses itself: from point 1 to 2 and from point 3 to 4", "", ""),
        ("option", "set", 5, "5 has the wrong form", "a table", ""),
        ("option", "add", {"item": 5}, "5 has the wrong form", "a list in square brackets", ""),
    ],
)  # fmt: skip
def test_the_words_for_each_kind_of_fault(
    table: str, field: str, value: Any, what: str, expected: str | None, hint: str
) -> None:
    """What is wrong, what was expected and what to do, as a builder reads it."""
    found = fault((ROWS | SINGLES)[table], {field: value}, field)
    assert found.what == what
    assert found.hint == hint
    if expected is not None:
        assert found.expected == expected


def test_a_key_under_a_wrong_name_is_not_also_missing() -> None:
    """Only the wrong name is told of."""
    _, found = checked(Item, {"id": "a", "prt": "x", "at": [1, 2, 3]})
    assert [(one.loc, one.hint) for one in found] == [
        (("prt",), "did you mean part?"),
        (("at",), 'write at_mm, in mm; another unit can be written as text, at_mm = "…"'),
    ]


def test_a_missing_field_is_asked_for() -> None:
    """By the name that stands in the file."""
    _, found = checked(ROWS["lead"], {"id": "a", "to": "b"})
    assert [(one.loc, one.what, one.hint) for one in found] == [
        (("from",), "from is missing", "add from")
    ]


def test_what_a_row_says_of_itself_is_located_at_the_field_it_names() -> None:
    """A rule over several fields points at the first of them that is there."""
    found = fault(ROWS["item"], {"id": "a", "part": "p", "on": "t", "at_mm": [1, 2, 3]}, "on")
    assert found.what.startswith("on a tray, at_mm is two numbers")


def test_a_kind_that_has_no_words_of_its_own_still_says_something() -> None:
    """A type that no table uses today."""

    class Odd(BaseModel):
        value: bytes

    with pytest.raises(ValidationError) as caught:
        Odd.model_validate({"value": 5})
    assert reworded(caught.value.errors()[0], Odd)[0] == "5 cannot stand here"


def test_the_nearest_field() -> None:
    """By stem, by unit, by look; nothing where nothing is near."""
    assert near_field("mass_lb", ROWS["mass"]) == "mass_g"
    assert near_field("AT-MM", ROWS["mass"]) == "at_mm"
    assert near_field("zzz", ROWS["mass"]) == ""
    assert near_field("x" * 100_000, ROWS["mass"]) == ""


def test_paths_in_words() -> None:
    """Numbers from one; long or unseen pieces are cut."""
    assert path_in_words("port", "", ("row_mm", 0)) == "port, row_mm, number 1"
    assert "\x1b" not in path_in_words("item", "a\x1b[31m", ("b",))
    assert len(path_in_words("item", "a" * 1000, ("b",))) < 80
