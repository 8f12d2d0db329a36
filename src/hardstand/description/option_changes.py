"""The changes that an option stands for, and which options get in one another's way."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from hardstand.changes import AddRow, AnyChange, Change, RemoveRow

Path = tuple[str | int, ...]
Located = tuple[Path, AnyChange]  # where in the option's row the change is written, and the change


def changes_of(row: Mapping[str, Any]) -> Iterator[AnyChange]:
    """The changes that an option's row stands for; `set` entries carry no old value.

    >>> list(changes_of({"replace": {"item": ["hub"], "with": ["a"]}, "set": {"item.b.turn_deg": 90}}))
    [RemoveRow(kind='item', id='hub'), Change(address='item.b.turn_deg', old=None, new=90)]
    """
    return (change for _, change in located_changes(row))


def located_changes(row: Mapping[str, Any]) -> Iterator[Located]:
    """The changes of an option's row, each with its path in that row; what has another form is left out."""
    for table, gone in _pairs(row.get("replace")):
        if table != "with":
            for number, name in _those(gone, str):
                yield ("replace", table, number), RemoveRow(table, name)
    for number, address in _those(row.get("remove"), str):
        table, _, name = address.partition(".")
        yield ("remove", number), RemoveRow(table, name)
    for table, rows in _pairs(row.get("add")):
        for number, one in _those(rows, dict):
            yield ("add", table, number), AddRow(table, dict(one))
    for address, value in _pairs(row.get("set")):
        yield ("set", address), Change(address, None, value)


def _pairs(table: object) -> Iterable[tuple[str, Any]]:
    return table.items() if isinstance(table, dict) else ()


def _those(values: object, kind: type[Any]) -> Iterator[tuple[int, Any]]:
    """The entries of one type in a list, with their numbers in it."""
    for number, one in enumerate(values if isinstance(values, list) else ()):
        if isinstance(one, kind):
            yield number, one


class Claims:
    """Which option has touched which address: a field, a row added, or a row taken out."""

    def __init__(self) -> None:
        self._by: dict[str, str] = {}
        self._gone: set[str] = set()

    def clash(self, change: AnyChange, name: str) -> tuple[str, str] | None:
        """Claims what a change touches; what is wrong where another option has touched it before."""
        if isinstance(change, Change):
            row = change.address.rsplit(".", 1)[0]
            touched = [change.address, *([row] if row in self._gone else [])]
        elif isinstance(change, AddRow):
            row = f"{change.kind}.{change.row.get('id')}"
            touched = [row, *(f"{row}.{field}" for field in change.row)]
        else:
            row = f"{change.kind}.{change.id}"
            touched = [row, *(one for one in self._by if one.startswith(f"{row}."))]
            self._gone.add(row)
        other = next((one for one in touched if self._by.get(one, name) != name), None)
        if other is not None:
            what = f"the options {self._by[other]} and {name} both change {other}"
            return what, "use one of them, or make a third option that settles it"
        self._by.update(dict.fromkeys(touched, name))
        return None
