from __future__ import annotations

import pytest

from hardstand.changes import AddRow, AnyChange, Change, RemoveRow
from hardstand.description.raw import Raw
from hardstand.description.write import NotWritableError, StaleChange
from hardstand.routing import routed

OPTION = {
    "id": "aft",
    "set": {"item.hub.turn_deg": 90},
    "add": {"item": [{"id": "tie", "part": "rail-tie", "at_mm": [1, 2]}]},
}
BASE = Raw({}, rows={"option": [OPTION], "item": [{"id": "hub", "turn_deg": 0}]})


def test_without_an_option_a_change_stays() -> None:
    """Only an option that is laid over takes a change to itself."""
    change = Change("item.hub.turn_deg", 0, 180)
    assert routed([change], BASE, []) == [change]


def test_what_the_option_leaves_alone_goes_to_the_base() -> None:
    """Another field, and a row that is added, belong to the base."""
    changes: list[AnyChange] = [
        Change("item.hub.at_mm", None, [1, 2]),
        AddRow("item", {"id": "new"}),
        RemoveRow("item", "hub"),
    ]
    assert routed(changes, BASE, ["aft"]) == changes


def test_two_changes_of_one_option_build_on_one_another() -> None:
    """The second change expects what the first one leaves."""
    made = routed(
        [Change("item.hub.turn_deg", 90, 180), Change("item.tie.at_mm", [1, 2], [3, 4])],
        BASE,
        ["aft"],
    )
    first, second = made
    assert isinstance(first, Change)
    assert isinstance(second, Change)
    assert second.old == first.new
    assert second.new == {"item.hub.turn_deg": 180, "item.tie.at_mm": [3, 4]}


def test_an_option_refuses_what_it_does_not_hold() -> None:
    """A stale old value, and a row or field of the option that is to go, are refused."""
    with pytest.raises(StaleChange, match="turn_deg"):
        routed([Change("item.hub.turn_deg", 0, 180)], BASE, ["aft"])
    with pytest.raises(NotWritableError, match="brings this row"):
        routed([RemoveRow("item", "tie")], BASE, ["aft"])
    with pytest.raises(NotWritableError, match="sets this field"):
        routed([Change("item.hub.turn_deg", 90, None)], BASE, ["aft"])
