"""Ways out by moving: they clear what they say, spoil nothing, and stay where they may."""

from __future__ import annotations

import re

import pytest

from hardstand.changes import Change
from hardstand.findings import Finding
from tests.engines.fit.small_aeroplane import AROUND, built, findings, item, part

PARTS = part("box") + part("long", size="[60, 20, 20]")
TRAY = (
    '[[tray]]\nid = "tray"\noutline_mm = [[-100, -50], [100, -50], [100, 50], [-100, 50]]\n'
    "top_z_mm = 0\n"
)


def hard(body: str) -> list[Finding]:
    """What is not merely noted."""
    return [one for one in findings(built(body, PARTS)) if one.severity != "note"]


def applied(body: str, change: Change) -> str:
    """The text with an item's place changed; the old place must stand there."""
    row = change.address.split(".")[1]
    pattern = rf'(id = "{row}"\npart = "\w+"\nat_mm = )(\[[^]]*\])'
    found = re.search(pattern, body)
    assert found is not None
    assert [float(one) for one in found[2][1:-1].split(",")] == pytest.approx(change.old)
    return body[: found.start(2)] + str(change.new) + body[found.end(2) :]


@pytest.mark.parametrize("gap", [1.0, 0.0, -5.0])
def test_a_move_clears_and_spoils_nothing(gap: float) -> None:
    """Applied, the change clears the pair, and nothing else is said that was not said before."""
    body = (
        TRAY
        + item("a", "box", "[0, 0]", 'on = "tray"')
        + item("b", "box", f"[{20 + gap}, 0]", 'on = "tray"')
        + item("c", "long", "[0, 23.5]", 'on = "tray"')
    )
    before = hard(body)
    assert [one.code for one in before] in (["fit.box-gap"], ["fit.box-gap"] * 2)
    remedy = before[0].remedy
    assert remedy is not None
    change = remedy.changes[0]
    assert isinstance(change, Change)
    after = hard(applied(body, change))
    assert {one.about for one in after} < {one.about for one in before} or not after


def test_the_move_is_the_smallest() -> None:
    """Two boxes 0.2 mm apart on an open tray part by the next whole millimetres, and no farther."""
    body = (
        TRAY
        + item("a", "box", "[0, 0]", 'on = "tray"')
        + item("b", "box", "[20.2, 0]", 'on = "tray"')
    )
    (finding,) = hard(body)
    assert finding.remedy is not None
    assert re.fullmatch(r"Move [ab] 3 mm (aft|forward)\.", finding.remedy.text)


def test_a_range_is_kept() -> None:
    """An item with a range along one axis moves within it; one that would have to leave it stays."""
    fixed = item("b", "box", "[21, 0, 10]")
    within = item("a", "box", "[0, 0, 10]", "move_x_mm = [-10, 5]")
    (finding,) = hard(within + fixed)
    assert finding.remedy is not None
    assert finding.remedy.changes == (Change("item.a.at_mm", [0, 0, 10], [-2, 0, 10]),)
    short = item("a", "box", "[0, 0, 10]", "move_x_mm = [-1, 5]")
    (finding,) = hard(short + fixed)
    assert finding.remedy is None


def test_a_move_back_onto_the_tray() -> None:
    """A box that hangs over the edge is moved back by so much that it stands on the tray by U."""
    body = TRAY + item("a", "box", "[93, 0]", 'on = "tray"')
    (finding,) = hard(body)
    assert finding.code == "fit.tray-edge"
    assert finding.remedy is not None
    change = finding.remedy.changes[0]
    assert isinstance(change, Change)
    assert not hard(applied(body, change))


def test_nothing_is_moved_out_of_its_bay() -> None:
    """Where the skin is near, the way out leads the other way."""
    narrow = AROUND.replace("half_width_mm = 2000", "half_width_mm = 36")
    body = item("a", "box", "[0, 20, 0]", "move_y_mm = [-60, 60]") + item("b", "box", "[0, -1, 0]")
    found = [one for one in findings(built(body, PARTS, narrow)) if one.code == "fit.box-gap"]
    assert found
    remedy = found[0].remedy
    assert remedy is None or "starboard" not in remedy.text
