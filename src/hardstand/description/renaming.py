"""A row given another id: every place that names it, as one list of changes, and the alias it leaves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from hardstand.changes import AddRow, AnyChange, Change, RemoveRow
from hardstand.description.model import ROWS, SINGLES
from hardstand.description.naming import Rename, renamed_row
from hardstand.description.new_ids import refuse_id
from hardstand.description.raw import Path, Raw

__all__ = ["Named", "Rename", "Renamed", "rename"]


@dataclass(frozen=True, slots=True)
class Named:
    """One place that names the row that is renamed.

    `table` and `row` say where (no id in a table that stands once), `path` leads to the value there.
    """

    table: str
    row: str
    path: Path
    file: str
    line: int | None


@dataclass(frozen=True, slots=True)
class Renamed:
    """What a rename comes to: the changes in the order they are made, and the places they touch."""

    changes: tuple[AnyChange, ...]
    places: tuple[Named, ...]


def rename(base: Raw, kind: str, old: str, new: str) -> Renamed:
    """The changes that give a row another id wherever it is named, options included.

    `base` holds the tables without any option. Fields that name a row, ends of leads, addresses of
    measurements, what an accepted finding is about and all that options say are rewritten; names,
    notes and comments stay as they are. The former id stays as an alias, and aliases of the row
    follow it. Raises RenameError where there is no such row or the new id cannot be had.
    """
    what = Rename(kind, old, new, frozenset(_other_kinds(base, kind, old)))
    refuse_id(base, what)
    places = [Named(table, _name(row), path, *base.line(table, index, *path))
              for table, index, row in _rows(base)
              for path in _differing(row, renamed_row(table, row, what))
              if table != "alias"]  # fmt: skip
    return Renamed((*rename_changes(base, what), *_aliases(base, what)), tuple(places))


def rename_changes(base: Raw, what: Rename) -> list[Change]:
    """The changes of the fields, the id of the row itself last.

    >>> raw = Raw({}, rows={"tray": [{"id": "front"}], "item": [{"id": "rx", "on": "front"}]})
    >>> [one.address for one in rename_changes(raw, Rename("tray", "front", "nose"))]
    ['item.rx.on', 'tray.front.id']
    """
    changes: list[Change] = []
    last: list[Change] = []
    for table, index, row in _rows(base):
        new = renamed_row(table, row, what)
        head = table if index < 0 else f"{table}.{_name(row, table)}"
        for field, value in row.items():
            if new[field] != value:
                (last if field == "id" else changes).append(
                    Change(f"{head}.{field}", value, new[field])
                )
    return changes + last


def _rows(base: Raw) -> Iterator[tuple[str, int, dict[str, Any]]]:
    """Table, place in it (-1: it stands once) and row of all that is described."""
    for table in SINGLES:
        if isinstance(base.singles.get(table), dict):
            yield table, -1, base.singles[table]
    for table in ROWS:
        for index, row in enumerate(base.rows.get(table, [])):
            yield table, index, row


def _name(row: Mapping[str, Any], table: str = "") -> str:
    """The id of a row; a port's as an address has it, with its part."""
    own = str(row.get("id", ""))
    return f"{row.get('part')}.{own}" if table == "port" else own


def _differing(old: Any, new: Any, path: Path = ()) -> Iterator[Path]:
    """The paths, in what was there before, at which two values of the same form differ."""
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        for (key, value), (name, other) in zip(old.items(), new.items(), strict=True):
            if key != name:
                yield (*path, key)
            else:
                yield from _differing(value, other, (*path, key))
    elif isinstance(old, list) and isinstance(new, list):
        for number, (value, other) in enumerate(zip(old, new, strict=True)):
            yield from _differing(value, other, (*path, number))
    elif old != new:
        yield path


def _aliases(base: Raw, what: Rename) -> Iterator[AnyChange]:
    """The former id kept; an id that the row takes back is no former one any more."""
    taken_back = f"{what.kind}.{what.new}"
    if any(row.get("id") == taken_back for row in base.rows.get("alias", [])):
        yield RemoveRow("alias", taken_back)
    yield AddRow("alias", {"id": f"{what.kind}.{what.old}", "now": what.new})


def _other_kinds(base: Raw, kind: str, old: str) -> Iterator[str]:
    """The other kinds of which a row has the same id."""
    return (table for table, ids in base.ids().items() if table != kind and old in ids)
