"""Where a change belongs while options are laid over: to the option that owns it, else to the base."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hardstand.changes import AddRow, AnyChange, Change, RemoveRow, parse_address, same_value
from hardstand.description.raw import Raw
from hardstand.description.write import NotWritableError, StaleChange


def routed(changes: Sequence[AnyChange], base: Raw, options: Sequence[str]) -> list[AnyChange]:
    """The changes, with those that an active option owns turned into changes of that option.

    An option owns the addresses in its `set` and the rows in its `add`; either way the new value
    goes into its `set`, which is laid over last. `base` holds the tables without any option. Raises
    StaleChange where an option's own value is not the one expected, NotWritableError for a row of
    an option that is to be taken out.

    >>> raw = Raw({}, rows={"option": [{"id": "aft", "set": {"item.hub.turn_deg": 90}}]})
    >>> routed([Change("item.hub.turn_deg", 90, 180)], raw, ["aft"])[0].new
    {'item.hub.turn_deg': 180}
    """
    rows = {row["id"]: row for row in base.rows.get("option", []) if row.get("id") in options}
    made: list[AnyChange] = []
    for change in changes:
        owner = next((name for name in options if name in rows and _owns(rows[name], change)), None)
        if owner is None:
            made.append(change)
            continue
        new = _inside(rows[owner], owner, change)
        rows[owner] = {**rows[owner], "set": new.new}
        made.append(new)
    return made


def _owns(option: dict[str, Any], change: AnyChange) -> bool:
    if isinstance(change, AddRow):
        return False
    if isinstance(change, RemoveRow):
        return _row_of(option, change.kind, change.id) is not None
    where = parse_address(change.address)
    added = where.id is not None and _row_of(option, where.kind, where.id) is not None
    return added or change.address in option.get("set", {})


def _row_of(option: dict[str, Any], kind: str, row_id: str) -> dict[str, Any] | None:
    rows = option.get("add", {}).get(kind, [])
    return next((row for row in rows if row.get("id") == row_id), None)


def _inside(option: dict[str, Any], name: str, change: AnyChange) -> Change:
    """The change of the option's own `set` that comes to the same."""
    if not isinstance(change, Change):
        raise NotWritableError(f"the option {name} brings this row; take it out of the option by hand")
    values: dict[str, Any] = option.get("set", {})
    found = values.get(change.address)
    if found is None:
        where = parse_address(change.address)
        found = (_row_of(option, where.kind, where.id or "") or {}).get(where.field)
    if not same_value(found, change.old):
        raise StaleChange(change.address, change.old, found)
    if change.new is None:
        raise NotWritableError(f"the option {name} sets this field; take it out of the option by hand")
    return Change(f"option.{name}.set", option.get("set"), {**values, change.address: change.new})
