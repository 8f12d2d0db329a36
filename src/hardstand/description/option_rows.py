"""Options that are not laid: each is tried by itself, so that its slips show before it is needed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from hardstand.description.catalogue import Catalogue, generic_ids
from hardstand.description.ends import Ports, end_problems
from hardstand.description.faults import checked
from hardstand.description.model import ROWS, SINGLES
from hardstand.description.options import lay, with_problems
from hardstand.description.problems import Problem
from hardstand.description.raw import Raw
from hardstand.description.references import Ids, reference_problems
from hardstand.description.set_aside import brought_by_options, set_aside
from hardstand.description.validated import located


def unlaid_problems(
    base: Raw, laid: Sequence[str], catalogue: Catalogue, faulty: AbstractSet[str] = frozenset()
) -> Iterator[Problem]:
    """What is wrong with the options other than `laid`, each laid over the description by itself.

    A row that another option brings may be changed or named: options may build on one another.
    What is wrong without any option is not told again. `faulty` are the tables that are not whole.
    """
    rows = base.rows.get("option", [])
    others = [index for index, row in enumerate(rows) if row.get("id") not in laid]
    if not others:
        return
    brought = brought_by_options(base)
    sure = not faulty & {"part", "port"}
    anyway = {_what(one) for one in _problems(base, brought, catalogue, sure=sure)}
    for index in others:
        tried = base.copied()
        problems = [*lay(tried, index, brought), *with_problems(tried, index, brought)]
        set_aside(tried, base, (base.row_id("option", index),))
        problems += [*_touched_rows(tried), *_problems(tried, brought, catalogue, sure=sure)]
        prefix = f"option {base.row_id('option', index)}"
        for one in problems:
            if _what(one) not in anyway:
                yield one if one.where.startswith(prefix) else replace(
                    one, where=f"{prefix}: {one.where}")  # fmt: skip


def _what(problem: Problem) -> tuple[str, int | None, str]:
    return problem.file, problem.line, problem.what


def _problems(raw: Raw, brought: Raw, catalogue: Catalogue, *, sure: bool) -> list[Problem]:
    also: Ids = brought.ids()
    ports = Ports(catalogue, [*raw.rows.get("item", []), *brought.rows.get("item", [])], sure=sure)
    return [*reference_problems(raw, generic_ids(), also), *end_problems(raw, ports)]


def _touched_rows(raw: Raw) -> Iterator[Problem]:
    """What the models have against rows that an option brought or set a field of."""
    for table, model in ROWS.items():
        for index, place in enumerate(raw.places.get(table, [])):
            if place.overlaid or place.path[0] == "option" != table:
                for fault in checked(model, raw.rows[table][index])[1]:
                    yield located(raw, table, index, fault)
    for table in raw.overlaid:
        for fault in checked(SINGLES[table], raw.singles[table])[1]:
            yield located(raw, table, -1, fault)
