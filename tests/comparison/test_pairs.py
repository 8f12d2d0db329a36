from __future__ import annotations

from dataclasses import dataclass
from typing import Any, cast

from hardstand.comparison.pairs import carried_by, pairs_of, single_boxes
from hardstand.description.items import Lead


@dataclass
class Thing:
    """An item as far as pairs look at it."""

    id: str
    name: str


ITEMS = cast("Any", [Thing("hub", "Hub"), Thing("gyro", "Gyro"), Thing("servo-left", "Servo left"),
                     Thing("servo-right", "Servo right"), Thing("lamp-left", "Lamp left")])  # fmt: skip


def leads(*ends: tuple[str, str]) -> list[Lead]:
    """Leads between ends."""
    return [Lead.model_validate({"id": f"L{at}", "from": one, "to": other})
            for at, (one, other) in enumerate(ends)]  # fmt: skip


def test_a_pair_is_two_ids_that_differ_in_left_and_right() -> None:
    """One without its other side is none."""
    assert [(one.left, one.right, one.name) for one in pairs_of(ITEMS)] == [
        ("servo-left", "servo-right", "Servo left and right")]  # fmt: skip


def test_a_box_carries_what_its_leads_end_at_straight_or_by_joints() -> None:
    """Not what lies behind another item, nor by an end that nobody knows; a circle of joints ends."""
    rows = leads(("gyro.out", "hub.in"), ("hub.out-1", "plug"), ("plug", "servo-left.lead"), ("plug", "ring"),
                 ("ring", "plug"), ("hub.out-2", "servo-right.lead"), ("gyro.aux", "unknown"),
                 ("unknown", "lamp-left.lead"))  # fmt: skip
    carried = carried_by(rows, [one.id for one in ITEMS])
    assert carried["hub"] == {"servo-left", "servo-right"}
    assert carried["gyro"] == {"hub"}


def test_the_single_boxes_of_a_pair() -> None:
    """One that carries both halves; none where each hangs on a box of its own, and no pair without leads."""
    both = leads(("hub.a", "servo-left.lead"), ("hub.b", "servo-right.lead"))
    assert single_boxes(ITEMS, both) == {"Servo left and right": ("Hub",)}
    each = leads(("hub.a", "servo-left.lead"), ("gyro.b", "servo-right.lead"))
    assert single_boxes(ITEMS, each) == {"Servo left and right": ()}
    assert single_boxes(ITEMS, leads(("hub.a", "servo-left.lead"))) == {}
