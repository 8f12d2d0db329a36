"""Read a description: the files' texts in, one frozen `Description` or all problems at once out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from hardstand.description.catalogue import generic_ids
from hardstand.description.fields import Table
from hardstand.description.model import ROWS, SINGLES, Description
from hardstand.description.options import lay_options
from hardstand.description.problems import Problem, UnreadableError, cut, listed, nearest
from hardstand.description.raw import MAIN, Raw, parse
from hardstand.description.references import duplicates, unknown_ids
from hardstand.description.rewording import path_in_words, reworded
from hardstand.description.storage import Folder
from hardstand.description.whole import whole_problems


@dataclass(frozen=True)
class Read:
    """A description that was read, with the raw tables behind it (for line numbers) and its texts."""

    description: Description
    raw: Raw
    options: tuple[str, ...] = ()


def read_folder(path: Path, options: Sequence[str] = ()) -> Read:
    """Read the aeroplane in a folder; raises `UnreadableError` with every problem found."""
    return read_texts(Folder(path).texts(), options)


def read_texts(texts: Mapping[str, str], options: Sequence[str] = ()) -> Read:
    """Read the aeroplane from its files' texts (name → text), with the named options laid over.

    Raises `UnreadableError` with every problem that could be found in one go: a broken file never
    hides what is wrong in another.
    """
    raw, problems = parse(texts)
    if MAIN not in texts:
        problems.append(
            Problem(
                MAIN,
                None,
                "",
                "there is no aeroplane.toml in this folder",
                "",
                "",
                "make one with `hardstand new DIR`, or `hardstand demo DIR` to look at one",
            )
        )
    broken = bool(problems)
    problems += lay_options(raw, options)
    pieces: dict[str, Any] = {}
    problems += list(_validated(raw, pieces, main_is_broken=broken))
    if not broken:
        problems += list(_references(raw))
    if problems:
        raise UnreadableError(problems)
    description = Description.model_construct(**pieces)
    problems = whole_problems(description, raw)
    if problems:
        raise UnreadableError(problems)
    return Read(description, raw, tuple(options))


def _validated(raw: Raw, pieces: dict[str, Any], *, main_is_broken: bool) -> Iterator[Problem]:
    if not main_is_broken:
        yield from _format(raw)
        for table in ("aeroplane", *(name for name in SINGLES if name in raw.singles)):
            if table == "aeroplane" and table not in raw.singles:
                yield Problem(
                    MAIN,
                    1,
                    "",
                    "the table [aeroplane] is missing",
                    "",
                    "[aeroplane] with name",
                    'add [aeroplane] and name = "…"',
                )
    pieces["format"] = 1
    for table, model in SINGLES.items():
        pieces[table] = None
        if table in raw.singles:
            yield from _one(raw, table, -1, raw.singles[table], model, pieces)
    for table, row_model in ROWS.items():
        kept: dict[str, Any] = {}
        rows = []
        for index, row in enumerate(raw.rows.get(table, [])):
            kept.clear()
            yield from _one(raw, table, index, row, row_model, kept)
            rows += list(kept.values())
        pieces[table] = tuple(rows)


def _format(raw: Raw) -> Iterator[Problem]:
    found = raw.singles.get("format")
    if found != 1 or isinstance(found, bool):
        missing = found is None
        what = (
            "the line `format = 1` is missing" if missing else f"format {cut(found)} is not known"
        )
        yield Problem(
            MAIN,
            1 if missing else raw.line("format", -1)[1],
            "format",
            what,
            "" if missing else cut(found),
            "format = 1",
            "write format = 1 as the first line",
        )


def _one(
    raw: Raw, table: str, index: int, row: Any, model: type[Table], kept: dict[str, Any]
) -> Iterator[Problem]:
    try:
        kept[table] = model.model_validate(row)
    except ValidationError as error:
        row_id = raw.row_id(table, index)
        for detail in error.errors():
            what, expected, hint = reworded(detail, model)
            loc = tuple(detail["loc"])
            file, line = raw.line(table, index, *loc)
            field = str(loc[0]) if loc else ""
            found = "" if detail["type"] in ("missing", "value_error") else cut(detail["input"])
            yield Problem(
                file,
                line,
                path_in_words(table, row_id, loc),
                what,
                found,
                expected,
                hint,
                ".".join(part for part in (table, row_id, field) if part),
            )


def _references(raw: Raw) -> Iterator[Problem]:
    ids = raw.ids()
    ids["part"] |= generic_ids()
    for table, index, name in duplicates(raw.rows):
        file, line = raw.line(table, index, "id")
        yield Problem(
            file,
            line,
            f"{table} {name}",
            f"there is already a {table} with the id {name}",
            cut(name),
            "an id of its own",
            "give this one another id",
        )
    for table, index, field, word, tables in unknown_ids(raw.rows, raw.singles, ids):
        known = sorted(set().union(*(ids[one] for one in tables)))
        near = nearest(word, known)
        file, line = raw.line(table, index, field)
        kind = " or ".join(tables).replace("_", "-")
        yield Problem(
            file,
            line,
            path_in_words(table, raw.row_id(table, index), (field,)),
            f"there is no {kind} {word}",
            cut(word),
            f"one of {listed(known, 12)}",
            f"did you mean {near}?"
            if near
            else (
                "search with `hardstand parts`"
                if "part" in tables
                else f"add a {kind} with that id"
            ),
        )
