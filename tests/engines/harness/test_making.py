"""What to cut and buy, by hand from the leads of a small aeroplane."""

from __future__ import annotations

import pytest

from hardstand.engines.harness.lead_stock import STANDARD_MM, standard_length_mm
from hardstand.engines.harness.model import Makings
from tests.engines.harness.test_routes import demo
from tests.engines.harness.wired import assessed, lead, mistaken, texts


def made(files: dict[str, str]) -> Makings:
    """What these files take to make."""
    found = assessed(files).results["harness.making"]
    assert isinstance(found, Makings)
    return found


def test_what_is_needed_is_the_way_and_the_allowance() -> None:
    """40 mm more than the way; without a length described that is cut, rounded up to 5 mm."""
    files = mistaken(('"el-left.lead"\nlength_mm = 1200', '"el-left.lead"'))
    one = next(row for row in made(files).leads if row.lead == "S1")
    assert one.way_mm is not None
    needed = one.needed_mm
    assert needed is not None
    assert needed == pytest.approx(one.way_mm + 40.0)
    assert one.cut_mm is not None
    assert 0.0 <= one.cut_mm - needed < 5.0
    assert one.cut_mm % 5.0 == 0.0
    assert one.buy_mm == min(at for at in STANDARD_MM if at >= needed)
    assert standard_length_mm(2000.1) is None


def test_wire_adds_up_by_hand() -> None:
    """Gauge 20: S1, S2, F1, F2 of three wires and M1 of two, 1.2 m each: 16.8 m; gauge 24: 2.4 m."""
    bill = {one.what: one for one in made(texts()).bill}
    assert bill["wire, gauge 20"].amount == pytest.approx(16.8)
    assert bill["wire, gauge 24"].amount == pytest.approx(2.4)
    assert (bill["wire, gauge 24"].unit, bill["label"].unit) == ("m", "pieces")
    assert bill["label"].amount == 44.0


def test_an_adapter_stands_where_classes_do_not_mate() -> None:
    """Only at that end, and as a line of the bill."""
    assert made(texts()).adapters == ()
    found = made(mistaken(lead("B1", 'to_connector = "2-pole, 60 A class"')))
    assert [(one.lead, one.end) for one in found.adapters] == [("B1", "hub-b.pack")]
    assert "adapter, 2-pole, 60 A class to 2-pole, 30 A class" in {one.what for one in found.bill}


def test_a_joint_has_two_plugs_however_many_circuits() -> None:
    """The demo's two wing plugs take four six-pole halves for eight ends of leads."""
    found = demo("as-built").results["harness.making"]
    assert {one.what: one.amount for one in found.bill}["plug, 6-pole, locked"] == 4.0
