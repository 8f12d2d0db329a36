"""The ends of leads: `item.port` of an item that is there and a port that its part has.

Channels and loads name such ends too. A joint with ways has them as its ports.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from hardstand.description.catalogue import Catalogue, PartError
from hardstand.description.items import UNKNOWN
from hardstand.description.problems import Problem, cut, listed, nearest
from hardstand.description.raw import Raw
from hardstand.description.rewording import path_in_words

Told = tuple[str, str, str]  # what is wrong, what was expected, what to do
ENDS = ("from", "to", "may_be")
# The fields, by table, that hold ends: one, or a list of them.
ENDS_OF: dict[str, tuple[str, ...]] = {"lead": ENDS, "channel": ("at",), "load": ("at",)}


def end_problems(raw: Raw, ports: Ports) -> Iterator[Problem]:
    """Every end of a lead that names an item or a port that does not exist, located."""
    if "item" in raw.unsure:
        return
    items = raw.ids_of("item")  # a joint of an item's id is told of elsewhere
    joints = {name: row.get("ways") for row in raw.rows.get("joint", [])
              if (name := str(row.get("id"))) not in items}  # fmt: skip
    for table in ENDS_OF:
        for index, row in enumerate(raw.rows.get(table, [])):
            for field, number, end in _ends(table, row):
                wrong = _wrong_way(end, joints) if end.partition(".")[0] in joints else (
                    ports.wrong_with(end))  # fmt: skip
                if wrong is not None and not ("joint" in raw.unsure and "." in end):
                    loc: tuple[str | int, ...] = (field,) if number is None else (field, number)
                    file, line = raw.line(table, index, *loc)
                    row_id = raw.row_id(table, index)
                    yield Problem(file, line, path_in_words(table, row_id, loc), wrong[0], cut(end),
                                  wrong[1], wrong[2], f"{table}.{row_id}.{field}")


def _wrong_way(end: str, joints: Mapping[str, Any]) -> Told | None:
    """What is wrong with an end at a joint, whose ways are its ports."""
    joint, point, way = end.partition(".")
    ways = joints[joint]
    if not isinstance(ways, list) or not all(isinstance(one, str) for one in ways):
        ways = []
    if (way in ways) if point else not ways:
        return None
    near = nearest(way, ways)
    what = f"joint {joint} has no way {way}" if point else f"at which way of the joint {joint}?"
    expected = f"one of {listed(ways, 20)}" if ways else f"{joint} alone: it has no ways"
    return what, expected, f"did you mean {joint}.{near}?" if near else ""


def _ends(table: str, row: dict[str, Any]) -> Iterator[tuple[str, int | None, str]]:
    """Field, number in its list, and text of every end that a raw row names."""
    for field in ENDS_OF[table]:
        value = row.get(field)
        if isinstance(value, str):
            yield field, None, value
        elif isinstance(value, list):
            yield from ((field, number, one) for number, one in enumerate(value)
                        if isinstance(one, str))  # fmt: skip


class Ports:
    """What ports there are: of every item, by the names that leads use.

    `items` are raw rows, the first one of an id counts. `sure` is false where the parts could not
    all be read; then ports are taken as they are named.
    """

    def __init__(
        self, catalogue: Catalogue, items: Sequence[Mapping[str, Any]], *, sure: bool = True
    ) -> None:
        self._catalogue = catalogue
        self._parts: dict[str, object] = {}
        for row in items:
            if isinstance(row.get("id"), str):
                self._parts.setdefault(row["id"], row.get("part"))
        self._all_named = all(isinstance(row.get("id"), str) for row in items)
        self._sure = sure
        self._names: dict[str, tuple[str, ...] | None] = {}

    def names_of(self, item: str) -> tuple[str, ...] | None:
        """The names of an item's ports, or None where its part can't be read."""
        if item not in self._names:
            self._names[item] = self._resolved(self._parts.get(item)) if self._sure else None
        return self._names[item]

    def _resolved(self, part: object) -> tuple[str, ...] | None:
        try:
            ports = self._catalogue.resolve(str(part)).ports
        except PartError:
            return None  # told of at the item or the part
        return tuple(name for port in ports for name in port.names())

    def wrong_with(self, end: str) -> Told | None:
        """What is wrong with an end of a lead, or None; a name without a point may be a joint."""
        item, point, port = end.partition(".")
        if not point:
            if item == UNKNOWN or item not in self._parts:
                return None
            names = self.names_of(item)
            return None if names is None else self._which(item, names)
        if item not in self._parts:
            if not self._all_named:
                return None
            near = nearest(item, self._parts)
            return (f"there is no item {cut(item).strip(chr(34))}", f"one of {listed(sorted(self._parts), 12)}",
                    f"did you mean {near}.{port}?" if near else "add the item, or write a name without a point")
        names = self.names_of(item)
        if names is None or port in names:
            return None
        near = nearest(port, names)
        row = [name for name in names if name.rpartition("-")[0] == port]
        if row:
            hint = f"this row has {len(row)} ports: name one of {row[0]} to {row[-1]}"
        else:
            hint = f"did you mean {item}.{near}?" if near else ""
        return f"{item} has no port {cut(port).strip(chr(34))}", _one_of(names), hint

    def _which(self, item: str, names: tuple[str, ...]) -> Told:
        hint = f"did you mean {item}.{names[0]}?" if len(names) == 1 else ""
        return f"at which port of {item}?", _one_of(names), hint


def _one_of(names: tuple[str, ...]) -> str:
    return f"one of {listed(names, 20)}" if names else "no port: this part has none"
