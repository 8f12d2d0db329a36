"""The pages of the description: its tables, the rows of one, every field of a row."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.description.model import ROWS, SINGLES
from hardstand.description.problems import Problem
from hardstand.standing import stand_of
from hardstand.views.number import value_in_file
from hardstand.workbench.asked import Asked, Common, NoSuchPageError, common
from hardstand.workbench.fields import Field, about_table, fields_of


@dataclass(frozen=True)
class Entry:
    """One field with what stands in it: as typed, as JSON, and where in the file.

    `problems` are those of what was just typed here.
    """

    address: str
    field: Field
    typed: str
    old: str
    file: str
    line: int | None
    known: Sequence[str]
    problems: Sequence[Problem]
    refusal: str


@dataclass(frozen=True)
class DescriptionPage:
    """All tables with their number of rows; the rows of one table; the fields of one row."""

    common: Common
    tables: Sequence[tuple[str, int]]
    table: str
    about: str
    rows: Sequence[tuple[str, str]]
    row: str
    entries: Sequence[Entry]


def description(asked: Asked) -> DescriptionPage:
    """What is asked for of the description: everything, a table, or a row."""
    raw = asked.held.workspace.read.raw
    tables = [(name, 1 if name in raw.singles else 0) for name in SINGLES]
    tables += [(name, len(raw.rows.get(name, []))) for name in ROWS]
    table, row_id = asked.query.get("table", ""), asked.query.get("row", "")
    if table and table not in dict(tables):
        raise NoSuchPageError(f"There is no table {table}.", "The description's page lists them.")
    rows = [(str(one.get("id", "")), str(one.get("name") or "")) for one in raw.rows.get(table, [])]
    if row_id and row_id not in dict(rows):
        raise NoSuchPageError(f"There is no {table} {row_id}.", "It may have been taken out or renamed.")
    entries = _entries(asked, table, row_id) if row_id or table in SINGLES else []
    title = row_id or (f"[{table}]" if table in SINGLES else f"[[{table}]]" if table else "Description")
    return DescriptionPage(
        common(asked, None, title, "as the files hold it"), [one for one in tables if one[1]], table,
        about_table(table) if table else "", rows, row_id, entries,
    )  # fmt: skip


def _entries(asked: Asked, table: str, row_id: str) -> list[Entry]:
    stem = f"{table}.{row_id}" if row_id else table
    return [_entry(asked, f"{stem}.{one.name}", one) for one in fields_of(table) if one.name != "id"]


def _entry(asked: Asked, address: str, field: Field) -> Entry:
    workspace = asked.held.workspace
    value = workspace.value_at(address)
    stand = stand_of(workspace.read.raw, address) if value is not None else {"file": None, "line": None}
    outcome = asked.outcome
    here = outcome is not None and not outcome.made and outcome.at == address
    typed = asked.typed.get("typed", "") if here else _typed(value)
    return Entry(
        address, field, typed, json.dumps(value), stand["file"] or "", stand["line"],
        _known(asked, field), outcome.problems if outcome and here else (),
        outcome.words if outcome and here else "",
    )  # fmt: skip


def _typed(value: Any) -> str:
    """A value as one types it into its field: text bare, all else as the file writes it."""
    if value is None:
        return ""
    return value if isinstance(value, str) else value_in_file(value)


def _known(asked: Asked, field: Field) -> list[str]:
    """The ids that a field may name."""
    description = asked.held.workspace.read.description
    return [one.id for table in field.tables for one in getattr(description, table, ()) or ()]

