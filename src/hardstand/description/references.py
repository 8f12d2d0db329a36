"""References between rows: unknown ids, duplicate ids, ports that a part does not have.

Works on the raw tables, so that a slip in one row never hides a wrong reference in another.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, get_args

from hardstand.description.fields import Ref, Table
from hardstand.description.model import ROWS, SINGLES

RawRows = Mapping[str, list[dict[str, Any]]]
Fault = tuple[
    str, int, str, str, tuple[str, ...]
]  # table, row, field, offending id, tables it may name


def _refs_in(annotation: object, metadata: tuple[object, ...] = ()) -> Ref | None:
    for one in metadata:
        if isinstance(one, Ref):
            return one
    for inner in get_args(annotation):
        if isinstance(inner, Ref):
            return inner
        found = _refs_in(inner)
        if found is not None:
            return found
    return None


@cache
def ref_fields(model: type[Table]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """(field, tables it may name) for every reference field of a row model."""
    found = []
    for name, field in model.model_fields.items():
        ref = _refs_in(field.annotation, tuple(field.metadata))
        if ref is not None:
            found.append((field.alias or name, ref.tables))
    return tuple(found)


def _words(value: Any) -> list[str]:
    values = value if isinstance(value, list) else [value]
    return [one for one in values if isinstance(one, str)]


def unknown_ids(
    rows: RawRows, singles: Mapping[str, Any], ids: Mapping[str, set[str]]
) -> Iterator[Fault]:
    """Every reference that names no row: (table, row index or -1, field, the id, tables allowed)."""
    for table, model in ROWS.items():
        for index, row in enumerate(rows.get(table, [])):
            yield from _in_row(table, index, row, model, ids)
    for table, model in SINGLES.items():
        if isinstance(singles.get(table), dict):
            yield from _in_row(table, -1, singles[table], model, ids)


def _in_row(
    table: str, index: int, row: Any, model: type[Table], ids: Mapping[str, set[str]]
) -> Iterator[Fault]:
    if not isinstance(row, dict):
        return
    for field, tables in ref_fields(model):
        for word in _words(row.get(field, [])):
            if not any(word in ids[one] for one in tables):
                yield table, index, field, word, tables


def duplicates(rows: RawRows) -> Iterator[tuple[str, int, str]]:
    """(table, row index, id) for the second and later row of a kind with the same id."""
    for table in ROWS:
        if table == "port":
            continue  # a port's id is its part's own
        seen: Counter[str] = Counter()
        for index, row in enumerate(rows.get(table, [])):
            name = row.get("id")
            if isinstance(name, str):
                seen[name] += 1
                if seen[name] > 1:
                    yield table, index, name
