"""Every row and table read by its model: the frozen pieces of a description, and what is wrong."""

from __future__ import annotations

import marshal
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from hardstand.description.faults import Fault, checked
from hardstand.description.fields import Table
from hardstand.description.model import ROWS, SINGLES
from hardstand.description.problems import Problem, cut
from hardstand.description.raw import MAIN, Raw
from hardstand.description.rewording import path_in_words
from hardstand.description.tables import IMAGE


@dataclass
class Validated:
    """What could be read: `pieces` by table, all `problems`, and the tables that are not whole.

    `numbers` holds, by table, the place among the raw rows of each row that could be read.
    """

    pieces: dict[str, Any] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    faulty: set[str] = field(default_factory=set)
    numbers: dict[str, list[int]] = field(default_factory=dict)


def validated(raw: Raw) -> Validated:
    """Read every table by its model. A row that can't be read is left out and makes its table faulty."""
    result = Validated({"format": 1}, list(_head(raw)), set(raw.unsure))
    for table, model in SINGLES.items():
        result.pieces[table] = None
        if table in raw.singles:
            result.pieces[table] = _read(raw, table, -1, raw.singles[table], model, result)
    if result.pieces["aeroplane"] is None:
        result.faulty.add("aeroplane")
    for table, model in ROWS.items():
        rows = [_read(raw, table, index, row, model, result)
                for index, row in enumerate(raw.rows.get(table, []))]  # fmt: skip
        result.numbers[table] = [index for index, row in enumerate(rows) if row is not None]
        result.pieces[table] = tuple(row for row in rows if row is not None)
    return result


def _read(
    raw: Raw, table: str, index: int, row: Any, model: type[Table], result: Validated
) -> Table | None:
    read, faults = _checked(model, row)
    if faults:
        result.problems += [located(raw, table, index, fault) for fault in faults]
        result.faulty.add(table)
    return read


def _checked(model: type[Table], row: Any) -> tuple[Table | None, tuple[Fault, ...]]:
    """`checked`, kept by the row's content, so that after an edit only what changed is read anew."""
    try:
        image = marshal.dumps(row, IMAGE)
    except ValueError:  # a date in it
        return checked(model, row)
    return _kept(model, image)


@lru_cache(maxsize=8192)
def _kept(model: type[Table], image: bytes) -> tuple[Table | None, tuple[Fault, ...]]:
    return checked(model, marshal.loads(image))  # noqa: S302 written above


def located(raw: Raw, table: str, index: int, fault: Fault) -> Problem:
    """A fault of a row as a problem at its place in the file."""
    row_id = raw.row_id(table, index)
    file, line = raw.line(table, index, *fault.loc)
    name = str(fault.loc[0]) if fault.loc else ""
    return Problem(
        file,
        line,
        path_in_words(table, row_id, fault.loc),
        fault.what,
        fault.found,
        fault.expected,
        fault.hint,
        ".".join(part for part in (table, row_id, name) if part),
    )


def _head(raw: Raw) -> Iterator[Problem]:
    """What is wrong with the head of the main file, where that can be read."""
    if MAIN not in raw.texts or "aeroplane" in raw.unsure:
        return
    found = raw.singles.get("format")
    if found is None or isinstance(found, bool) or found != 1:
        what = "the line `format = 1` is missing" if found is None else f"format {cut(found)} is not known"
        line = 1 if found is None else raw.line("format", -1)[1]
        yield Problem(MAIN, line, "format", what, "" if found is None else cut(found), "format = 1",
                      "write format = 1 as the first line")
    if "aeroplane" not in raw.singles:
        yield Problem(MAIN, 1, "aeroplane", "the table [aeroplane] is missing", "",
                      "[aeroplane] with name", 'add [aeroplane] and name = "…"')
