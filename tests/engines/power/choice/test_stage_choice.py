"""The choice on whole aeroplanes: what it asks for, cures and costs, and what is told of it."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, assess
from hardstand.changes import Change
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.engines.harness import STAGE as HARNESS
from hardstand.engines.power.model import Choices, WireChoice
from hardstand.engines.power.stage import STAGE as POWER
from hardstand.findings import Finding
from tests.engines.harness.wired import Texts, built
from tests.engines.power.test_stage_rules import flown

TEXTS = demo_texts("as-built")
WIRE_CODES = {"power.lead-drop", "power.feed-drop", "power.wire-warmth", "power.wire-thick",
              "harness.wire-load"}  # fmt: skip


def seen(aeroplane: AsBuilt) -> Assessment:
    """What harness and power say of it."""
    return assess(aeroplane, [HARNESS, POWER])


def wires(result: Assessment) -> dict[str, WireChoice]:
    """The choice by lead."""
    chosen: Choices = result.results["power.choice"]
    return {one.lead: one for one in chosen.wires}


@cache
def demo() -> Assessment:
    """The demo as it was built."""
    return seen(build(read_texts(TEXTS).description))


@cache
def small(*slips: tuple[str, str], more: str = "") -> Assessment:
    """The small aeroplane with slips."""
    return seen(built(flown(*slips, more=more)))


def rewired(files: Texts, result: Assessment) -> AsBuilt:
    """The same with every lead of the chosen wire."""
    description = read_texts(files).description
    chosen = {name: one.chosen for name, one in wires(result).items()}
    rows = tuple(
        row.model_copy(update={"awg": None, "area_mm2": None, field[0]: field[1]})
        if (field := chosen.get(row.id)) is not None else row for row in description.lead
    )  # fmt: skip
    return build(description.model_copy(update={"lead": rows}))


@pytest.mark.parametrize("name", ["demo", "small"])
def test_an_aeroplane_of_the_chosen_wire_has_nothing_to_say_of_wire(name: str) -> None:
    """All leads changed at once: no drop, warmth, load or spare metal, and no rail worse than it may be."""
    files = TEXTS if name == "demo" else flown()
    before = demo() if name == "demo" else small()
    after = seen(rewired(files, before))
    assert {one.code for one in after.findings} & WIRE_CODES == set()
    raised = [[one for one in found.findings if one.severity in ("no-go", "caution")]
              for found in (before, after)]  # fmt: skip
    assert len(raised[1]) <= len(raised[0])
    again = wires(after)
    for lead_id, one in wires(before).items():
        if one.binds != "volts":  # what others gave up is no longer to spare
            assert again[lead_id].chosen == one.chosen, lead_id


def test_the_next_thinner_wire_does_not_do() -> None:
    """Of every lead whose drop asks: one size thinner, and its drop is not inside by U any more."""
    result = demo()
    strands = {one.leads: one for one in result.results["power.network"].strands}
    tried = 0
    for leads, strand in strands.items():
        one = wires(result)[leads[0]]
        if one.binds != "drop" or one.awg is None or one.there_awg is None:
            continue
        figure = result.figure(f"power.lead-drop@{strand.end}")
        ratio = 92.0 ** ((one.awg + 2 - one.there_awg) / 19.5)
        assert ratio * (figure.value + figure.expanded) > 0.5
        assert 92.0 ** ((one.awg - one.there_awg) / 19.5) * (figure.value + figure.expanded) <= 0.5
        tried += 1
    assert tried >= 6


def test_a_pack_alone_is_the_worst_that_its_lead_carries() -> None:
    """With the other pack off its lead one carries what both carried, twice as much."""
    one = wires(demo())["H01"]
    assert one.worst_at == "rx-pack-right open"
    assert one.worst_a == pytest.approx(2.0 * one.normal_a, rel=1e-3)


def test_a_stuck_servo_is_what_warms_its_lead() -> None:
    """Its stall current lasts; without a failure only its mean does."""
    one = wires(demo())["H15"]
    assert one.lasting_at == "servo-taileron-left.lead stuck"
    assert one.lasting_a == pytest.approx(7.5)


def test_a_lead_has_its_own_worst_moment() -> None:
    """The flaps do not move in the worst moment of their packs; their leads carry their stall all the same."""
    result = demo()
    power, moments = result.results["power.network"], result.results["power.moments"]
    peak = [one.name for one in moments.moments].index("peak")
    assert abs(moments.current_a[peak, power.network.element_at["H13"]]) < 0.1
    assert wires(result)["H13"].normal_a == pytest.approx(3.6)


def test_mass_is_that_of_the_whole_lead() -> None:
    """H07 by hand: three wires of 0.7 m, gauge 22 to 26; a pack's lead stays and changes nothing."""
    one = wires(demo())["H07"]
    def g_per_m(area: float) -> float:
        solid = np.sqrt(4.0 * area / np.pi)
        bare, wall = 1.13 * solid, 0.3 + 0.25 * solid
        ring = np.pi / 4.0 * ((bare + 2.0 * wall) ** 2 - bare**2)
        return float(1.03 * area * 8.89 + 1.25 * ring)

    assert one.mass_g == pytest.approx(2.1 * (g_per_m(0.1288) - g_per_m(0.3255)), rel=2e-3)
    assert wires(demo())["H01"].mass_g == 0.0


@pytest.mark.parametrize("length_mm", [1200, 2000, 4000, 9000])
def test_a_longer_lead_asks_for_thicker_wire(length_mm: int) -> None:
    """By hand: 3 A, 0.5 V, with the uncertainty of the stall current and of the copper on top."""
    found = small(('"el-left.lead"\nlength_mm = 1200', f'"el-left.lead"\nlength_mm = {length_mm}'))
    figure = found.figure("power.lead-drop@el-left.lead")
    least = 0.5176 * (figure.value + figure.expanded) / 0.5
    areas = {12: 3.309, 14: 2.081, 16: 1.309, 18: 0.823, 20: 0.5176, 22: 0.3255, 24: 0.2047, 26: 0.1288}
    by_hand = max(one for one, area in areas.items() if area >= least)
    one = wires(found)["S1"]
    assert (one.awg, one.binds) == (by_hand, "drop")


def test_a_lead_described_by_its_section_is_chosen_by_sections() -> None:
    """Its remedy changes area_mm2 to a standard section and leaves the gauge alone."""
    found = small(('"el-left.lead"\nlength_mm = 1200\nawg = 20',
                   '"el-left.lead"\nlength_mm = 4000\narea_mm2 = 0.5'))  # fmt: skip
    one = wires(found)["S1"]
    assert one.chosen == ("area_mm2", 1.0)
    (raised,) = [each for each in found.findings if each.code == "power.lead-drop"]
    assert raised.remedy is not None
    assert raised.remedy.changes == (Change("lead.S1.area_mm2", 0.5, 1.0),)


def told(result: Assessment, code: str) -> list[Finding]:
    """The findings of one code."""
    return [one for one in result.findings if one.code == code]


def test_a_warm_lead_is_cured_by_its_remedy() -> None:
    """Gauge 26 on a servo that may stay stuck at 14 A: a caution, and gone with the chosen wire."""
    slips = (("stall_a = 3.0", "stall_a = 14.0"),
             ('"el-left.lead"\nlength_mm = 1200\nawg = 20', '"el-left.lead"\nlength_mm = 100\nawg = 26'))
    (raised,) = [one for one in told(small(*slips), "power.wire-warmth") if one.about == ("S1",)]
    assert raised.severity == "caution"
    assert raised.remedy is not None
    (change,) = raised.remedy.changes
    assert isinstance(change, Change)
    assert (change.address, change.old) == ("lead.S1.awg", 26)
    cured = (slips[0], (slips[1][0], slips[1][1].replace("awg = 26", f"awg = {change.new}")))
    assert ("S1",) not in [one.about for one in told(small(*cured), "power.wire-warmth")]


def test_what_the_harness_tells_of_a_wire_is_not_told_again() -> None:
    """A lamp of 14 A on gauge 26: harness.wire-load says it, power.wire-warmth holds its tongue."""
    found = small(('at = "lamp-left"\nmoving_a = 0.4', 'at = "lamp-left"\nmoving_a = 14.0'),
                  ('"lamp-left"\nlength_mm = 1200\nawg = 24', '"lamp-left"\nlength_mm = 100\nawg = 26'),
                  more='[[limit]]\nid = "power.rail"\nlow = 1.0\nreason = "apart"\n')  # fmt: skip
    assert ("K1",) in [one.about for one in told(found, "harness.wire-load")]
    assert found.figure("power.wire-warmth@K1").value > 80.0
    assert ("K1",) not in [one.about for one in told(found, "power.wire-warmth")]


@pytest.mark.parametrize("length_mm, raised", [(1000, True), (100, False)])
def test_spare_metal_is_told_once_and_only_where_it_weighs(length_mm: int, raised: bool) -> None:
    """Gauge 14 to a lamp of 0.4 A over a metre is worth a note, over a tenth of that it is not."""
    slips = (('"lamp-left"\nlength_mm = 1200\nawg = 24', f'"lamp-left"\nlength_mm = {length_mm}\nawg = 14'),)
    found = small(*slips)
    names = [one for one in told(found, "power.wire-thick") if "K1" in one.text]
    chosen: Choices = found.results["power.choice"]
    saved = -sum(one.mass_g or 0.0 for one, (there, enough) in
                 zip(chosen.wires, chosen.area_mm2.tolist(), strict=True) if there >= 2.0 * enough)
    assert bool(told(found, "power.wire-thick")) is (saved > 10.0)
    assert not raised or len(names) == 1


def test_leads_without_a_stated_current_are_named() -> None:
    """The turbine's pump and its control wire carry power, and nobody says how much."""
    chosen: Choices = demo().results["power.choice"]
    assert {"H30", "H31"} <= set(chosen.silent)
    assert not {one.lead for one in chosen.wires} & set(chosen.silent)


def test_a_lead_without_a_length_takes_that_of_its_route() -> None:
    """The route's length, rounded up as it is cut, stands in; it says so."""
    found = small(('"el-left.lead"\nlength_mm = 1200\nawg = 20', '"el-left.lead"\nawg = 20'))
    one = wires(found)["S1"]
    making = next(each for each in found.results["harness.making"].leads if each.lead == "S1")
    assert one.length_from == "route"
    assert one.length_mm == making.cut_mm
