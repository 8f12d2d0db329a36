"""What rows say about other rows by address: measured values, and findings that are accepted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hardstand.changes import Address, AddressError, parse_address
from hardstand.description.faults import checked
from hardstand.description.model import ROWS, SINGLES, Description
from hardstand.description.options import FIXED
from hardstand.description.problems import Problem, cut, listed, nearest
from hardstand.description.raw import Raw
from hardstand.description.rewording import fields_of, near_field, path_in_words
from hardstand.standards.units import is_tolerance, split_suffix

Told = tuple[str, str, str, str]  # field, what is wrong, what was expected, what to do
MEASURED = tuple(name for name in (*ROWS, *SINGLES)
                 if name not in (*FIXED, "limit", "accept", "port"))  # fmt: skip


def address_problems(
    description: Description, raw: Raw, numbers: Mapping[str, Sequence[int]]
) -> Iterator[Problem]:
    """Every measurement of what is not there, and every accepted finding about what is not there.

    `numbers` holds, by table, the place among the raw rows of each row of the description.
    """
    for index, one in zip(numbers["measurement"], description.measurement, strict=True):
        told = wrong_measurement(raw, one.address, one.value)
        if told is not None:
            yield _problem(raw, "measurement", index, told)
    if not raw.unsure:
        known = told_of(raw)
        for index, row in enumerate(raw.rows.get("accept", [])):
            about = row.get("about")
            for word in about if isinstance(about, list) else ():
                near = nearest(word, known) if isinstance(word, str) and word not in known else ""
                if near:
                    yield _problem(raw, "accept", index, (
                        "about", f"there is no {cut(word).strip(chr(34))}",
                        "the ids that the finding is about", f"did you mean {near}?"))  # fmt: skip


def _problem(raw: Raw, table: str, index: int, told: Told) -> Problem:
    field, what, expected, hint = told
    file, line = raw.line(table, index, field)
    row_id = raw.row_id(table, index)
    found = raw.rows[table][index].get(field)
    return Problem(file, line, path_in_words(table, row_id, (field,)), what, cut(found), expected,
                   hint, f"{table}.{row_id}.{field}")


def told_of(raw: Raw) -> set[str]:
    """What a finding can be about: every row, table and port, and the surfaces of the planform.

    >>> {"fin", "canard", "state"} <= told_of(Raw({}, {"mass": [{"id": "fin"}]}))
    True
    """
    words = {*ROWS, *SINGLES, "wing", "tail", "fin", "canard", "cg_range"}
    ids = raw.ids()
    return words.union(*ids.values())


def wrong_measurement(raw: Raw, text: str, value: Any) -> Told | None:
    """What is wrong with a measurement's address or value, or None.

    A table that may hold more than could be read is given the benefit of the doubt.
    """
    try:
        address = parse_address(text)
    except AddressError as error:
        return "address", str(error), "kind.id.field", ""
    kind, name, field = address.kind, address.id, address.field
    if kind in raw.unsure:
        return None
    if kind not in MEASURED or (kind in SINGLES) != (name is None):
        near = "" if kind in (*ROWS, *SINGLES) else nearest(kind, MEASURED)
        return ("address", f"there is nothing to measure at {text}",
                f"an address in one of {listed(sorted(MEASURED), 40)}",
                f"did you mean {near}?" if near else "write kind.id.field")  # fmt: skip
    row: Any = raw.singles.get(kind)
    if name is not None:
        row = next((one for one in raw.rows.get(kind, []) if one.get("id") == name), None)
    if not isinstance(row, dict):
        return _nothing_there(raw, kind, name)
    return _wrong_field(address, field, row, value)


def _nothing_there(raw: Raw, kind: str, name: str | None) -> Told:
    if name is None:
        return "address", f"there is no [{kind}]", "", f"describe [{kind}] first"
    known = sorted(raw.ids_of(kind))
    near = nearest(name, known)
    otherwise = "measure the item that is made of it" if kind == "part" else ""
    return ("address", f"there is no {kind.replace('_', '-')} {name}", f"one of {listed(known, 12)}",
            f"did you mean {near}?" if near else otherwise)


def _wrong_field(address: Address, field: str, row: dict[str, Any], value: Any) -> Told | None:
    model = ROWS.get(address.kind) or SINGLES[address.kind]
    measurable = [one for one in fields_of(model)
                  if split_suffix(one)[1] is not None and not is_tolerance(one)]  # fmt: skip
    if field not in measurable:
        near = near_field(field, model)
        return ("address", f"{address.kind} has no measured field {field}",
                f"one of {listed(measurable, 40)}", f"did you mean {near}?" if near in measurable else "")
    if address.index is not None:
        return "address", f"{address} is part of a value", "", f"give the whole value of {field}"
    if not checked(model, row)[1]:
        faults = checked(model, {**row, field: list(value) if isinstance(value, tuple) else value})[1]
        if faults:
            return "value", faults[0].what, faults[0].expected, f"it takes the place of {address}"
    return None
