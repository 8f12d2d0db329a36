from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, ValidationError

from hardstand.description.faults import checked
from hardstand.description.fields import Misread, Table
from hardstand.description.items import Item, Lead, Measurement
from hardstand.description.model import ROWS, SINGLES
from hardstand.standards.units import UNITS, is_tolerance, split_suffix

MODELS = {**ROWS, **SINGLES}
NUMERIC = [(model, name) for model in MODELS.values() for name in model.model_fields
           if split_suffix(name)[1] is not None]  # fmt: skip
# Rows that are right, for trying one field at a time.
RIGHT: dict[str, dict[str, Any]] = {
    "item": {"id": "a", "part": "p", "at_mm": [1, 2, 3]},
    "mass": {"id": "a", "mass_g": 5, "at_mm": [1, 2, 3]},
    "lead": {"id": "a", "from": "a.b", "to": "c.d"},
    "port": {"id": "a", "part": "p", "face": "front"},
    "antenna": {"id": "a", "item": "r", "tip_mm": [1, 2, 3], "direction": [0, 0, 1]},
    "tank": {"id": "a", "item": "t", "capacity_ml": 500},
}


def faults(table: str, **fields: Any) -> list[tuple[Any, str]]:
    """Where and what is wrong with a right row in which these fields are put."""
    _, found = checked(MODELS[table], RIGHT[table] | fields)
    return [(one.loc, one.what) for one in found]


def number_types(annotation: Any, metadata: Any = ()) -> list[tuple[Any, tuple[Any, ...]]]:
    """(type, its metadata) of every number inside a field's type."""
    inner = getattr(annotation, "__metadata__", ())
    if annotation in (int, float):
        return [(annotation, tuple(metadata))]
    base = [annotation.__origin__] if inner else getattr(annotation, "__args__", ())
    return [
        found for one in base for found in number_types(one, (*metadata, *inner) if inner else ())
    ]


@pytest.mark.parametrize("table", sorted(MODELS))
def test_every_number_refuses_text_truth_and_what_is_not_finite(table: str) -> None:
    """No field of any table takes true, "5", nan, an infinity or a number beyond all bounds."""
    model = MODELS[table]
    for name, field in model.model_fields.items():
        if not number_types(field.annotation, field.metadata):
            continue
        key = field.alias or name
        for value in (True, "5", math.nan, math.inf, -math.inf, 1e300, -1e300, 10**400):
            found = [one.loc for one in checked(model, {key: value})[1] if one.loc[:1] == (key,)]
            assert found, f"{table}.{key} takes {value}"


@pytest.mark.parametrize("model, name", NUMERIC, ids=lambda one: getattr(one, "__name__", one))
def test_every_number_with_a_unit_takes_text_with_another_unit(
    model: type[BaseModel], name: str
) -> None:
    """The unit's own example is read in every field that ends in the unit, tolerances included."""
    unit = split_suffix(name)[1]
    assert unit is not None
    key = model.model_fields[name].alias or name
    text = UNITS[unit].example
    _, found = checked(model, {key: text})  # type: ignore[arg-type] # every table is a Table
    about = [one.expected for one in found if one.loc[:1] == (key,)]
    assert not any(one.startswith("a number") for one in about), about


def test_a_tolerance_of_a_temperature_has_no_zero_of_its_scale() -> None:
    """5 °F of tolerance are 2.8 °C; 5 °F of temperature are -15 °C."""

    class Oven(Table):
        hot_degc: float
        hot_tol_degc: float

    read = Oven.model_validate({"hot_degc": "5 °F", "hot_tol_degc": "5 °F"})
    assert read.hot_degc == pytest.approx(-15.0)
    assert read.hot_tol_degc == pytest.approx(25.0 / 9.0)
    assert is_tolerance("hot_tol_degc")


def test_text_in_lists_is_read_where_it_stands() -> None:
    """One coordinate in inches; a wrong one is located by its number."""
    read, _ = checked(Item, RIGHT["item"] | {"at_mm": ["1 in", 2, "3 cm"]})
    assert isinstance(read, Item)
    assert read.at_mm == (25.4, 2.0, 30.0)
    assert faults("item", at_mm=[1, "2 oz", 3]) == [
        (("at_mm", 1), '"2 oz" is not a length: that is a mass')]  # fmt: skip


@given(st.lists(st.sampled_from([1, "2 in", "x", True, None, [3], {}]), max_size=5))
def test_no_list_of_anything_breaks_the_reading(values: list[Any]) -> None:
    """Whatever stands in a list of numbers is read or is a fault in that field."""
    read, found = checked(Item, RIGHT["item"] | {"at_mm": values})
    assert (read is None) == bool(found)
    assert all(one.loc[0] == "at_mm" and one.what and "Misread" not in one.found for one in found)


@pytest.mark.parametrize(
    "table, fields, where",
    [
        ("item", {"on": "t"}, ("on",)),
        ("item", {"at_mm": [1, 2]}, ("at_mm",)),
        ("item", {"turn_deg": 45}, ("turn_deg",)),
        ("item", {"tilt_deg": [91, 0]}, ("tilt_deg", 0)),
        ("item", {"id": "-a"}, ("id",)),
        ("item", {"id": "a" * 61}, ("id",)),
        ("item", {"id": "a\n"}, ("id",)),
        ("mass", {"mass_g": 0}, ("mass_g",)),
        ("mass", {"mass_g": 200_001}, ("mass_g",)),
        ("mass", {"at_mm": [20_001, 0, 0]}, ("at_mm", 0)),
        ("mass", {"name": "a\x00"}, ("name",)),
        ("mass", {"name": "a" * 401}, ("name",)),
        ("mass", {"removable": "yes"}, ("removable",)),
        ("lead", {"awg": 20.0}, ("awg",)),
        ("lead", {"awg": True}, ("awg",)),
        ("lead", {"from": "a."}, ("from",)),
        ("lead", {"from": "a.b.c"}, ("from",)),
        ("lead", {"from": "c.d"}, ("from",)),
        ("lead", {"may_be": ["e.f"]}, ("may_be",)),
        ("port", {"count": 0}, ("count",)),
        ("port", {"count": 2.0}, ("count",)),
        ("port", {"face": "up"}, ("face",)),
        ("antenna", {"direction": [0, 0, 0]}, ("direction",)),
        ("antenna", {"direction": [0, 5e-324, 0]}, ("direction",)),
        ("tank", {"unusable_ml": 501}, ("unusable_ml",)),
        ("tank", {"order": "1"}, ("order",)),
        ("tank", {"inside_mm": [0, 1, 1]}, ("inside_mm", 0)),
    ],
)
def test_impossible_values_are_refused_at_their_field(
    table: str, fields: dict[str, Any], where: tuple[Any, ...]
) -> None:
    """One fault, at the field that the row's words name."""
    found = faults(table, **fields)
    assert len(found) == 1
    assert found[0][0][:1] == where[:1] or (table, fields) == ("lead", {"from": "c.d"})


@pytest.mark.parametrize("turn, kept", [(0, 0), (90, 90), (360, 0), (-90, 270), (450, 90)])
def test_turns_are_kept_between_0_and_360(turn: float, kept: float) -> None:
    """A quarter turn is the same however it is written."""
    read, _ = checked(Item, RIGHT["item"] | {"turn_deg": turn})
    assert isinstance(read, Item)
    assert read.turn_deg == kept


def test_a_lead_with_an_end_that_nobody_knows() -> None:
    """`unknown` with what it may be; without, too."""
    for more in ({"may_be": ["e.f", "g.h"]}, {}):
        read, _ = checked(Lead, {"id": "a", "from": "a.b", "to": "unknown"} | more)
        assert read is not None


@pytest.mark.parametrize("value, wrong", [(1, ()), ([1, 2, 3], ()), ("1", ("value",)), ([], ("value",)),
                                          ([1], ("value",)), ([1, "x"], ("value", 1)), (True, ("value",)),
                                          ({}, ("value",))])  # fmt: skip
def test_a_measured_value_is_one_number_or_several(value: Any, wrong: tuple[Any, ...]) -> None:
    """Each wrong form is one fault, located without the names of the forms."""
    _, found = checked(Measurement, {"id": "a", "address": "mass.a.mass_g", "value": value})
    assert [one.loc for one in found] == ([wrong] if wrong else [])


def test_rows_are_frozen() -> None:
    """Nothing changes a row that was read."""
    read, _ = checked(Item, RIGHT["item"])
    assert isinstance(read, Item)
    with pytest.raises(ValidationError, match="frozen"):
        read.part = "q"


def test_misread_text_shows_as_it_was_written() -> None:
    """With its quotes."""
    assert str(Misread("2 oz", "a mass")) == '"2 oz"'
