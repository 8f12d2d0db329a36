"""Boxes from which the leads of both halves of a pair come: left and right of one kind."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.items import UNKNOWN, Lead


@dataclass(frozen=True, slots=True)
class Pair:
    """Two items that are each other's other side, by id, and what they are called together."""

    left: str
    right: str
    name: str


def pairs_of(items: Sequence[PlacedItem]) -> list[Pair]:
    """The pairs among items: two ids that differ only in the word left or right."""
    by_id = {item.id: item for item in items}
    found = []
    for item in items:
        words = item.id.split("-")
        other = "-".join("right" if word == "left" else word for word in words)
        if "left" in words and other in by_id:
            found.append(Pair(item.id, other, together(item.name, by_id[other].name)))
    return found


def together(left: str, right: str) -> str:
    """Two names as one.

    >>> together("Servo, taileron left", "Servo, taileron right"), together("a", "b")
    ('Servo, taileron left and right', 'a and b')
    """
    if left.endswith("left") and right == left.removesuffix("left") + "right":
        return f"{left} and right"
    return f"{left} and {right}"


def carried_by(leads: Iterable[Lead], items: Iterable[str]) -> dict[str, frozenset[str]]:
    """The items that the leads out of each item end at, straight or by joints, by the item's id.

    A lead goes from `from` to `to`; an end that is no item's port is a joint under its whole name.
    """
    known = set(items)
    onward: dict[str, set[str]] = {}
    for lead in leads:
        if UNKNOWN not in (lead.from_, lead.to):
            onward.setdefault(_node(lead.from_, known), set()).add(_node(lead.to, known))
    return {item: frozenset(_reached(onward, item, known)) for item in known if item in onward}


def _node(end: str, known: set[str]) -> str:
    item = end.partition(".")[0]
    return item if item in known else end


def _reached(onward: Mapping[str, set[str]], item: str, known: set[str]) -> set[str]:
    """Items reached by leads from one item, going on through joints only."""
    reached: set[str] = set()
    seen: set[str] = set()
    waiting = list(onward[item])
    while waiting:
        node = waiting.pop()
        if node in known:
            reached.add(node)
        elif node not in seen:
            seen.add(node)
            waiting += onward.get(node, ())
    return reached


def single_boxes(items: Sequence[PlacedItem], leads: Iterable[Lead]) -> dict[str, tuple[str, ...]]:
    """By the name of each pair, the names of the boxes from which the leads of both halves come.

    A pair to neither half of which a lead leads is left out.
    """
    carried = carried_by(leads, (item.id for item in items))
    led = frozenset[str]().union(*carried.values())
    names = {item.id: item.name for item in items}
    return {pair.name: tuple(names[box] for box in sorted(carried)
                             if {pair.left, pair.right} <= carried[box])
            for pair in pairs_of(items) if pair.left in led and pair.right in led}
