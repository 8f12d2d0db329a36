"""The folder's files as one set of raw tables, with the place that each row came from."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from hardstand.description.lines import locate, syntax_error
from hardstand.description.model import MEASUREMENT_TABLES, PARTS_TABLES, ROWS, SINGLES
from hardstand.description.problems import Problem, cut, listed, nearest
from hardstand.description.tables import load

MAIN = "aeroplane.toml"
MEASUREMENTS = "measurements.toml"
Path = tuple[str | int, ...]
_MANY_DIGITS = re.compile(r"[0-9_]{4000,}")


@dataclass
class Place:
    """Where a row or a table is written: its file, its path there, and the fields set elsewhere.

    `overlaid` holds the paths, in the main file, of the values that an option laid over it.
    """

    file: str
    path: Path
    overlaid: dict[str, Path] = field(default_factory=dict)


@dataclass
class Raw:
    """Every table as it stands in the files, before any model has looked at it.

    rows: table → list of rows; places: for each of them where it is written, in the same order.
    unsure: the tables of which a row may be missing here, because a file or a table can't be read.
    """

    texts: Mapping[str, str]
    rows: dict[str, list[dict[str, Any]]] = field(default_factory=dict)
    singles: dict[str, Any] = field(default_factory=dict)
    places: dict[str, list[Place]] = field(default_factory=dict)
    overlaid: dict[str, Place] = field(default_factory=dict)
    unsure: set[str] = field(default_factory=set)

    def line(self, table: str, index: int, *loc: str | int) -> tuple[str, int | None]:
        """File and line of a key path; the nearest line above it where the key itself is missing.

        `index` is the row's, or -1 for a table that stands once.
        """
        alone = self.overlaid.get(table) or Place(MAIN, (table,))
        place = alone if index < 0 else self.places[table][index]
        whole = (*place.path, *loc)
        if loc and loc[0] in place.overlaid:
            whole = (*place.overlaid[str(loc[0])], *loc[1:])
            return MAIN, locate(self.texts[MAIN], whole)
        text = self.texts.get(place.file)
        return place.file, None if text is None else locate(text, whole)

    def row_id(self, table: str, index: int) -> str:
        """The id of a row, or its number where it has none."""
        if index < 0:
            return ""
        row = self.rows[table][index]
        name = row.get("id")
        return name if isinstance(name, str) else f"number {index + 1}"

    def ids(self) -> dict[str, set[str]]:
        """The ids that exist, by table."""
        return {table: self.ids_of(table) for table in ROWS}

    def ids_of(self, table: str) -> set[str]:
        """The ids that exist in one table."""
        return {name for row in self.rows.get(table, ()) if isinstance(name := row.get("id"), str)}

    def copied(self) -> Raw:
        """A copy whose rows can be changed: values are shared, since a change replaces them whole."""
        return Raw(
            self.texts,
            {table: [dict(row) for row in rows] for table, rows in self.rows.items()},
            {name: dict(one) if isinstance(one, dict) else one
             for name, one in self.singles.items()},
            {table: [Place(one.file, one.path, one.overlaid.copy()) for one in places]
             for table, places in self.places.items()},
            {name: Place(one.file, one.path, dict(one.overlaid))
             for name, one in self.overlaid.items()},
            set(self.unsure),
        )  # fmt: skip


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
            data = load(texts[file])
        except (ValueError, RecursionError) as error:
            problems.append(_unparsed(file, texts[file], error))
            raw.unsure.update(tables_of(file))
            continue
        problems.extend(_take(raw, file, data))
    if MAIN not in texts:
        raw.unsure.update(tables_of(MAIN))
    return raw, problems


def _unparsed(file: str, text: str, error: Exception) -> Problem:
    long = _MANY_DIGITS.search(text)
    if long and not isinstance(error, tomllib.TOMLDecodeError | RecursionError):
        # The parser lets through what the language says of a number with thousands of digits.
        line = text.count("\n", 0, long.start()) + 1
        what = "this number has thousands of digits"
        return Problem(file, line, "", what, cut(long[0]).strip('"'), "an ordinary number")
    slip = syntax_error(text, error)
    return Problem(file, slip.line, "", slip.what, slip.found, slip.expected, slip.hint)


def _take(raw: Raw, file: str, data: dict[str, Any]) -> list[Problem]:
    allowed = tables_of(file)
    problems = []
    for table, value in data.items():
        if table == "format":
            if file == MAIN:
                raw.singles["format"] = value
        elif table not in allowed:
            problems.append(_unknown_table(raw, file, table, allowed))
        elif table in SINGLES:
            if isinstance(value, dict):
                raw.singles[table] = value
            else:
                problems.append(_wrong_form(raw, file, table, value, f"[{table}]"))
        elif isinstance(value, list) and all(isinstance(row, dict) for row in value):
            raw.rows.setdefault(table, []).extend(value)
            raw.places.setdefault(table, []).extend(
                Place(file, (table, local)) for local in range(len(value))
            )
        else:
            problems.append(_wrong_form(raw, file, table, value, f"[[{table}]]"))
    return problems


def _wrong_form(raw: Raw, file: str, table: str, value: Any, header: str) -> Problem:
    raw.unsure.add(table)
    return Problem(
        file,
        locate(raw.texts[file], (table,)),
        table,
        f"{table} has the wrong form here",
        f"[{table}]" if isinstance(value, dict) else cut(value),
        f"a table headed {header}",
        f"head it with {header}",
    )


def _unknown_table(raw: Raw, file: str, table: str, allowed: tuple[str, ...]) -> Problem:
    line = locate(raw.texts[file], (table,))
    if table in ROWS or table in SINGLES:
        home = MEASUREMENTS if table in MEASUREMENT_TABLES else MAIN
        raw.unsure.add(table)
        return Problem(
            file,
            line,
            table,
            f"{table} does not belong in this file",
            table,
            f"{table} in {home}",
            f"move it to {home}",
        )
    near = nearest(table, allowed)
    if near:
        raw.unsure.add(near)
    return Problem(
        file,
        line,
        table,
        f"there is no table {cut(table).strip(chr(34))}",
        cut(table).strip('"'),
        f"one of {listed(sorted(allowed), 40)}",
        f"did you mean {near}?" if near else "",
    )
