"""Options: named alternative sets of changes, laid over the raw tables in the order named."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from hardstand.changes import AddressError, AddRow, AnyChange, Change, RemoveRow, parse_address
from hardstand.description.model import ROWS, SINGLES
from hardstand.description.option_changes import Claims, located_changes
from hardstand.description.problems import Problem, cut, listed, nearest
from hardstand.description.raw import MAIN, Path, Place, Raw

FIXED = ("option", "alias", "measurement", "weighing", "reading")  # tables that no option reaches into


def lay_options(raw: Raw, names: Sequence[str]) -> list[Problem]:
    """Lay the named options over `raw` in place; two options that touch one address are a problem."""
    known: dict[str, int] = {}
    for index, row in enumerate(raw.rows.get("option", [])):
        if isinstance(row.get("id"), str):
            known.setdefault(row["id"], index)
    problems: list[Problem] = []
    claims = Claims()
    for name in dict.fromkeys(names):
        if name not in known:
            if "option" not in raw.unsure:
                problems.append(_no_option(name, known))
            continue
        index = known[name]
        for path, change in located_changes(raw.rows["option"][index]):
            wrong = claims.clash(change, name)
            if wrong:
                problems.append(option_problem(raw, index, path, wrong))
        problems += [*lay(raw, index), *with_problems(raw, index)]
    return problems


def lay(raw: Raw, index: int, brought: Raw | None = None) -> Iterator[Problem]:
    """Lay all changes of one option over `raw` in place; what can't be laid is a problem.

    A change of a row that stands in `brought`, the rows of all options, waits for its option.
    """
    for path, change in located_changes(raw.rows["option"][index]):
        wrong = lay_change(raw, change, index, path)
        if wrong and not _waits(change, brought):
            yield option_problem(raw, index, path, wrong)


def _waits(change: AnyChange, brought: Raw | None) -> bool:
    if brought is None or isinstance(change, AddRow):
        return False
    if isinstance(change, RemoveRow):
        kind, name = change.kind, change.id
    else:
        kind, _, rest = change.address.partition(".")
        name = rest.rpartition(".")[0]
    return any(row.get("id") == name for row in brought.rows.get(kind, []))


def with_problems(raw: Raw, index: int, brought: Raw | None = None) -> Iterator[Problem]:
    """The rows that an option puts in place of others, where there are no such rows once it is laid."""
    replace = raw.rows["option"][index].get("replace")
    if not isinstance(replace, dict):
        return
    tables = [one for one in replace if one != "with" and one in ROWS]
    there = set().union(*(raw.ids_of(one) | (brought.ids_of(one) if brought else set())
                          for one in tables))  # fmt: skip
    named = replace.get("with")
    for number, one in enumerate(named if isinstance(named, list) else ()):
        if isinstance(one, str) and tables and one not in there:
            near = nearest(one, there)
            kind = " or ".join(tables)
            hint = f"did you mean {near}?" if near else f"add [[option.add.{tables[0]}]] with that id"
            yield option_problem(raw, index, ("replace", "with", number),
                                 (f"there is no {kind} {one}", hint))


def _no_option(name: str, known: Mapping[str, int]) -> Problem:
    near = nearest(name, known)
    expected = f"one of {listed(sorted(known))}" if known else "no option: none is described"
    return Problem(MAIN, None, f"option {name}", f"there is no option {name}", cut(name), expected,
                   f"did you mean {near}?" if near else "")


def option_problem(raw: Raw, index: int, path: Path, wrong: tuple[str, str]) -> Problem:
    """A problem at a path of an option's row: `wrong` is what is wrong and what to do."""
    file, line = raw.line("option", index, *path)
    where = ", ".join([f"option {raw.row_id('option', index)}", str(path[0])])
    found = str(path[1]) if path[0] == "set" else ""
    return Problem(file, line, where, wrong[0], found, "", wrong[1])


def lay_change(
    raw: Raw, change: AnyChange, option: int, path: Path
) -> tuple[str, str] | None:
    """Lay one change over the raw tables in place; returns what is wrong and what to do, or None.

    `option` and `path` say where the change is written, so that what it brings can be located.
    """
    written: Path = (*raw.places["option"][option].path, *path)
    if isinstance(change, AddRow | RemoveRow):
        wrong = _no_table(change.kind)
        if wrong is not None:
            return wrong
        if isinstance(change, RemoveRow):
            return _remove(raw, change.kind, change.id)
        raw.rows.setdefault(change.kind, []).append(dict(change.row))
        raw.places.setdefault(change.kind, []).append(Place(MAIN, written))
        return None
    return _set(raw, change, written)


def _no_table(kind: str) -> tuple[str, str] | None:
    if kind in ROWS and kind not in FIXED:
        return None
    near = nearest(kind, [one for one in ROWS if one not in FIXED])
    return f"there is no table {cut(kind)} that an option can add to or take from", (
        f"did you mean {near}?" if near else "write the table and the row's id, such as mass.ballast")


def _set(raw: Raw, change: Change, written: Path) -> tuple[str, str] | None:
    if isinstance(change.new, dict):
        return f"{change.address} is no address of a field", (
            'put the whole address in quotes: "item.rx.turn_deg" = 90')
    try:
        address = parse_address(change.address)
    except AddressError as error:
        return str(error), ""
    kind, name, field = address.kind, address.id, address.field
    known = [one for one in (*ROWS, *SINGLES) if one not in FIXED]
    if kind not in known or (kind in SINGLES) != (name is None):
        near = "" if kind in (*ROWS, *SINGLES) else nearest(kind, known)
        return f"{change.address} is in no table that an option can change", (
            f"did you mean {near}?" if near else "write kind.id.field")
    if field == "id" or address.index is not None:
        return (f"{change.address} cannot be set", "an id stays as it is" if field == "id" else
                f"give the whole value of {field}")
    if name is None:
        place = raw.overlaid.setdefault(kind, Place(MAIN, (kind,)))
        raw.singles.setdefault(kind, {})
        target = raw.singles[kind]
    else:
        rows = raw.rows.get(kind, [])
        index = next((at for at, row in enumerate(rows) if row.get("id") == name), None)
        if index is None:
            return _no_row(raw, kind, name)
        target, place = rows[index], raw.places[kind][index]
    if isinstance(target, dict):
        target[field] = change.new
        place.overlaid[field] = written
    return None


def _no_row(raw: Raw, kind: str, name: str) -> tuple[str, str] | None:
    """What is wrong where a table has no row of that id; nothing if it may stand in a broken file."""
    if kind in raw.unsure:
        return None
    near = nearest(name, raw.ids_of(kind))
    return f"there is no {kind} {name}", f"did you mean {near}?" if near else ""


def _remove(raw: Raw, kind: str, name: str) -> tuple[str, str] | None:
    rows = raw.rows.get(kind, [])
    index = next((at for at, row in enumerate(rows) if row.get("id") == name), None)
    if index is None:
        return _no_row(raw, kind, name)
    del rows[index]
    del raw.places[kind][index]
    return None
