"""Options: named alternative sets of changes, laid over the raw tables in the order named."""

from __future__ import annotations

import copy
from collections.abc import Iterator, Sequence
from typing import Any

from hardstand.changes import AddRow, AnyChange, Change, RemoveRow, parse_address
from hardstand.description.model import ROWS, SINGLES
from hardstand.description.problems import Problem, cut, listed, nearest
from hardstand.description.raw import Raw


def changes_of(row: dict[str, Any]) -> Iterator[AnyChange]:
    """The changes that an option's row stands for; `set` entries carry no old value."""
    replace = row.get("replace")
    if isinstance(replace, dict):
        for table, gone in replace.items():
            if table != "with" and isinstance(gone, list):
                yield from (RemoveRow(table, str(one)) for one in gone)
    for address in row.get("remove", []):
        table, _, name = str(address).partition(".")
        yield RemoveRow(table, name)
    added = row.get("add")
    if isinstance(added, dict):
        for table, rows in added.items():
            yield from (AddRow(table, dict(one)) for one in rows if isinstance(one, dict))
    values = row.get("set")
    if isinstance(values, dict):
        yield from (Change(str(address), None, value) for address, value in values.items())


def _touched(change: AnyChange) -> str:
    if isinstance(change, Change):
        return change.address
    if isinstance(change, AddRow):
        return f"{change.kind}.{change.row.get('id')}"
    return f"{change.kind}.{change.id}"


def lay_options(raw: Raw, names: Sequence[str]) -> list[Problem]:
    """Lay the named options over `raw` in place; two options that touch one address are a problem."""
    if not names:
        return []
    known = {
        row["id"]: (index, row)
        for index, row in enumerate(raw.rows.get("option", []))
        if isinstance(row.get("id"), str)
    }
    problems: list[Problem] = []
    by_whom: dict[str, str] = {}
    raw.rows = copy.deepcopy(raw.rows)
    raw.singles = copy.deepcopy(raw.singles)
    for name in names:
        if name not in known:
            near = nearest(name, known)
            problems.append(
                Problem(
                    "aeroplane.toml",
                    None,
                    f"option {name}",
                    f"there is no option {name}",
                    cut(name),
                    f"one of {listed(sorted(known))}",
                    f"did you mean {near}?" if near else "",
                )
            )
            continue
        index, row = known[name]
        for change in changes_of(row):
            address = _touched(change)
            if by_whom.setdefault(address, name) != name:
                problems.append(
                    _at(
                        raw,
                        index,
                        name,
                        f"the options {by_whom[address]} and {name} both set {address}",
                        "use one of them, or make a third option that settles it",
                    )
                )
                continue
            wrong = lay_change(raw, change)
            if wrong:
                problems.append(_at(raw, index, name, wrong, ""))
    return problems


def _at(raw: Raw, index: int, name: str, what: str, hint: str) -> Problem:
    file, line = raw.line("option", index)
    return Problem(file, line, f"option {name}", what, "", "", hint)


def lay_change(raw: Raw, change: AnyChange) -> str:
    """Lay one change over the raw tables in place; returns what is wrong with it, or nothing."""
    if isinstance(change, AddRow):
        if change.kind not in ROWS:
            return f"there is no table {change.kind} to add a row to"
        raw.rows.setdefault(change.kind, []).append(dict(change.row))
        return ""
    if isinstance(change, RemoveRow):
        return _remove(raw, change)
    try:
        address = parse_address(change.address)
    except ValueError as error:
        return str(error)
    target = (
        raw.singles.get(address.kind)
        if address.kind in SINGLES
        else next(
            (row for row in raw.rows.get(address.kind, []) if row.get("id") == address.id), None
        )
    )
    if not isinstance(target, dict):
        return f"there is no {address.kind} {address.id} to change"
    target[address.field] = change.new
    return ""


def _remove(raw: Raw, change: RemoveRow) -> str:
    rows = raw.rows.get(change.kind, [])
    for index, row in enumerate(rows):
        if row.get("id") == change.id:
            del rows[index]
            moved = {key: value for key, value in raw.origins.items() if key[0] == change.kind}
            for (table, at), origin in moved.items():
                if at == index:
                    del raw.origins[table, at]
                elif at > index:
                    del raw.origins[table, at]
                    raw.origins[table, at - 1] = origin
            return ""
    return f"there is no {change.kind} {change.id} to take out"
