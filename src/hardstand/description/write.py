"""Changes written into the text of an aeroplane's file; all that is not changed stays as it was.

Comments, order, layout, number style and newlines are the builder's. Each edit replaces only the
span of its value, and after each one the standard parser must find exactly the old data with the
change in it, or nothing is written at all.
"""

from __future__ import annotations

import contextlib
import copy
import marshal
import math
import tomllib
from collections.abc import Iterable, Mapping
from functools import lru_cache, partial
from typing import Any

from hardstand.changes import AddRow, AnyChange, Change, RemoveRow, parse_address, same_value
from hardstand.description.rendering import NotWritableError, plain
from hardstand.description.rows import add_table, cut_table
from hardstand.description.scan import Path
from hardstand.description.splices import Splice, Values, spliced
from hardstand.description.tables import IMAGE, load, row_span
from hardstand.standards.units import UnitError, from_text, split_suffix

__all__ = ["NotWritableError", "StaleChange", "apply_to_text", "apply_to_texts"]

MAIN_FILE = "aeroplane.toml"
# Where the first row of a kind goes; all other kinds begin in the main file.
FIRST_FILE = {
    "part": "parts/own.toml",
    "port": "parts/own.toml",
    "measurement": "measurements.toml",
    "weighing": "measurements.toml",
    "reading": "measurements.toml",
}


class StaleChange(ValueError):  # noqa: N818 it is a refusal that callers expect, not a fault
    """A change expects something that does not stand in the file: nothing has been written.

    `address` is the field or row, `expected` what the change took to stand there and `found` what
    does; None means that there is nothing.
    """

    def __init__(self, address: str, expected: Any, found: Any) -> None:
        self.address, self.expected, self.found = address, expected, found
        super().__init__(f"{address} has changed meanwhile: expected {_named(expected)}, "
                         f"found {_named(found)}")  # fmt: skip


def apply_to_text(text: str, changes: Iterable[AnyChange]) -> str:
    r"""The text of one file with all changes made, or an exception and none made.

    Raises StaleChange where a change's old value no longer stands (a row to be added exists, a row
    to be changed or removed does not); NotWritableError where the text does not parse, the value
    is none that TOML holds, or the edit would touch anything else.

    >>> apply_to_text("[[item]]\nid = 'rx'\nturn_deg = 0 # as bought\n",
    ...               [Change("item.rx.turn_deg", 0, 90)])
    "[[item]]\nid = 'rx'\nturn_deg = 90 # as bought\n"
    """
    data = _parsed(text)
    for change in changes:
        text, data = _apply_one(text, data, change)
    return text


def apply_to_texts(texts: Mapping[str, str], changes: Iterable[AnyChange]) -> dict[str, str]:
    """The files of a folder with all changes made: only those files that differ, or an exception.

    A change goes to the file that holds its row or table; a row to be added, after the last one of
    its kind, and the first of its kind to the file where that kind belongs. Raises as
    `apply_to_text` does.
    """
    now = dict(texts)
    data = {name: _parsed(text) for name, text in now.items()}
    for change in changes:
        name = _home(data, change)
        now[name], data[name] = _apply_one(now.get(name, ""), data.get(name, {}), change)
    return {name: text for name, text in now.items() if texts.get(name) != text}


def _home(data: Mapping[str, Any], change: AnyChange) -> str:
    """The name of the file that a change belongs to."""
    match change:
        case Change(text):
            address = parse_address(text)
            kind, row_id = address.kind, address.id
        case AddRow(kind, row):
            row_id = row.get("id")
        case RemoveRow(kind, row_id):
            pass
    holding = [name for name in sorted(data) if kind in data[name]]
    for name in holding:
        if _row_numbers(data[name], kind, row_id):
            return name
    first = FIRST_FILE.get(kind, MAIN_FILE)
    return first if first in holding or not holding else holding[-1]


def _apply_one(text: str, data: dict[str, Any], change: AnyChange) -> tuple[str, dict[str, Any]]:
    row = _row_of(text, data, change)
    if row is not None:
        with contextlib.suppress(NotWritableError):  # then the whole text may show a way
            return _changed_row(text, data, change, row)
    values = Values(text)
    intended = dict(data)
    match change:
        case Change(address):
            kind = parse_address(address).kind
            edit = partial(_change, values, intended, change)
        case AddRow(kind):
            edit = partial(_add_row, values, intended, change)
        case RemoveRow(kind):
            edit = partial(_remove_row, values, intended, change)
    if kind in data:  # what was parsed is shared and stays as it is
        intended[kind] = copy.deepcopy(data[kind])
    return _written(text, edit(), intended, change), intended


def _written(text: str, splices: Iterable[Splice], intended: dict[str, Any], change: AnyChange) -> str:
    """The text with the splices made, if it then holds just what was intended."""
    newline = "\r\n" if "\r\n" in text else "\n"
    new = spliced(text, ((start, end, one.replace("\n", newline)) for start, end, one in splices))
    if not _same_data(_parsed(new), intended):
        raise NotWritableError(f"{_title(change)} can't be written without touching something "
                               "else; edit the file by hand")
    return new


def _row_of(text: str, data: Mapping[str, Any], change: AnyChange) -> tuple[int, int, int] | None:
    """The number of the row that a change alters, and where it stands; None for any other change."""
    if not isinstance(change, Change):
        return None
    address = parse_address(change.address)
    numbers = _row_numbers(data, address.kind, address.id)
    span = row_span(text, address.kind, numbers[0]) if len(numbers) == 1 else None
    return None if span is None else (numbers[0], *span)


def _changed_row(
    text: str, data: dict[str, Any], change: AnyChange, row: tuple[int, int, int]
) -> tuple[str, dict[str, Any]]:
    """A change made looking at one row alone: in a large file most of the time goes to the others."""
    number, start, stop = row
    assert isinstance(change, Change)  # `_row_of` knows rows of no other
    kind = parse_address(change.address).kind
    mine = {kind: [copy.deepcopy(data[kind][number])]}
    splices = _change(Values(text[start:stop]), mine, change)
    rows = [*data[kind][:number], mine[kind][0], *data[kind][number + 1:]]
    intended = {**data, kind: rows}
    moved = [(start + one, start + other, new) for one, other, new in splices]
    return _written(text, moved, intended, change), intended


def _same_data(found: dict[str, Any], intended: dict[str, Any]) -> bool:
    """`same_value`, quick where both are alike to the bit."""
    try:
        if marshal.dumps(found, IMAGE) == marshal.dumps(intended, IMAGE):
            return True
    except ValueError:  # a date
        pass
    return same_value(found, intended)


def _change(values: Values, data: dict[str, Any], change: Change) -> list[Splice]:
    address = parse_address(change.address)
    if address.index is not None:
        raise NotWritableError(f"{change.address} is part of a value; change the whole value")
    path: Path = (address.kind,)
    table = data.get(address.kind)
    if address.id is not None:
        number = _one_row(data, address.kind, address.id, change.address, change.old)
        path = (address.kind, number)
        table = data[address.kind][number]
    new = plain(change.new)
    if table is None and change.old is None:
        data[address.kind] = {address.field: new}
        return [add_table(values, f"[{address.kind}]", data[address.kind], ())]
    found = table.get(address.field) if isinstance(table, dict) else None
    if not isinstance(table, dict) or not _holds(found, plain(change.old), address.field):
        raise StaleChange(change.address, change.old, found)
    if same_value(found, new):
        return []
    if new is None:
        del table[address.field]
    else:
        table[address.field] = new
    return list(values.put((*path, address.field), found, new))


def _add_row(values: Values, data: dict[str, Any], change: AddRow) -> list[Splice]:
    row = plain(change.row)
    rows = data.setdefault(change.kind, [])
    if not isinstance(rows, list):
        raise NotWritableError(f"{change.kind} is not a table of rows in this file")
    for number in _row_numbers(data, change.kind, row.get("id")):
        if change.kind != "port" or rows[number].get("part") == row.get("part"):
            raise StaleChange(f"{change.kind}.{row.get('id')}", None, rows[number])
    old = list(rows)
    rows.append(row)
    if (change.kind,) in values.values:  # rows in an array of tables in braces
        return list(values.replace((change.kind,), old, rows))
    after: Path = (change.kind, len(old) - 1) if old else ()
    return [add_table(values, f"[[{change.kind}]]", row, after)]


def _remove_row(values: Values, data: dict[str, Any], change: RemoveRow) -> list[Splice]:
    number = _one_row(data, change.kind, change.id, f"{change.kind}.{change.id}", change.id)
    old = list(data[change.kind])
    del data[change.kind][number]
    if (change.kind,) in values.values:
        return list(values.replace((change.kind,), old, data[change.kind]))
    if not data[change.kind]:
        del data[change.kind]
    return list(cut_table(values, (change.kind, number)))


def _row_numbers(data: Mapping[str, Any], kind: str, row_id: object) -> list[int]:
    """Where the rows of an id are; a port may also be named with its part, as `part.port`."""
    rows = data.get(kind)
    rows = rows if isinstance(rows, list) and row_id is not None else []
    ids = ((i, row, row.get("id")) for i, row in enumerate(rows) if isinstance(row, dict))
    return [i for i, row, found in ids
            if found == row_id or (kind == "port" and f"{row.get('part')}.{found}" == row_id)]


def _one_row(data: Mapping[str, Any], kind: str, row_id: str, address: str, expected: Any) -> int:
    numbers = _row_numbers(data, kind, row_id)
    if not numbers:
        raise StaleChange(address, expected, None)
    if len(numbers) > 1:
        raise NotWritableError(f"there is more than one {kind} with the id {row_id}")
    return numbers[0]


def _holds(found: Any, old: Any, field: str) -> bool:
    """Whether a field holds what a change expects; text with a unit counts as its number."""
    if same_value(found, old):
        return True
    if isinstance(found, list) and isinstance(old, list) and len(found) == len(old):
        return all(_holds(one, other, field) for one, other in zip(found, old, strict=True))
    unit = split_suffix(field)[1]
    if not isinstance(found, str) or not isinstance(old, int | float) or unit is None:
        return False
    try:
        return math.isclose(from_text(found, unit), old, rel_tol=1e-9)
    except UnitError:
        return False


@lru_cache(maxsize=8)
def _parsed(text: str) -> dict[str, Any]:
    """The data of a text, parsed once for an edit and for the one that follows it: read only."""
    try:
        return load(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise NotWritableError(f"the file can't be read, so it is not written: {error}") from None


def _title(change: AnyChange) -> str:
    if isinstance(change, Change):
        return change.address
    return f"{change.kind} {change.row.get('id') if isinstance(change, AddRow) else change.id}"


def _named(value: Any) -> str:
    return "nothing" if value is None else repr(value)
