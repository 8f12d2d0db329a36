"""Whether a row can be given an id: refused in words where it is taken, malformed or was another's."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator
from itertools import count

from hardstand.description.aliases import names_in
from hardstand.description.catalogue import generic_ids
from hardstand.description.ends import ENDS
from hardstand.description.fields import ID_PATTERN, PATTERNS
from hardstand.description.former_ids import RENAMED
from hardstand.description.items import UNKNOWN
from hardstand.description.model import SINGLES
from hardstand.description.naming import Rename
from hardstand.description.problems import listed, nearest
from hardstand.description.raw import Raw
from hardstand.description.references import article, named_together

LONGEST = 60


class RenameError(ValueError):
    """A row cannot be renamed like this; `hint` says what to do."""

    def __init__(self, what: str, hint: str = "") -> None:
        self.hint = hint
        super().__init__(what)


def refuse_id(base: Raw, what: Rename) -> None:
    """Raises RenameError where there is no such row, or it cannot have the new id."""
    if what.kind not in RENAMED:
        raise RenameError(*_no_kind(what.kind))
    ids = all_ids(base, what.kind)
    if what.old not in ids:
        raise RenameError(*_no_row(base, what, ids))
    if what.new == what.old:
        raise RenameError(f"{what.old} is its id already.")
    if not is_id(what.new[:LONGEST]):
        raise RenameError(f'"{what.new}" is no id.', f"An id is {PATTERNS[ID_PATTERN]}.")
    if len(what.new) > LONGEST:
        raise RenameError(f"This id has {len(what.new)} letters.", f"An id has at most {LONGEST}.")
    taken = next(_taken(base, what), None)
    if taken is not None:
        raise RenameError(taken, "Choose an id of its own for it.")


def is_id(text: str) -> bool:
    r"""Whether a text can be the id of a row.

    >>> is_id("rx-left"), is_id("rx left"), is_id("rx\n")
    (True, False, False)
    """
    return len(text) <= LONGEST and re.fullmatch(ID_PATTERN.rstrip("$"), text) is not None


def free_id(wished: str, taken: Container[str]) -> str:
    """An id that no row has, as near to the wished one as can be.

    >>> free_id("rx-mass", {"rx-mass"}), free_id("rx-mass", set())
    ('rx-mass-2', 'rx-mass')
    """
    if wished[:LONGEST] not in taken:
        return wished[:LONGEST]
    ends = (f"-{number}" for number in count(2))
    return next(name for end in ends if (name := wished[: LONGEST - len(end)] + end) not in taken)


def all_ids(base: Raw, kind: str) -> set[str]:
    """The ids of a kind, with those that options bring."""
    brought = (one for row in base.rows.get("option", [])
               for one in (row.get("add") or {}).get(kind, []))  # fmt: skip
    return base.ids_of(kind) | {one["id"] for one in brought if isinstance(one.get("id"), str)}


def _no_kind(kind: str) -> tuple[str, str]:
    if kind in SINGLES:
        return f"[{kind}] stands once and has no id.", ""
    if kind == "port":
        return "A port's id is its part's own.", (
            "Change it in the part's file, together with the leads that end at it.")
    if kind == "limit":
        return "The ids of limits are the program's.", ""
    near = nearest(kind, RENAMED)
    return f"There is no kind of row {kind}.", (
        f"Did you mean {near}?" if near else "Write kind.id, such as item.rx-left.")


def _no_row(base: Raw, what: Rename, ids: set[str]) -> tuple[str, str]:
    now = names_in(base.rows.get("alias", [])).get(f"{what.kind}.{what.old}")
    said = f"There is no {_words(what.kind)} {what.old}."
    if now is not None:
        return said, f"It is called {now} now."
    if what.kind == "part" and what.old in generic_ids():
        return f"The part {what.old} is the catalogue's.", (
            "Only your own parts can be renamed; make one that extends it.")
    near = nearest(what.old, ids)
    return said, f"Did you mean {near}?" if near else f"The ids are {listed(sorted(ids), 12)}."


def _taken(base: Raw, what: Rename) -> Iterator[str]:
    """Sentences on who has the new id."""
    beside = {one for pair in named_together() if what.kind in pair for one in pair}
    for kind in (what.kind, *sorted(beside - {what.kind})):
        if what.new in all_ids(base, kind):
            yield f"There is already {article(_words(kind))} {what.new}."
    if what.kind == "part" and what.new in generic_ids():
        yield f"The catalogue has a part {what.new}."
    if what.kind == "item" and what.new in (*_joints(base), UNKNOWN):
        yield f"{what.new} is an end of a lead that is no item."
    now = names_in(base.rows.get("alias", [])).get(f"{what.kind}.{what.new}")
    if now not in (None, what.old):
        yield (f"{what.new} was the id of the {_words(what.kind)} {now}, and what was recorded under "
               "it belongs to that one.")


def _joints(base: Raw) -> Iterator[str]:
    """The names that leads end at and that are no item's port."""
    for row in (*base.rows.get("lead", []),
                *(one for option in base.rows.get("option", [])
                  for one in (option.get("add") or {}).get("lead", []))):  # fmt: skip
        for field in ENDS:
            value = row.get(field)
            ends = value if isinstance(value, list) else [value]
            yield from (one for one in ends if isinstance(one, str) and "." not in one)


def _words(kind: str) -> str:
    return kind.replace("_", "-")
