"""What is dead, floating, refused, failed or tripped gets a clear answer."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from hardstand.engines.power.network.cases import cases, with_loads
from hardstand.engines.power.network.elements import (
    AnyElement,
    Fuse,
    IdealDiode,
    Limiter,
    Load,
    Pack,
    Regulator,
    Resistor,
    Switch,
)
from hardstand.engines.power.network.failures import (
    Failure,
    can_fail,
    single_failures,
    with_failures,
)
from hardstand.engines.power.network.flight import fly
from hardstand.engines.power.network.network import network
from hardstand.engines.power.network.profile import Happens, Phase, of_phases, with_noise
from hardstand.engines.power.network.refused import NetworkError
from hardstand.engines.power.network.solve import solve
from hardstand.engines.power.network.sweep import sweep
from tests.reference.networks import one_hub, two_hubs

FLAT: dict[str, Any] = {
    "cells": 2,
    "capacity_mah": 3600.0,
    "curve_charge": (0.0, 1.0),
    "curve_v": (3.7, 3.7),
}


def _pack(name: str, end: str, start: str = "0") -> Pack:
    """7.4 V behind 20 mΩ."""
    return Pack(id=name, start=start, end=end, resistance_mohm=20.0, **FLAT)


def _lead(name: str, start: str, end: str, mohm: float = 10.0) -> Resistor:
    """A lead."""
    return Resistor(id=name, start=start, end=end, resistance_mohm=mohm)


def test_a_broken_lead_leaves_its_far_side_dead_and_named() -> None:
    """Behind a broken lead there are 0 V, no current, and the names of the nodes."""
    net = network(
        [
            _pack("pack", "a"),
            _lead("H01", "a", "b"),
            _lead("H02", "b", "c"),
            Load(id="servo", start="c", end="0", draw_a=2.0),
        ]
    )
    found = solve(net, with_failures(net, cases(net), [None, Failure("H01", "open")]))
    assert found.settled.all()
    assert found.dead(0) == ()
    assert found.dead(1) == ("b", "c")
    assert found.node_v[1].tolist() == pytest.approx([7.4, 0.0, 0.0])
    assert found.amperes("servo")[1] == 0.0


def test_a_pack_without_a_way_to_ground_is_named() -> None:
    """A pack whose minus floats feeds nothing; its two nodes are dead, and nothing is singular."""
    found = solve(
        network(
            [
                _pack("pack", "a"),
                Load(id="servo", start="a", end="0", draw_a=1.0),
                _pack("lost", "plus", "minus"),
                _lead("H09", "plus", "far"),
            ]
        )
    )
    assert found.settled.all()
    assert found.dead() == ("minus", "plus", "far")
    assert found.volts("a")[0] == pytest.approx(7.38)
    assert found.volts("far")[0] == 0.0


def test_no_pack_at_all_is_all_dead() -> None:
    """A network without a source has 0 V everywhere."""
    found = solve(network([_lead("H01", "a", "b"), Load(id="x", start="b", end="0", draw_a=1.0)]))
    assert found.settled.all()
    assert found.dead() == ("a", "b")


def test_an_open_switch_and_an_unloaded_node() -> None:
    """Behind an open switch it is dead; at the end of a lead without load there is full voltage."""
    net = network(
        [
            _pack("pack", "a"),
            _lead("H01", "a", "end"),
            Switch(id="main", start="a", end="b", resistance_mohm=5.0, closed=False),
            Load(id="servo", start="b", end="0", draw_a=1.0),
        ]
    )
    found = solve(net, with_failures(net, cases(net), [None, Failure("main", "stuck")]))
    assert found.volts("end").tolist() == pytest.approx([7.4, 7.38])
    assert found.volts("b").tolist() == pytest.approx([0.0, 7.375])


def test_a_regulator_without_load_holds_its_voltage() -> None:
    """An unloaded rail stays within some knees of the set voltage."""
    found = solve(
        network(
            [
                _pack("pack", "a"),
                Regulator(
                    id="reg", start="a", end="rail", set_v=6.0, dropout_v=0.2, resistance_mohm=4.0
                ),
            ]
        )
    )
    assert found.settled.all()
    assert found.volts("rail")[0] == pytest.approx(6.0, abs=0.03)


def test_every_fault_is_told() -> None:
    """All faults of a list of elements come at once, each with its element."""
    wrong: list[AnyElement] = [
        Resistor(id="H01", start="a", end="a", resistance_mohm=5.0),
        Resistor(id="H01", start="a", end="b", resistance_mohm=0.0),
        Load(id="rx", start="a", end="0", draw_a=-1.0),
        Regulator(
            id="reg",
            start="a",
            end="0",
            set_v=0.0,
            dropout_v=0.2,
            resistance_mohm=4.0,
            efficiency_pct=0.0,
        ),
        replace(_pack("pack", "a"), curve_charge=(1.0, 0.0), charge=2.0),
        IdealDiode(id="d", start="a", end="b", resistance_mohm=5.0, knee_v=0.0),
        Limiter(id="tie", start="a", end="b", resistance_mohm=5.0, limit_a=0.0),
    ]
    with pytest.raises(NetworkError) as caught:
        network(wrong)
    told = caught.value.faults
    assert [fault.split()[0] for fault in told] == [
        "H01",
        "H01",
        "H01",
        "rx",
        "reg",
        "reg",
        "reg",
        "pack",
        "pack",
        "d",
        "tie",
    ]


def test_cases_refuse_what_does_not_fit() -> None:
    """A wrong name, width or number of cases is refused with a sentence."""
    net = one_hub()[0]
    with pytest.raises(ValueError, match="cases have no loads_a"):
        cases(net, loads_a=[[1.0]])
    with pytest.raises(ValueError, match="load_a has 2 columns"):
        cases(net, load_a=[1.0, 2.0])
    with pytest.raises(ValueError, match="different numbers of cases"):
        cases(net, charge=np.ones((3, len(net.packs))), load_a=np.ones((2, len(net.loads))))
    with pytest.raises(KeyError):
        with_loads(net, cases(net), {"rail": 1.0})
    with pytest.raises(ValueError, match="lead_a cannot fail as 'stuck'"):
        with_failures(net, cases(net), [Failure("lead_a", "stuck")])


def test_a_fuse_blows_and_what_is_upstream_recovers() -> None:
    """A short circuit behind a fuse opens it; the rail before it comes back, the rest is dead."""
    net = network(
        [
            _pack("pack", "rail"),
            Load(id="servo", start="rail", end="0", draw_a=2.0),
            Fuse(id="F1", start="rail", end="lamps", resistance_mohm=3.0, opens_at_a=10.0),
            Load(id="lamp", start="lamps", end="0", draw_a=1.0),
        ]
    )
    found = sweep(net, cases(net), [Failure("lamp", "short"), Failure("F1", "open")])
    assert found.lowest_v("rail").tolist() == pytest.approx([7.34, 7.36, 7.36])
    assert found.opened[1, 0, net.element_at["F1"]]
    assert found.solution.dead(1) == ("lamps",)
    assert found.highest_v("lamps").tolist() == pytest.approx([7.337, 0.0, 0.0])


def test_one_hub_survives_a_pack_and_a_shorted_rail_takes_all() -> None:
    """On one rail either pack is enough at rest; a short circuit of the rail is not survived."""
    net = one_hub()[0]
    found = sweep(
        net,
        cases(net),
        [Failure("pack_a", "open"), Failure("pack_b", "open"), Failure("plug_rudder", "short")],
    )
    rail = found.lowest_v("rail")
    assert rail[1] == pytest.approx(7.02, abs=0.03)
    assert rail[2] == pytest.approx(7.0, abs=0.03)
    assert rail[3] < 1.5


def test_two_hubs_part_where_one_is_shorted() -> None:
    """The tie limits, opens, and the other hub goes on."""
    net = two_hubs()[0]
    found = sweep(net, cases(net), [Failure("plug_flap_right", "short")])
    assert found.opened[1, 0, net.element_at["tie"]]
    assert found.lowest_v("rail_left")[1] == pytest.approx(7.0, abs=0.03)
    assert found.lowest_v("rail_right")[1] < 1.0


def test_failures_of_every_kind_are_listed_once() -> None:
    """All single failures of a network: each element, each way that it can fail, once."""
    net = two_hubs()[0]
    every = single_failures(net)
    assert len(set(every)) == len(every)
    assert {one.element for one in every} == {one.id for one in net.elements}
    assert Failure("tie", "stuck") in every
    assert can_fail(net.elements[net.element_at["pump_motor"]]) == ("open", "short")


def test_a_pack_with_a_dead_cell_leaves_the_load_to_the_other() -> None:
    """With one cell gone a pack behind a diode carries nothing, and the other carries all."""
    net = one_hub()[0]
    found = sweep(net, cases(net), [Failure("pack_a", "stuck")])
    a, b = net.element_at["pack_a"], net.element_at["pack_b"]
    assert found.current_a[1, 0, a] == pytest.approx(0.0, abs=1e-4)
    assert found.current_a[1, 0, b] == pytest.approx(found.current_a[0, 0, [a, b]].sum(), rel=0.02)


# ---- Flights


def _servo_on_a_fuse() -> list[AnyElement]:
    """A pack, a fuse that needs two seconds, and a load."""
    return [
        _pack("pack", "a"),
        Fuse(id="F1", start="a", end="b", resistance_mohm=3.0, opens_at_a=10.0, opens_after_s=2.0),
        Load(id="servo", start="b", end="0", draw_a=1.0),
    ]


def test_a_fuse_opens_after_its_time_and_not_before() -> None:
    """A second of overload passes; after two seconds on end the fuse opens for good."""
    net = network(_servo_on_a_fuse())
    flight = fly(
        net,
        of_phases(
            net,
            [
                Phase("peak", 1.0, {"servo": 12.0}),
                Phase("rest", 1.0, {}),
                Phase("stall", 3.0, {"servo": 12.0}),
                Phase("after", 1.0, {}),
            ],
            0.1,
        ),
    )
    assert [name for name, _ in flight.tripped] == ["F1"]
    assert flight.tripped[0][1] == pytest.approx(4.0)
    servo = flight.solution.amperes("servo")
    assert servo[39] == pytest.approx(12.0)
    assert np.all(servo[40:] == 0.0)
    assert flight.used_mah[0] == pytest.approx((1.0 * 12 + 1.0 + 2.0 * 12) / 3.6, rel=1e-6)


def test_a_failure_happens_when_it_is_said_to() -> None:
    """From the moment on it is so, not before, though it is not at a border of a stretch."""
    net = network(_servo_on_a_fuse())
    profile = of_phases(net, [Phase("rest", 10.0, {})], 0.5)
    flight = fly(net, profile, happens=[Happens(3.0, Failure("servo", "open"))])
    assert flight.solution.amperes("servo").tolist() == pytest.approx([1.0] * 6 + [0.0] * 14)
    assert flight.used_mah[0] == pytest.approx(3.0 / 3.6)


def test_long_steps_and_short_ones_use_the_same_charge() -> None:
    """Where loads are steady, steps of 30 s end where steps of 0.1 s do, to 0.1 mAh and 0.1 mV."""
    net = one_hub()[0]
    phases = [Phase("flight", 300.0, {"pump_motor": 2.3}), Phase("landing", 60.0, {})]
    coarse, fine = (fly(net, of_phases(net, phases, step_s)) for step_s in (30.0, 0.1))
    assert coarse.used_mah == pytest.approx(fine.used_mah, abs=0.1)
    assert coarse.charge[-1] == pytest.approx(fine.charge[-1], abs=1e-4)


def test_stretches_join() -> None:
    """A flight longer than a stretch is the same as one of its halves after the other."""
    net = one_hub()[0]
    whole = with_noise(of_phases(net, [Phase("flight", 120.0, {})]), 0.3, 50.0, 1)
    assert len(whole.step_s) == 6000
    first, second = (
        replace(
            whole, step_s=whole.step_s[part], load_a=whole.load_a[part], phase=whole.phase[part]
        )
        for part in (slice(0, 2500), slice(2500, None))
    )
    one = fly(net, whole)
    half = fly(net, first)
    rest = fly(net, second, cases(net, charge=half.charge[-1]))
    assert rest.charge[-1] == pytest.approx(one.charge[-1], abs=1e-9)
    assert rest.solution.node_v[-1] == pytest.approx(one.solution.node_v[-1], abs=1e-6)


def test_an_empty_pack_stays_at_the_foot_of_its_curve() -> None:
    """A flight that asks for more than there is ends with the pack at nothing, not below."""
    small = replace(_pack("pack", "a"), capacity_mah=10.0)
    net = network([small, Load(id="servo", start="a", end="0", draw_a=10.0)])
    flight = fly(net, of_phases(net, [Phase("flight", 10.0, {})], 0.5))
    assert flight.charge.min() == 0.0
    assert flight.used_mah[0] == pytest.approx(10.0)
