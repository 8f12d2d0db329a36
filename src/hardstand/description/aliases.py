"""Ids that rows had before: what was recorded under an old one is found under the present one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Annotated, Any

from pydantic import StringConstraints

from hardstand.changes import AddressError, parse_address
from hardstand.description.fields import PATTERNS, Id, Table

FORMER = r"^[a-z][a-z0-9_]*\.[A-Za-z0-9][A-Za-z0-9_-]*$"
PATTERNS[FORMER] = "a kind and the id that it had, such as item.rx-left"
Former = Annotated[str, StringConstraints(max_length=80, pattern=FORMER)]


class Alias(Table):
    """`[[alias]]`: an id that a row had before it was renamed, and the one that it has now.

    `id` is the kind with the former id (`item.rx-left`), `now` the present id alone. A rename writes
    these rows and keeps them up to date, so that a measurement or a signed result under a former id
    still belongs to its row. A former id is never given to another row.
    """

    id: Former
    now: Id


Names = Mapping[str, str]  # kind.former id → present id


def names_of(aliases: Iterable[Alias]) -> dict[str, str]:
    """The present ids by kind and former id.

    >>> names_of([Alias(id="item.rx", now="receiver")])
    {'item.rx': 'receiver'}
    """
    return {one.id: one.now for one in aliases}


def names_in(rows: Sequence[Mapping[str, Any]]) -> dict[str, str]:
    """The same from raw rows; what is no alias is left out.

    >>> names_in([{"id": "item.rx", "now": "receiver"}, {"id": 3}])
    {'item.rx': 'receiver'}
    """
    return {row["id"]: row["now"] for row in rows
            if isinstance(row.get("id"), str) and isinstance(row.get("now"), str)}


def present_id(kind: str, row_id: str, names: Names) -> str:
    """The id that a row has now, under the one it is called by.

    >>> present_id("item", "rx", {"item.rx": "receiver"}), present_id("item", "hub", {})
    ('receiver', 'hub')
    """
    return names.get(f"{kind}.{row_id}", row_id)


def present_address(text: str, names: Names) -> str:
    """An address with its row under the present id; any other text comes back as it is.

    >>> present_address("item.rx.at_mm.x", {"item.rx": "receiver"})
    'item.receiver.at_mm.x'
    """
    try:
        where = parse_address(text)
    except AddressError:
        return text
    now = names.get(f"{where.kind}.{where.id}") if where.id else None
    if now is None:
        return text
    return ".".join(one for one in (where.kind, now, where.field, where.index) if one)
