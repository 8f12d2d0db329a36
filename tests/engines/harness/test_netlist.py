"""The netlist at pin level, supplies and channels, on the small aeroplane and on the demo."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from hardstand.asbuilt import build
from hardstand.assessment import assess
from hardstand.changes import Change
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.description.write import apply_to_texts
from hardstand.engines.harness import STAGE
from tests.engines.harness.wired import assessed, findings, lead, mistaken, row_of, texts


@cache
def demo(*options: str) -> dict[str, Any]:
    """The harness's results on the demo as built."""
    description = read_texts(demo_texts("as-built"), options).description
    return dict(assess(build(description), [STAGE]).results)


def test_a_net_is_what_copper_joins() -> None:
    """Signal, plus and minus of a servo lead are three nets, each from the hub's pin to the servo's."""
    net = assessed(texts()).results["harness.netlist"]
    for pin in ("signal", "plus", "minus"):
        number = net.net_of["el-left.lead", pin]
        assert set(net.nets[number].pins) == {("el-left.lead", pin), ("hub-a.out-1", pin)}
        wires = [net.conductors[one] for one in net.nets[number].conductors]
        assert [wire.lead for wire in wires] == ["S1"]
    assert net.mates("hub-a.out-1") == ("el-left.lead",)


def test_a_wire_left_out_joins_nothing() -> None:
    """The receiver's plus does not reach the second hub over the lead whose plus is left out."""
    net = assessed(texts()).results["harness.netlist"]
    reached = {end for end, _ in net.nets[net.net_of["rx-a.bus", "plus"]].pins}
    assert reached == {"rx-a.bus", "hub-a.bus-1"}
    shared = {end for end, _ in net.nets[net.net_of["rx-a.bus", "signal"]].pins}
    assert shared == {"rx-a.bus", "hub-a.bus-1", "hub-b.bus-1"}


def test_a_joint_passes_each_of_its_ways_on_by_itself() -> None:
    """Aileron and flap go through one wing plug and stay apart."""
    net = demo()["harness.netlist"]
    aileron = net.nets[net.net_of["servo-aileron-left.lead", "signal"]].pins
    assert {end for end, _ in aileron} == {
        "servo-aileron-left.lead", "wing-plug-left.aileron", "distribution-unit.out-1",
    }  # fmt: skip
    assert ("servo-flap-left.lead", "signal") not in aileron


def test_every_pin_is_on_one_net_and_every_net_is_named_by_its_pins() -> None:
    """Nets are disjoint, and every conductor lies on the net of both of its pins."""
    net = demo()["harness.netlist"]
    assert sum(len(one.pins) for one in net.nets) == len(net.net_of)
    for number, wire in enumerate(net.conductors):
        on = net.net_of[wire.a]
        assert on == net.net_of[wire.b]
        assert number in net.nets[on].conductors


@pytest.mark.parametrize("options", [(), ("two-hubs",)])
def test_the_demos_channels_reach_what_they_drive(options: tuple[str, ...]) -> None:
    """All fourteen, followed over the leads, with one hub and with two; both receivers command them."""
    plan = demo(*options)["harness.channels"].channels
    assert [one.number for one in plan] == list(range(1, 15))
    for one in plan:
        assert one.reaches == one.drives or one.id == "gyro-mode"
        assert set(one.receivers) >= {"receiver-front"}
        if one.outputs:
            assert set(one.receivers) == {"receiver-front", "receiver-centre"}


def test_one_distribution_takes_both_axes_and_two_hubs_take_none() -> None:
    """The scenario's own statement of one hub; of two, the computed answer."""
    assert demo()["harness.channels"].takes == {"distribution-unit": ("pitch", "roll")}
    assert demo("two-hubs")["harness.channels"].takes == {}


def test_two_hubs_joined_by_a_receivers_plus_are_found() -> None:
    """With the plus wires in, the branched bus leads join both rails past the tie."""
    files = demo_texts("as-built")
    text = files["aeroplane.toml"]
    for old in ('to_pins = ["signal", "empty", "minus"]    # its plus comes from the left hub alone\n',
                ('"lead.H06.to_pins" = ["signal", "empty", "minus"]    # receiver 2 is fed by the right '
                "hub\n")):  # fmt: skip
        assert text.count(old) == 1
        text = text.replace(old, "")
    read = read_texts(dict(files) | {"aeroplane.toml": text}, ("two-hubs",))
    codes = {one.code for one in assess(build(read.description), [STAGE]).findings}
    assert "harness.backfeed" in codes


def test_supplies_of_the_demo() -> None:
    """Both packs by diodes to one rail of 7.0 V; gear and lights by theirs; the control unit by its own."""
    supply = demo()["harness.supply"]
    assert set(supply.packs["distribution-unit.rail"]) == {"rx-pack-left", "rx-pack-right"}
    assert supply.volts["distribution-unit.rail"] == (7.0, 7.0)
    assert supply.packs["gear-controller.rail"] == ("gear-pack",)
    assert supply.packs["turbine-control-unit.in-pack"] == ("control-unit-pack",)
    assert supply.volts["turbine-control-unit.in-pack"] == pytest.approx((11.1, 12.6))


def test_direct_plugs_join_place_by_place() -> None:
    """Without a lead between them, the pins meet in the order of both ports."""
    files = mistaken(('length_mm = 1200\nawg = 20\nconnector = "3-pin 2.54 mm"\n[[lead]]\nid = "S2"',
                      'direct = true\n[[lead]]\nid = "S2"'))  # fmt: skip
    net = assessed(files).results["harness.netlist"]
    assert net.net_of["el-left.lead", "plus"] == net.net_of["hub-a.out-1", "plus"]


def test_without_channels_only_that_is_said() -> None:
    """What moves what cannot be judged, and it is not passed over."""
    text = texts()["aeroplane.toml"]
    files = texts() | {"aeroplane.toml": text[: text.index("[[channel]]")]}
    assert [one.code for one in findings(files)] == ["harness.missing"]


def test_a_lead_without_a_connector_is_taken_to_fit_and_said_so() -> None:
    """One note for all of them."""
    files = mistaken((('from = "hub-a.out-1"\nto = "el-left.lead"\nlength_mm = 1200\nawg = 20\n'
                      'connector = "3-pin 2.54 mm"\n'),
                      'from = "hub-a.out-1"\nto = "el-left.lead"\nlength_mm = 1200\nawg = 20\n'))  # fmt: skip
    found = findings(files)
    assert [(one.severity, one.code) for one in found] == [("note", "harness.assumption")]
    assert "S1" in found[0].text


def test_a_set_voltage_of_the_item_wins_over_the_parts() -> None:
    """And is what a second remedy finds there."""
    files = texts() | apply_to_texts(texts(), [Change("item.hub-a.set_v", None, 6.0)])
    assert assessed(files).results["harness.supply"].volts["hub-a.rail"] == (6.0, 6.0)


def test_power_that_ends_at_one_port_of_an_item_is_told_of_there() -> None:
    """A leg whose motor is fed may still have a dead brake."""
    brake = ('[[port]]\npart = "retract"\nid = "brake"\nface = "front"\nkind = "power"\n'
             'connector = "2-pole"\npoles = 2\nmoving_a = 0.4\n[[part]]\nid = "brakes"')  # fmt: skip
    files = mistaken(('[[part]]\nid = "brakes"', brake), (
        "[[load]]\n", ('[[lead]]\nid = "X1"\nfrom = "splice"\nto = "leg.brake"\nconnector = "2-pole"\n'
        'awg = 22\n[[load]]\n')))  # fmt: skip
    found = [one for one in findings(files) if one.code == "harness.unpowered"]
    assert [one.about for one in found] == [("leg", "X1")]


def test_a_row_in_the_wrong_order_is_found_at_the_port_where_it_is_wrong() -> None:
    """The text names both pins that meet."""
    found = findings(mistaken(lead("S1", 'to_pins = ["plus", "signal", "minus"]')))
    said = next(one for one in found if one.code == "harness.pin-order")
    assert "el-left.lead" in said.text
    assert row_of(texts(), "S1")["to"] == "el-left.lead"
