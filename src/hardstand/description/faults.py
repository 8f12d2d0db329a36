"""What validation has against one row, as few plain faults: one for each slip, at the field it is in."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from hardstand.description.fields import Table
from hardstand.description.items import ONE, SEVERAL
from hardstand.description.problems import cut
from hardstand.description.rewording import near_field, reworded

Loc = tuple[int | str, ...]
MOST_IN_A_FIELD = 3  # a list of a thousand wrong numbers is one slip, not a thousand


@dataclass(frozen=True, slots=True)
class Fault:
    """One slip in a row: the path of the field or entry, the words for it, the text that stands there."""

    loc: Loc
    what: str
    expected: str
    hint: str
    found: str


def checked(
    model: type[Table], row: Mapping[str, Any]
) -> tuple[Table | None, tuple[Fault, ...]]:
    """A row read by its model, or None and every fault that it has.

    >>> from hardstand.description.items import Item
    >>> _, faults = checked(Item, {"id": "hub", "prt": "x", "at_mm": [1, "2 kg", 3]})
    >>> [(one.loc, one.what) for one in faults]
    [(('at_mm', 1), '"2 kg" is not a length: that is a mass'), (('prt',), 'there is no field prt here')]
    """
    try:
        return model.model_validate(row), ()
    except ValidationError as error:
        errors = error.errors(include_url=False)
    return None, tuple(_fault(one, model, row) for one in _few(errors, model))


def _few(errors: list[ErrorDetails], model: type[Table]) -> Iterator[ErrorDetails]:
    """The errors without those that another one explains: one for each place, few for each field."""
    wrong_keys = [str(one["loc"][-1]) for one in errors if one["type"] == "extra_forbidden"]
    meant = {near_field(key, model) for key in wrong_keys}
    kept: dict[Loc, ErrorDetails] = {}
    in_field: Counter[Loc] = Counter()
    for one in errors:
        place = _place(one)
        if one["type"] == "too_short" and any(
            len(other["loc"]) > len(one["loc"]) and _place(other)[: len(place)] == place
            for other in errors
        ):
            continue  # only the entries that could be read are counted
        missing = one["type"] == "missing"
        if missing and place and place[-1] in meant:
            continue  # the field is there, under a wrong name
        if place in kept and not missing:  # of a list's missing entries the last tells how many
            continue
        in_field[place[:1]] += place not in kept
        if in_field[place[:1]] <= MOST_IN_A_FIELD:
            kept[place] = one
    return iter(kept.values())


def _place(error: ErrorDetails) -> Loc:
    """The path as it is in the file: without the names of forms, and the list for its lacking entry."""
    loc = tuple(part for part in error["loc"] if part not in (ONE, SEVERAL))
    return loc[:-1] if error["type"] == "missing" and isinstance(loc[-1], int) else loc


def _fault(error: ErrorDetails, model: type[Table], row: Mapping[str, Any]) -> Fault:
    what, expected, hint = reworded(error, model)
    loc = _place(error)
    written_nowhere = error["type"] == "missing" and loc == error["loc"]
    found = None if written_nowhere else _at(row, loc)
    if written_nowhere:
        written = ""
    elif error["type"] == "extra_forbidden":
        written = f"{cut(str(loc[-1])).strip(chr(34))} = {cut(found)}"
    elif not loc:
        written = ""
        named = (word for word in re.findall(r"[a-z][a-z0-9_]*", what) if word in row)
        loc = tuple(list(named)[:1])
    else:
        written = cut(found)
    return Fault(loc, what, expected, hint, written)


def _at(row: Any, loc: Loc) -> Any:
    """What stands in a raw row at a path."""
    for part in loc:
        row = row[part]
    return row
