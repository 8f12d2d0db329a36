"""What becomes of an aeroplane's rails, voltages, gyros and lead lengths as a problem."""

from __future__ import annotations

from hardstand.engines.harness import planning
from hardstand.engines.harness.planning.problem import Plug
from tests.engines.harness.planning.planned import Planned, demo, planned
from tests.engines.harness.wired import PARTS, mistaken, texts

ON_ONE = (
    ('from = "hub-b.out-1"\nto = "el-right.lead"', 'from = "hub-a.out-5"\nto = "el-right.lead"'),
    ('side = "right"\nat = ["hub-b.out-1"]', 'side = "right"\nat = ["hub-a.out-5"]'),
)
OTHERS = ("flap-left", "flap-right", "gear", "brake", "lights", "engine")
TWO_RAILS = """
format = 1
[aeroplane]
name = "Two rails"
[[item]]
id = "pack"
part = "small-pack"
at_mm = [0, 0, 0]
[[item]]
id = "hub"
part = "hub-two"
at_mm = [200, 0, 0]
[[item]]
id = "rx"
part = "rx"
at_mm = [300, 0, 0]
[[item]]
id = "el-left"
part = "motor-servo"
at_mm = [900, -60, 0]
[[item]]
id = "el-right"
part = "motor-servo"
at_mm = [900, 60, 0]
[[lead]]
id = "A"
from = "pack.lead"
to = "hub.pack"
awg = 16
[[lead]]
id = "R"
from = "rx.bus"
to = "hub.bus-1"
awg = 26
[[lead]]
id = "S1"
from = "hub.out-1"
to = "el-left.lead"
awg = 20
[[lead]]
id = "S2"
from = "hub.out-2"
to = "el-right.lead"
awg = 20
[[channel]]
id = "left"
function = ["pitch"]
side = "left"
at = ["hub.out-1"]
drives = ["el-left"]
[[channel]]
id = "right"
function = ["pitch"]
side = "right"
at = ["hub.out-2"]
drives = ["el-right"]
"""
# The plain outputs on the second rail, the strong one with the receivers on the first.
HUB_TWO = (PARTS.split('[[part]]\nid = "rx"')[0].replace('"hub"', '"hub-two"')
           .replace('id = "out"\n', 'id = "out"\nrail = "rail-2"\n')
           .replace('id = "out-strong"\n', 'id = "out-strong"\nrail = "rail-1"\n')
           .replace("rated_a = 15\n", "rated_a = 15\nrails = 2\n"))  # fmt: skip


def place_at(found: Planned, item: str) -> set[int]:
    """The places of an item's outputs."""
    return {c for c, place in enumerate(found.made.problem.places) if place.item == item}


def plug(found: Planned, name: str) -> Plug:
    """A plug of the problem by its lead."""
    return next(one for one in found.made.problem.plugs if one.id == name)


def test_halves_on_one_rail_are_put_on_two() -> None:
    """In one unit with two rails one half goes to the other rail; the unit and its pack still take both."""
    found = planned({"aeroplane.toml": TWO_RAILS, "parts/own.toml": PARTS + HUB_TWO})
    assert sorted(found.ends.values()) in (["hub.out-1", "hub.out-strong"], ["hub.out-2", "hub.out-strong"])
    assert "hub.rail-2 alone takes pitch altogether no more" in planning.gains(found.made, found.plan)
    left = planning.left(found.made, found.plan)
    assert [one.failures for one in left] == [("A", "R", "hub", "pack", "rx")]
    assert "a second pack beside pack" in left[0].helps


def test_what_does_not_stand_the_voltage_goes_elsewhere_and_is_the_reason() -> None:
    """Servos for 7.4 V leave the hub at 8 V, and that is why their pair is not parted."""
    found = planned(mistaken(('id = "hub-b"\npart = "hub"\n', 'id = "hub-b"\npart = "hub"\nset_v = 8.0\n')))
    assert found.ends["S2"].startswith("hub-a.")
    assert all(plug(found, "S2").barred[c] == "voltage" for c in place_at(found, "hub-b"))
    reasons = {one for left in planning.left(found.made, found.plan) for one in left.requirements}
    assert any("does not stand the voltage of hub-b" in one for one in reasons)


def test_what_a_gyro_steadies_stays_behind_it() -> None:
    """Tailerons are barred from the receivers, which no gyro reaches; lights are not."""
    found = planned(demo(), ("two-hubs",))
    receivers = place_at(found, "receiver-front") | place_at(found, "receiver-centre")
    assert receivers
    assert all(plug(found, "H15").barred[c] == "gyro" for c in receivers)
    assert not receivers & set(plug(found, "H22").barred)


def test_of_two_equal_moves_the_one_whose_lead_reaches_is_made() -> None:
    """The left elevator's lead is too short for the other hub, so the right one is replugged."""
    way = plug(planned(texts()), "S1").fits
    here = min(way.values())
    short = ('to = "el-left.lead"\nlength_mm = 1200', f'to = "el-left.lead"\nlength_mm = {here + 45}')
    found = planned(mistaken(*ON_ONE, short), keep=OTHERS)
    assert place_at(found, "hub-b") <= plug(found, "S1").short
    assert found.ends["S1"] == "hub-a.out-1"
    assert found.ends["S2"].startswith("hub-b.")


def test_outputs_without_command_hold_nothing() -> None:
    """A hub that no receiver reaches gets no plug, nor the receiver that it fed, and both are named."""
    cut = tuple((f'id = "{one}"\nfrom = "rx-{rx}.bus"\nto = "hub-b.bus-{n}"',
                 f'id = "{one}"\nfrom = "rx-{rx}.bus"\nto = "nowhere-{n}"')
                for one, rx, n in (("R2", "a", 1), ("R4", "b", 2)))  # fmt: skip
    found = planned(mistaken(*cut))
    assert found.made.dead == ("hub-b", "rx-b")
    assert not [end for end in found.ends.values() if end.startswith("hub-b.")]
