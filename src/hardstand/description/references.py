"""References between rows: unknown ids, ids given twice.

Works on the raw tables, so that a slip in one row never hides a wrong reference in another.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from functools import cache
from itertools import combinations
from typing import Any, get_args

from hardstand.description.aliases import names_in
from hardstand.description.fields import Ref, Table
from hardstand.description.model import ROWS, SINGLES
from hardstand.description.problems import Problem, cut, listed, nearest
from hardstand.description.raw import Raw
from hardstand.description.rewording import path_in_words

Ids = Mapping[str, set[str]]
RawRows = Mapping[str, list[dict[str, Any]]]
Fault = tuple[
    str, int, str, str, tuple[str, ...]
]  # table, row, field, offending id, tables it may name


def _refs_in(annotation: object, metadata: tuple[object, ...] = ()) -> Ref | None:
    for one in (*metadata, *get_args(annotation)):
        if isinstance(one, Ref):
            return one
    found = (_refs_in(inner) for inner in get_args(annotation))
    return next((one for one in found if one is not None), None)


@cache
def ref_fields(model: type[Table]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """(field, tables it may name) for every reference field of a row model.

    >>> from hardstand.description.items import OnHand
    >>> ref_fields(OnHand)
    (('part', ('part',)), ('instead_of', ('item',)))
    """
    found = []
    for name, field in model.model_fields.items():
        ref = _refs_in(field.annotation, tuple(field.metadata))
        if ref is not None:
            found.append((field.alias or name, ref.tables))
    return tuple(found)


@cache
def named_together() -> tuple[tuple[str, str], ...]:
    """Pairs of tables that one field may name: an id that both have would say nothing there.

    >>> ("item", "mass") in named_together()
    True
    """
    fields = [ref for model in ROWS.values() for ref in ref_fields(model)]
    return tuple(dict.fromkeys(pair for _, tables in fields for pair in combinations(tables, 2)))


def reference_problems(
    raw: Raw, generic: frozenset[str], also: Ids | None = None
) -> Iterator[Problem]:
    """Every id given twice and every reference to a row that is not there, located.

    `generic` holds the ids of the catalogue's parts, `also` further ids that may be named. A table
    that may have more rows than could be read, or a row without a readable id, is given the benefit
    of the doubt.
    """
    for table, index, name in duplicates(raw.rows):
        yield _twice(raw, table, index, name, table)
    ids = raw.ids()
    for table, other in named_together():
        shared = ids[table] & ids[other]
        for index, row in enumerate(raw.rows.get(other, []) if shared else ()):
            shown = row.get("id")
            if isinstance(shown, str) and shown in shared:
                yield _twice(raw, other, index, shown, table)
    ids["part"] |= generic
    for table, more in (also or {}).items():
        ids[table] |= more
    nameless = {table for table, rows in raw.rows.items()
                if any(not isinstance(row.get("id"), str) for row in rows)}  # fmt: skip
    for table, index, field, word, tables in unknown_ids(raw.rows, raw.singles, ids):
        if not (raw.unsure | nameless) & set(tables):
            yield _unknown(raw, ids, (table, index, field, word, tables))


def _twice(raw: Raw, table: str, index: int, name: str, other: str) -> Problem:
    file, line = raw.line(table, index, "id")
    return Problem(
        file,
        line,
        f"{table} {cut(name).strip(chr(34))}",
        f"there is already {article(other)} with this id",
        cut(name),
        "an id of its own",
        "give this one another id",
        f"{table}.{name}.id",
    )


def _unknown(raw: Raw, ids: Ids, fault: Fault) -> Problem:
    table, index, field, word, tables = fault
    known = sorted(set().union(*(ids[one] for one in tables)))
    names = names_in(raw.rows.get("alias", []))
    near = next((names[key] for one in tables if (key := f"{one}.{word}") in names), "")
    near = near or nearest(word, known)
    file, line = raw.line(table, index, field)
    kind = " or ".join(tables).replace("_", "-")
    otherwise = "search with `hardstand parts`" if "part" in tables else f"add {article(kind)} with that id"
    row_id = raw.row_id(table, index)
    return Problem(
        file,
        line,
        path_in_words(table, row_id, (field,)),
        f"there is no {kind} {cut(word).strip(chr(34))}",
        cut(word),
        f"one of {listed(known, 12)}" if known else f"{article(kind)}, and none is described",
        f"did you mean {near}?" if near else otherwise,
        ".".join(part for part in (table, row_id, field) if part),
    )


def article(kind: str) -> str:
    """A kind of row with its article.

    >>> article("item"), article("keep_out")
    ('an item', 'a keep-out')
    """
    words = kind.replace("_", "-")
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"


def _words(value: Any) -> list[str]:
    values = value if isinstance(value, list) else [value]
    return [one for one in values if isinstance(one, str)]


def unknown_ids(
    rows: RawRows, singles: Mapping[str, Any], ids: Ids
) -> Iterator[Fault]:
    """Every reference that names no row: (table, row index or -1, field, the id, tables allowed)."""
    for table, model in ROWS.items():
        for index, row in enumerate(rows.get(table, [])):
            yield from _in_row(table, index, row, model, ids)
    for table, model in SINGLES.items():
        if isinstance(singles.get(table), dict):
            yield from _in_row(table, -1, singles[table], model, ids)


def _in_row(
    table: str, index: int, row: Any, model: type[Table], ids: Ids
) -> Iterator[Fault]:
    for field, tables in ref_fields(model):
        value = row.get(field)
        for word in () if value is None else _words(value):
            if all(word not in ids[one] for one in tables):
                yield table, index, field, word, tables


def duplicates(rows: RawRows) -> Iterator[tuple[str, int, str]]:
    """(table, row index, id) for the second and later row of a kind with the same id.

    A port's id is its part's own; a limit's is the program's.
    """
    for table in ROWS:
        seen: Counter[object] = Counter()
        for index, row in enumerate(rows.get(table, [])):
            name = row.get("id")
            if isinstance(name, str):
                known_by = (str(row.get("part")), name) if table == "port" else name
                seen[known_by] += 1
                if seen[known_by] > 1:
                    yield table, index, name
