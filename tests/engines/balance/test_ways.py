"""Every way out is applied to the description, and the CG is where the way said."""

from __future__ import annotations

import re

import pytest

from hardstand.assessment import Assessment
from hardstand.changes import AddRow, Change
from hardstand.engines.balance.model import Trade, WayOut
from tests.aeroplanes import PARTS, SMALL, as_built, assessed, swapped

PACKS = """
[[part]]
id = "pack"
extends = "pack-li-po-2s-1800"
size_mm = [130, 40, 20]
mass_g = 250
capacity_mah = 5000
[[part]]
id = "light-pack"
extends = "pack"
size_mm = [100, 35, 18]
mass_g = 160
capacity_mah = 3600
"""
WITH_PACKS = """
[[item]]
id = "pack-a"
part = "pack"
at_mm = [300, 40, 0]
move_x_mm = [250, 380]
[[item]]
id = "pack-b"
part = "pack"
at_mm = [300, -40, 0]
move_x_mm = [250, 380]
mass_g = 262
size_mm = [131, 40, 20]
[[on_hand]]
id = "spare"
part = "light-pack"
count = 2
[[lead]]
id = "L1"
from = "pack-a.lead"
to = "hub"
[[lead]]
id = "L2"
from = "pack-b.lead"
to = "hub"
[[ballast_place]]
id = "stern"
at_mm = [1850, 0, 0]
most_g = 400
[[mass]]
id = "ballast-stern"
mass_g = 20
at_mm = [1850, 0, 0]
zone = "ballast"
"""
TEXT = SMALL + WITH_PACKS


def found_in(text: str) -> Assessment:
    """The balance of the small aeroplane with two kinds of pack among its parts."""
    return assessed(text, parts=PARTS + PACKS)


def applied(text: str, way: WayOut) -> str:
    """The description's text with a way's changes made by hand."""
    for change in way.changes:
        if isinstance(change, AddRow):
            fields = "".join(f"{key} = {value!r}\n" for key, value in change.row.items())
            text += f"[[{change.kind}]]\n" + fields.replace("'", '"')
            continue
        assert isinstance(change, Change)
        _, item, field = change.address.split(".")
        row = re.search(rf'\[\[item\]\]\nid = "{item}"\n(?:(?!\[\[).*\n)*', text)
        assert row is not None
        old = re.search(rf"^{field} = (.*)\n", row.group(), re.MULTILINE)
        assert old is not None
        assert old.group(1).strip('"') == str(change.old) or eval(old.group(1)) == change.old  # noqa: S307
        new = "" if change.new is None else f"{field} = {change.new!r}\n".replace("'", '"')
        text = text.replace(row.group(), row.group().replace(old.group(), new))
    return text


def ways(text: str) -> tuple[WayOut, ...]:
    """The ways out of an aeroplane."""
    trade: Trade = found_in(text).results["balance.trade"]
    return trade.ways


TOO_FAR_AFT = swapped(TEXT, "cg_range_mm = [135, 175]", "cg_range_mm = [104, 108]").replace(
    "[148, 164]", "[104, 108]"
)
TOO_FAR_FORWARD = swapped(TEXT, "cg_range_mm = [135, 175]", "cg_range_mm = [146, 149]").replace(
    "[148, 164]", "[146, 149]"
)


@pytest.mark.parametrize("text", [TEXT, TOO_FAR_AFT, TOO_FAR_FORWARD])
def test_the_cg_comes_to_where_the_way_says(text: str) -> None:
    """Moved, exchanged or ballasted, the description then has the CG and mass that were promised."""
    before = found_in(text).figure("balance.mass@empty").value
    found = ways(text)
    assert found
    for way in found:
        after = found_in(applied(text, way))
        assert after.figure("balance.cg@empty").value == pytest.approx(way.cg_mm, abs=1e-6), (
            way.text
        )
        assert after.figure("balance.mass@empty").value - before == pytest.approx(
            way.added_g, abs=1e-6
        )


def test_every_kind_of_way_is_found() -> None:
    """Slides, other packs and ballast, the least of it under an id that is free."""
    assert {way.kind for way in ways(TOO_FAR_FORWARD)} == {"slide", "packs", "ballast"}
    rows = [
        change
        for way in ways(TOO_FAR_FORWARD)
        for change in way.changes
        if isinstance(change, AddRow)
    ]
    assert {row.row["id"] for row in rows} == {"ballast-stern-2"}


def test_a_slide_reaches_as_far_as_it_may_and_packs_in_parallel_go_together() -> None:
    """Both packs of one hub slide by the same distance, not beyond what either may."""
    slide = next(way for way in ways(TOO_FAR_AFT) if way.kind == "slide")
    assert len(slide.changes) == 2
    assert slide.text.startswith("move pack-a and pack-b 50 mm forward")  # to the end of their span


def test_what_is_off_in_the_judged_state_moves_nothing() -> None:
    """A pack that is off is no way out; the other one still is."""
    off = swapped(TOO_FAR_AFT, 'id = "empty"', 'id = "empty"\nwithout = ["pack-a"]')
    addresses = {
        change.address for way in ways(off) for change in way.changes if isinstance(change, Change)
    }
    assert addresses
    assert not any("pack-a" in one for one in addresses)


def test_ballast_that_is_there_already_takes_room() -> None:
    """A place for 30 g that holds 20 g takes 10 g more and no ballast that needs more is offered."""
    text = swapped(TOO_FAR_FORWARD, "most_g = 400", "most_g = 30")
    amounts = [change.row["mass_g"] for way in ways(text) for change in way.changes
               if isinstance(change, AddRow)]  # fmt: skip
    assert all(one <= 10.0 for one in amounts)
    assert as_built(text, parts=PARTS + PACKS).ballast_places[0].most_g == 30.0


def test_no_way_is_offered_twice() -> None:
    """Sliding both packs is found by two searches and stands there once."""
    for text in (TEXT, TOO_FAR_AFT, TOO_FAR_FORWARD):
        changes = [sorted(map(repr, way.changes)) for way in ways(text)]
        assert all(changes.count(one) == 1 for one in changes)


def test_packs_of_one_name_are_told_apart() -> None:
    """Parts and items that share a name are called by their ids."""
    text = next(
        way.text for way in ways(TOO_FAR_FORWARD) if way.kind == "packs" and way.charge_lost_mah
    )
    assert "fit light-pack as pack-a" in text
