from __future__ import annotations

from dataclasses import replace

from hardstand.engines.fit.layout.infeasible import contradiction
from hardstand.engines.fit.layout.problem import (
    Item,
    KeepOut,
    Place,
    PlugRoom,
    Problem,
    Rectangle,
    Tray,
)

TRAY = Tray("shelf", ((0, 0), (79, 0), (79, 20), (0, 20)))
HUB = Item("hub", (30, 20, 10), (Place("shelf"),), (PlugRoom("back", 20),), turns=(0,))
PUMP = Item("pump", (30, 20, 10), (Place("shelf"),), turns=(0,))
LAMP = Item("lamp", (5, 5, 5), (Place("shelf"), Place("spare")))
SPARE = Tray("spare", ((200, 0), (220, 0), (220, 20), (200, 20)))


def test_a_tray_too_short_by_a_millimetre_names_the_items_and_the_millimetre() -> None:
    """80 mm of hub, plug and pump on 79 mm: both, the plug room, not the lamp, and 1 mm each way."""
    found = contradiction(Problem((TRAY, SPARE), (HUB, LAMP, PUMP)))
    assert found is not None
    assert found.proven
    assert {one.about[0] for one in found.requirements} == {"hub", "pump"}
    assert {one.kind for one in found.requirements} == {"item", "plugs"}
    ways = {one.text: one.by_mm for one in found.easings}
    assert ways["shelf longer"] == 1
    assert ways["less plug room at hub"] == 1
    assert "hub" in found.text
    assert "1 mm" in found.text


def test_without_the_last_millimetre_missing_there_is_no_contradiction() -> None:
    """On a tray of 80 mm the same items have a layout."""
    longer = replace(TRAY, outline_mm=((0, 0), (80, 0), (80, 20), (0, 20)))
    assert contradiction(Problem((longer, SPARE), (HUB, LAMP, PUMP))) is None


def test_each_requirement_told_is_needed() -> None:
    """A keep-out that leaves too little room is named, and headroom that suffices is not."""
    keep = KeepOut("post", Rectangle(30, 40, 0, 20))
    tray = replace(TRAY, keep_outs=(keep,), headroom_mm=50)
    found = contradiction(Problem((tray,), (replace(PUMP, size_mm=(45, 20, 10)),)))
    assert found is not None
    assert [(one.kind, one.about) for one in found.requirements] == [
        ("keep-out", ("shelf", "post")),
        ("item", ("pump",)),
    ]


def test_too_low_a_tray_says_by_how_much() -> None:
    """An item of 12 mm under 9 mm of headroom needs 3 mm more."""
    tray = replace(TRAY, headroom_mm=9)
    found = contradiction(Problem((tray,), (replace(PUMP, size_mm=(30, 20, 12)),)))
    assert found is not None
    assert {(one.text, one.by_mm) for one in found.easings} == {("more height above shelf", 3)}
