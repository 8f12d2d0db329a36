"""Measurements laid over the description: in force while declared value and part are unchanged."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hardstand.asbuilt.inputs import Measured
from hardstand.asbuilt.value import StaleMeasurement
from hardstand.changes import parse_address
from hardstand.description.catalogue import Resolved
from hardstand.description.model import SINGLES, Description


def declared_now(description: Description, address: str, parts: Mapping[str, Resolved]) -> object:
    """What the description says at an address: the whole part's value where the row gives none."""
    where = parse_address(address)
    if where.kind in SINGLES:
        return getattr(getattr(description, where.kind, None), where.field, None)
    rows = getattr(description, where.kind, ())
    row = next((one for one in rows if one.id == where.id), None)
    value = getattr(row, where.field, None)
    part_id = str({"item": getattr(row, "part", ""), "part": where.id}.get(where.kind))
    if value is None and part_id in parts:
        value = getattr(parts[part_id].part, where.field, None)
    return value


def part_now(description: Description, address: str) -> str:
    """The part that an item is now, where the address is of an item; else nothing."""
    where = parse_address(address)
    row = next((one for one in description.item if one.id == where.id), None)
    return row.part if where.kind == "item" and row is not None else ""


def _same(then: object, now: object) -> bool:
    if isinstance(then, tuple) and isinstance(now, tuple):
        return len(then) == len(now) and all(_same(a, b) for a, b in zip(then, now, strict=True))
    return then == now


def lay_measurements(
    description: Description,
    parts: Mapping[str, Resolved],
) -> tuple[Description, dict[str, Measured], tuple[StaleMeasurement, ...]]:
    """The description with measured values in place, which addresses they hold, and the stale ones.

    A later measurement of the same address wins. Nothing is ever dropped: what no longer holds is
    returned as stale, with the declared value then and now.
    """
    measured: dict[str, Measured] = {}
    stale: list[StaleMeasurement] = []
    updates: dict[tuple[str, str], dict[str, Any]] = {}
    for one in description.measurement:
        now = declared_now(description, one.address, parts)
        part = part_now(description, one.address)
        if not _same(one.declared, now) or (one.part and one.part != part):
            stale.append(StaleMeasurement(one.id, one.address, one.declared, now))
            continue
        where = parse_address(one.address)
        measured[one.address] = Measured(one.id, one.tol)
        updates.setdefault((where.kind, where.id or ""), {})[where.field] = one.value
    return _updated(description, updates), measured, tuple(stale)


def _updated(
    description: Description, updates: dict[tuple[str, str], dict[str, Any]]
) -> Description:
    tables: dict[str, Any] = {}
    for (kind, row_id), values in updates.items():
        if kind in SINGLES:
            tables[kind] = getattr(description, kind).model_copy(update=values)
            continue
        rows = tables.get(kind, getattr(description, kind))
        tables[kind] = tuple(
            row.model_copy(update=values) if row.id == row_id else row for row in rows
        )
    return description.model_copy(update=tables)
