from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.changes import (
    AddressError,
    AddRow,
    AnyChange,
    Change,
    RemoveRow,
    change_as_json,
    change_from_json,
    parse_address,
    same_value,
)

# An id may be any of these; a field in a test ends in a unit, as all do.
IDS = st.from_regex(r"[A-Za-z0-9][A-Za-z0-9_-]{0,8}", fullmatch=True)
FIELDS = st.from_regex(r"[a-z][a-z0-9]{0,5}_(mm|g|v)", fullmatch=True)
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=6,
)


@pytest.mark.parametrize(
    "text, parts",
    [
        ("item.rx-left.at_mm", ("item", "rx-left", "at_mm", None)),
        ("item.rx-left.at_mm.x", ("item", "rx-left", "at_mm", "x")),
        ("tray.front.outline_mm.2.y", ("tray", "front", "outline_mm", "2.y")),
        ("aeroplane.cg_range_mm", ("aeroplane", None, "cg_range_mm", None)),
        ("aeroplane.cg_range_mm.0", ("aeroplane", None, "cg_range_mm", "0")),
        ("cg_mark.at_mm.z", ("cg_mark", None, "at_mm", "z")),
        ("limit.fit.box-gap.low", ("limit", "fit.box-gap", "low", None)),
        ("lead.14.length_mm", ("lead", "14", "length_mm", None)),
    ],
)
def test_addresses(text: str, parts: tuple[str, str | None, str, str | None]) -> None:
    """Kind, id, field and component are told apart, and the address is written back as it was."""
    address = parse_address(text)
    assert (address.kind, address.id, address.field, address.index) == parts
    assert str(address) == text


@given(IDS, FIELDS)
def test_addresses_go_round(row_id: str, field: str) -> None:
    """Any id and field make an address that is read back as themselves."""
    address = parse_address(f"item.{row_id}.{field}")
    assert (address.kind, address.id, address.field) == ("item", row_id, field)


@pytest.mark.parametrize(
    "text",
    ["", "item", "item.", ".at_mm", "item..at_mm", "balance.cg-x@ref", "item.a b.at_mm", "a.bc\n"],
)
def test_what_is_no_address_is_refused(text: str) -> None:
    """A text that names no field is refused, with an example."""
    with pytest.raises(AddressError, match=r"item\.rx-left\.at_mm"):
        parse_address(text)


@given(
    st.builds(Change, st.builds("item.{}.{}".format, IDS, FIELDS), VALUES, VALUES)
    | st.builds(AddRow, st.just("item"), st.dictionaries(FIELDS, VALUES, max_size=3))
    | st.builds(RemoveRow, st.just("item"), IDS)
)
def test_changes_go_round_through_json(change: AnyChange) -> None:
    """A change written as JSON and read back is the same change."""
    assert change_from_json(json.loads(json.dumps(change_as_json(change)))) == change


@pytest.mark.parametrize(
    "data",
    [
        {},
        {"address": "item.a.at_mm", "old": 1},
        {"address": "item.a.at_mm", "old": 1, "new": 2, "more": 3},
        {"add": "item", "row": []},
        {"remove": "item", "id": 4},
    ],
)
def test_other_shapes_are_refused(data: dict[str, object]) -> None:
    """What is no change is refused with the three shapes that are."""
    with pytest.raises(ValueError, match="address, old and new, or add and row"):
        change_from_json(data)


def test_a_change_replaces_whole_values() -> None:
    """A component of a value cannot be changed by itself."""
    with pytest.raises(AddressError, match="whole value"):
        change_from_json({"address": "item.a.at_mm.x", "old": 1, "new": 2})


@given(VALUES, VALUES)
def test_same_value_is_symmetric_and_reflexive(one: object, other: object) -> None:
    """A value is the same as itself, and sameness has no direction."""
    assert same_value(one, one)
    assert same_value(one, other) == same_value(other, one)
