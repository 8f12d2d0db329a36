"""The folder's files as one set of raw tables, with the file and row each came from."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from hardstand.description.lines import locate, syntax_error
from hardstand.description.model import MEASUREMENT_TABLES, PARTS_TABLES, ROWS, SINGLES
from hardstand.description.problems import Problem, cut, listed, nearest

MAIN = "aeroplane.toml"
MEASUREMENTS = "measurements.toml"


@dataclass
class Raw:
    """Every table as it stands in the files, before any model has looked at it.

    rows: table → list of rows. origins: (table, index) → (file, index within that file).
    added: the rows that no file holds, because an option brought them.
    """

    texts: Mapping[str, str]
    rows: dict[str, list[dict[str, Any]]] = field(default_factory=dict)
    singles: dict[str, Any] = field(default_factory=dict)
    origins: dict[tuple[str, int], tuple[str, int]] = field(default_factory=dict)

    def line(self, table: str, index: int, *loc: str | int) -> tuple[str, int | None]:
        """File and line of a key path; the nearest line above it where the key itself is missing."""
        if index < 0:
            return MAIN, locate(self.texts[MAIN], (table, *loc)) if MAIN in self.texts else None
        file, local = self.origins.get((table, index), (MAIN, -1))
        if local < 0 or file not in self.texts:
            return file, None
        return file, locate(self.texts[file], (table, local, *loc))

    def row_id(self, table: str, index: int) -> str:
        """The id of a row, or its number where it has none."""
        if index < 0:
            return ""
        row = self.rows[table][index]
        name = row.get("id")
        return name if isinstance(name, str) else f"number {index + 1}"

    def ids(self) -> dict[str, set[str]]:
        """The ids that exist, by table."""
        return {
            table: {row["id"] for row in self.rows.get(table, []) if isinstance(row.get("id"), str)}
            for table in ROWS
        }


def tables_of(file: str) -> tuple[str, ...]:
    """The tables that may stand in a file: parts, measurements, or all the others."""
    if file.startswith("parts/"):
        return PARTS_TABLES
    if file == MEASUREMENTS:
        return MEASUREMENT_TABLES
    return tuple(name for name in (*SINGLES, *ROWS) if name not in MEASUREMENT_TABLES)


def parse(texts: Mapping[str, str]) -> tuple[Raw, list[Problem]]:
    """Parse all files; a broken one costs its own problems and leaves the others readable."""
    raw = Raw(texts)
    problems: list[Problem] = []
    for file in sorted(texts, key=lambda name: (name != MAIN, name)):
        try:
            data = tomllib.loads(texts[file])
        except (tomllib.TOMLDecodeError, RecursionError) as error:
            slip = syntax_error(texts[file], error)
            problems.append(
                Problem(file, slip.line, "", slip.what, slip.found, slip.expected, slip.hint)
            )
            continue
        problems.extend(_take(raw, file, data))
    return raw, problems


def _take(raw: Raw, file: str, data: dict[str, Any]) -> list[Problem]:
    allowed = tables_of(file)
    problems = []
    for table, value in data.items():
        if table == "format":
            if file == MAIN:
                raw.singles["format"] = value
        elif table not in allowed:
            problems.append(_unknown_table(raw, file, table, value, allowed))
        elif table in SINGLES:
            if isinstance(value, dict):
                raw.singles[table] = value
            else:
                problems.append(_wrong_form(raw, file, table, value, f"[{table}]"))
        elif isinstance(value, list) and all(isinstance(row, dict) for row in value):
            kept = raw.rows.setdefault(table, [])
            for local, row in enumerate(value):
                raw.origins[table, len(kept)] = (file, local)
                kept.append(row)
        else:
            problems.append(_wrong_form(raw, file, table, value, f"[[{table}]]"))
    return problems


def _wrong_form(raw: Raw, file: str, table: str, value: Any, header: str) -> Problem:
    return Problem(
        file,
        locate(raw.texts[file], (table,)),
        table,
        f"{table} has the wrong form here",
        cut(value),
        f"a table headed {header}",
        f"head it with {header}",
    )


def _unknown_table(
    raw: Raw, file: str, table: str, value: Any, allowed: tuple[str, ...]
) -> Problem:
    line = locate(raw.texts[file], (table,))
    if table in ROWS or table in SINGLES:
        home = MEASUREMENTS if table in MEASUREMENT_TABLES else MAIN
        return Problem(
            file,
            line,
            table,
            f"{table} does not belong in this file",
            table,
            f"{table} stands in {home}",
            f"move it to {home}",
        )
    near = nearest(table, allowed)
    return Problem(
        file,
        line,
        table,
        f"there is no table {table}",
        cut(value),
        f"one of {listed(sorted(allowed), 40)}",
        f"did you mean {near}?" if near else "",
    )
