"""Addresses and changes: the one way in which anything alters a description.

An address names one field: `item.rx-left.at_mm` in a row, `aeroplane.cg_range_mm` in a table that
stands once. A change carries what it expects to find, so that it is refused where that no longer
holds. Page edits, remedies, options and undo are all lists of these.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

_ADDRESS = re.compile(
    r"(?P<kind>[a-z][a-z0-9_]*)"
    r"(?:\.(?P<id>[A-Za-z0-9][A-Za-z0-9_-]*(?:\.[A-Za-z0-9][A-Za-z0-9_-]*)*?))?"
    r"\.(?P<field>(?![xyz](?:\.|$))[a-z][a-z0-9_]*)"
    r"(?:\.(?P<index>(?:[xyz]|\d+)(?:\.(?:[xyz]|\d+))*))?"
)


class AddressError(ValueError):
    """A text is no address of a field; the message shows one."""


@dataclass(frozen=True, slots=True)
class Address:
    """One field of one table: `id` is None in a table that stands once.

    `index` names a component inside the field's value (`x`, `2`, `2.x`). Only sensitivities speak
    of components; a change always replaces the whole value.

    >>> str(Address("item", "rx-left", "at_mm", "x"))
    'item.rx-left.at_mm.x'
    """

    kind: str
    id: str | None
    field: str
    index: str | None = None

    def __str__(self) -> str:
        return ".".join(part for part in (self.kind, self.id, self.field, self.index) if part)


@dataclass(frozen=True, slots=True)
class Change:
    """A field's value replaced: `old` is what must stand there now, None where the field is absent.

    `new` is what is to stand there, None to take the field out. Values are what the file can hold:
    truth values, numbers, text, dates, lists and tables of these.
    """

    address: str
    old: Any
    new: Any


@dataclass(frozen=True, slots=True)
class AddRow:
    """A row added after the last one of its kind; `row` holds its fields, id first."""

    kind: str
    row: dict[str, Any]


@dataclass(frozen=True, slots=True)
class RemoveRow:
    """A row taken out, with the comment that stands directly above it."""

    kind: str
    id: str


AnyChange = Change | AddRow | RemoveRow


def parse_address(text: str) -> Address:
    """Read an address.

    The last word is the field, unless it is x, y, z or a number, which are components of one; what
    stands between kind and field is the id, which may hold dots (`limit.fit.box-gap.low`).
    Raises AddressError.

    >>> parse_address("item.rx-left.at_mm")
    Address(kind='item', id='rx-left', field='at_mm', index=None)
    >>> parse_address("cg_mark.at_mm.x")
    Address(kind='cg_mark', id=None, field='at_mm', index='x')
    """
    match = _ADDRESS.fullmatch(text)
    if match is None:
        what = "is a computed figure, not a field" if "@" in text else "is not an address"
        raise AddressError(f'"{text}" {what}: write kind.id.field, such as item.rx-left.at_mm')
    return Address(match["kind"], match["id"], match["field"], match["index"])


def same_value(one: Any, other: Any) -> bool:
    """Whether two values are the same to a reader of the file: 12 is 12.0, but true is not 1.

    >>> same_value([12, "a"], [12.0, "a"]), same_value(True, 1), same_value(None, 0)
    (True, False, False)
    """
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(same_value(one[key], other[key]) for key in one)
    if isinstance(one, list | tuple) and isinstance(other, list | tuple):
        return len(one) == len(other) and all(map(same_value, one, other))
    numbers = (int, float)
    if isinstance(one, bool) or isinstance(other, bool) or not isinstance(one, numbers):
        return type(one) is type(other) and bool(one == other)
    return isinstance(other, numbers) and one == other


def change_as_json(change: AnyChange) -> dict[str, Any]:
    """A change as plain data.

    >>> change_as_json(RemoveRow("item", "hub"))
    {'remove': 'item', 'id': 'hub'}
    """
    match change:
        case Change(address, old, new):
            return {"address": address, "old": old, "new": new}
        case AddRow(kind, row):
            return {"add": kind, "row": row}
        case RemoveRow(kind, row_id):
            return {"remove": kind, "id": row_id}


def change_from_json(data: Mapping[str, Any]) -> AnyChange:
    """A change from plain data, the inverse of `change_as_json`.

    Raises AddressError for a bad address, ValueError for any other shape.

    >>> change_from_json({"address": "item.hub.turn_deg", "old": 0, "new": 90})
    Change(address='item.hub.turn_deg', old=0, new=90)
    """
    match data:
        case {"address": str(address), "old": old, "new": new, **rest} if not rest:
            if parse_address(address).index is not None:
                raise AddressError(f'"{address}" is part of a value: change the whole value')
            return Change(address, old, new)
        case {"add": str(kind), "row": dict(row), **rest} if not rest:
            return AddRow(kind, row)
        case {"remove": str(kind), "id": str(row_id), **rest} if not rest:
            return RemoveRow(kind, row_id)
    raise ValueError("a change is address, old and new, or add and row, or remove and id")
