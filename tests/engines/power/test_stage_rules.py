"""The rules of the power stage: each limit on three aeroplanes, and the failures that must be told."""

from __future__ import annotations

import pytest

from hardstand.assessment import Assessment, assess
from hardstand.changes import Change
from hardstand.engines.harness import STAGE as HARNESS
from hardstand.engines.power.stage import STAGE as POWER
from hardstand.findings import Finding
from tests.engines.harness.wired import Texts, built, mistaken, texts

FLIGHT = """
[[phase]]
id = "flying"
kind = "flying"
duration_s = 400
[[duty]]
id = "pitch"
phase = "flying"
function = "pitch"
moving_pct = 50
stall_pct = 2
"""
THOUSANDTH = 1e-3


def flown(*slips: tuple[str, str], more: str = "") -> Texts:
    """The small correct aeroplane with a flight of one phase, and slips."""
    found = mistaken(*slips)
    found["aeroplane.toml"] += FLIGHT + more
    return found


def assessed(files: Texts) -> Assessment:
    """What harness and power say of these files."""
    return assess(built(files), [HARNESS, POWER])


def found(files: Texts, code: str) -> list[Finding]:
    """The findings of one code."""
    return [one for one in assessed(files).findings if one.code == code]


# Each rule with a figure of the small aeroplane, which side its limit is on, and what it says beyond.
CASES = (
    ("power.rail", "power.rail@hub-a.rail", "low", "no-go"),
    ("power.reset-headroom", "power.reset-headroom@rx-a.bus", "low", "no-go"),
    ("power.low-headroom", "power.low-headroom@engine.pack", "low", "caution"),
    ("power.lead-drop", "power.lead-drop@el-left.lead", "high", "caution"),
    ("power.feed-drop", "power.feed-drop@engine.in", "high", "caution"),
    ("power.wire-warmth", "power.wire-warmth@S1", "high", "caution"),
    ("power.wire-warmth", "power.wire-warmth@E1", "high", "no-go"),
    ("power.contact-load", "power.contact-load@S1 at hub-a.out-1", "high", "no-go"),
    ("power.regulator-heat", "power.regulator-heat@hub-a.in-pack>rail", "high", "caution"),
    ("power.charge-used", "power.charge-used@pack-engine", "high", "no-go"),
)
# So that the rail hangs on the pack, not on its regulator alone, and a plug's class decides.
STALLED = ("stall_a = 3.0", "stall_a = 14.0")
UNRATED = ('gender = "pin"\ncurrent_a = 5\n', 'gender = "pin"\n')


def limited(code: str, side: str, at: float) -> Texts:
    """The small aeroplane with a rule's limit set by its builder."""
    row = f'[[limit]]\nid = "{code}"\n{side} = {at!r}\nreason = "set for this test"\n'
    return flown(STALLED, UNRATED, more=row)


@pytest.mark.parametrize("code, address, side, severity", CASES)
def test_each_limit_on_three_aeroplanes(
    code: str, address: str, side: str, severity: str
) -> None:
    """Outside by more than U fails, nearer is to be measured, inside by more than U passes."""
    figure = assessed(flown(STALLED, UNRATED)).figure(address)
    assert figure.expanded > 0.0
    away = figure.expanded if side == "low" else -figure.expanded
    said = []
    for distance in (1.0 + THOUSANDTH, 0.0, -1.0 - THOUSANDTH):
        raised = found(limited(code, side, figure.value + away * distance), code)
        said.append([one.severity for one in raised
                     if one.figure is not None and one.figure.address == address])  # fmt: skip
    assert said == [[severity], ["measure"], []]


def test_packs_of_unlike_capacity_on_one_rail() -> None:
    """A difference just above 20 % is a caution, one of 20 % is not."""
    files = flown(('from = "pack-b.lead"\nto = "hub-b.pack"', 'from = "pack-b.lead"\nto = "hub-a.pack-2"'),
                  ('part = "hub"\nid = "pack"\n', ('part = "hub"\nid = "pack-2"\nface = "front"\n'
                   'kind = "power"\nconnector = "2-pole, 30 A class"\npoles = 2\ngender = "pin"\n'
                   '[[port]]\npart = "hub"\nid = "pack"\n')),
                  ('id = "pack-b"\npart = "small-pack"', 'id = "pack-b"\npart = "smaller-pack"'))
    for capacity, expected in ((1039, ["caution"]), (1040, [])):
        part = f'[[part]]\nid = "smaller-pack"\nextends = "small-pack"\ncapacity_mah = {capacity}\n'
        raised = found({**files, "parts/own.toml": files["parts/own.toml"] + part},
                       "power.capacity-difference")  # fmt: skip
        assert [one.severity for one in raised] == expected


def test_the_small_aeroplane_is_correct() -> None:
    """With a flight and usual currents nothing is a no-go or a caution."""
    raised = {(one.code, one.about) for one in assessed(flown()).findings
              if one.stage == "power" and one.severity in ("no-go", "caution")}  # fmt: skip
    assert raised == set()


def test_a_long_thin_lead_is_cured_by_its_remedy() -> None:
    """The gauge that the remedy names leaves the drop inside its limit; the next thinner does not."""
    long = '"el-left.lead"\nlength_mm = 4000\nawg = '
    files = flown(('"el-left.lead"\nlength_mm = 1200\nawg = 20', f"{long}20"))
    (one,) = found(files, "power.lead-drop")
    assert one.remedy is not None
    assert one.about == ("el-left", "S1")
    change = one.remedy.changes[0]
    assert isinstance(change, Change)
    assert (change.address, change.old) == ("lead.S1.awg", 20)
    for gauge, cured in ((change.new, True), (change.new + 2, False)):
        again = files["aeroplane.toml"].replace(f"{long}20", f"{long}{gauge}")
        assert (found({**files, "aeroplane.toml": again}, "power.lead-drop") == []) is cured


def test_without_phases_the_charge_is_asked_for() -> None:
    """No phases: no charge of a flight, a finding that says so, and the worst moment all the same."""
    result = assessed(texts())
    assert result.results["power.endurance"] is None
    assert [one.about for one in result.findings if one.code == "power.missing"] == [("phase",)]
    assert result.figure("power.rail@hub-a.rail").value > 6.0


def test_a_pack_too_small_for_a_flight_is_told_with_what_it_takes() -> None:
    """A flight that takes 80 % of the engine's pack of 2600 mAh is a no-go."""
    current = 0.80 * 0.9 * 2600.0 * 3.6 / 400.0
    (one,) = found(flown(("moving_a = 2.3", f"moving_a = {current!r}")), "power.charge-used")
    assert one.severity == "no-go"
    assert one.about == ("pack-engine",)
    assert one.figure is not None
    assert one.figure.value == pytest.approx(80.0)
    assert one.remedy is not None
    assert "mAh" in one.remedy.text


# Both elevator servos on one hub: what the wiring alone shows, and what only volts show.
ONE_HUB = (('from = "hub-b.out-1"', 'from = "hub-a.out-5"'),
           ('at = ["hub-b.out-1"]', 'at = ["hub-a.out-5"]'))  # fmt: skip


def test_what_the_wiring_alone_shows_is_left_to_the_harness() -> None:
    """Nothing that harness.single-failure names is named again."""
    result = assessed(flown(*ONE_HUB))
    told = {one.code: {name for each in result.findings if each.code == one.code
                       for name in each.about} for one in result.findings}  # fmt: skip
    assert {"hub-a", "pack-a", "A2"} <= told["harness.single-failure"]
    assert not told["harness.single-failure"] & told.get("power.single-failure", set())


def test_a_short_that_takes_both_halves_is_a_no_go_until_accepted() -> None:
    """A short close to the only rail pulls both elevators down; taken on by name, it is a caution."""
    slips = (*ONE_HUB, ('"el-right.lead"\nlength_mm = 1200', '"el-right.lead"\nlength_mm = 60'))
    raised = [one for one in found(flown(*slips), "power.single-failure") if "S2" in one.about]
    assert [one.severity for one in raised] == ["no-go"]
    listed = ", ".join(f'"{name}"' for name in raised[0].about)
    accept = (f'[[accept]]\nid = "short"\ncode = "power.single-failure"\nabout = [{listed}]\n'
              'by = "the builder"\nreason = "short leads, looked at"\n')  # fmt: skip
    taken = [one for one in found(flown(*slips, more=accept), "power.single-failure")
             if "S2" in one.about]  # fmt: skip
    assert [one.severity for one in taken] == ["caution"]
