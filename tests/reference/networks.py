"""Ten networks of our own, small ones for one device each and two as large as an aeroplane's.

Each comes with a short flight: what its loads draw, phase by phase. The curve of the packs is that
of a published pouch cell (W. Ai et al., J. Electrochem. Soc. 167 (2020) 013512); all else is invented.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hardstand.engines.power.network.elements import (
    AnyElement,
    Fuse,
    IdealDiode,
    Junction,
    Limiter,
    Load,
    Pack,
    Regulator,
    Resistor,
    Switch,
)
from hardstand.engines.power.network.network import Network, network
from hardstand.engines.power.network.profile import Phase

CURVE: dict[str, Any] = {
    "curve_charge": (0.0, 0.1, 0.2, 0.5, 0.8, 0.9, 1.0),
    "curve_v": (3.0, 3.64, 3.695, 3.793, 3.995, 4.088, 4.2),
}
SERVOS = (  # id, lead in milliohms, current at rest in A; lengths and gauges as in a two-metre jet
    ("taileron_left", 32.4, 0.35),
    ("taileron_right", 32.4, 0.35),
    ("aileron_left", 49.3, 0.25),
    ("aileron_right", 49.3, 0.25),
    ("flap_left", 38.0, 0.15),
    ("flap_right", 38.0, 0.15),
    ("rudder", 53.3, 0.2),
    ("steering", 29.2, 0.1),
)
LEFT = (*(name for name, *_ in SERVOS if name.endswith("left")), "rudder")
Made = tuple[Network, tuple[Phase, ...]]


def _pack(name: str, node: str, charge: float, mohm: float = 33.6, mah: float = 3460.0) -> Pack:
    """A pack of two cells from ground to a node."""
    return Pack(
        id=name,
        start="0",
        end=node,
        cells=2,
        capacity_mah=mah,
        resistance_mohm=mohm,
        charge=charge,
        **CURVE,
    )


def _path(side: str, rail: str, charge: float, set_v: float = 7.0) -> list[AnyElement]:
    """A pack with lead, contact, ideal diode and linear regulator to a rail."""
    return [
        _pack(f"pack_{side}", f"cells_{side}", charge),
        Resistor(id=f"lead_{side}", start=f"cells_{side}", end=f"plug_{side}", resistance_mohm=5.8),
        Resistor(
            id=f"contact_{side}", start=f"plug_{side}", end=f"hub_{side}", resistance_mohm=1.2
        ),
        IdealDiode(
            id=f"diode_{side}", start=f"hub_{side}", end=f"joint_{side}", resistance_mohm=5.0
        ),
        Regulator(
            id=f"regulator_{side}",
            start=f"joint_{side}",
            end=rail,
            set_v=set_v,
            dropout_v=0.2,
            resistance_mohm=4.0,
            limit_a=25.0,
        ),
    ]


def _servo(name: str, lead_mohm: float, a: float, rail: str) -> list[AnyElement]:
    """A servo behind a plug, its lead and a contact; it resets below 4.4 V."""
    return [
        Resistor(id=f"plug_{name}", start=rail, end=f"p_{name}", resistance_mohm=4.0),
        Resistor(id=f"lead_{name}", start=f"p_{name}", end=f"s_{name}", resistance_mohm=lead_mohm),
        Load(id=name, start=f"s_{name}", end="0", draw_a=a, cut_off_v=4.4, stuck_a=12.0 * a),
    ]


def _receiver(name: str, rail: str) -> list[AnyElement]:
    """A receiver, a load of constant power down to 3.3 V."""
    return [
        Resistor(id=f"lead_{name}", start=rail, end=f"v_{name}", resistance_mohm=170.0),
        Load(id=name, start=f"v_{name}", end="0", draw_a=0.1, at_v=7.0, law="power", floor_v=3.3),
    ]


def _gear(charge: float) -> list[AnyElement]:
    """The gear and lights with a pack of their own, three leg motors, switched and fused."""
    elements: list[AnyElement] = [
        _pack("pack_gear", "cells_gear", charge, 40.0, 2200.0),
        Resistor(id="lead_gear", start="cells_gear", end="fused_gear", resistance_mohm=11.9),
        Fuse(
            id="fuse_gear", start="fused_gear", end="valves", resistance_mohm=3.0, opens_at_a=20.0
        ),
        Resistor(id="branch_lights", start="valves", end="lights", resistance_mohm=18.0),
        Load(id="lamps", start="lights", end="0", draw_a=1.2, at_v=7.4, law="resistance"),
        Load(
            id="sequencer", start="valves", end="0", draw_a=0.08, at_v=7.4, law="power", floor_v=3.5
        ),
    ]
    for leg, mohm in (("nose", 28.0), ("left", 70.0), ("right", 70.0)):
        elements += [
            Switch(id=f"drive_{leg}", start="valves", end=f"d_{leg}", resistance_mohm=15.0),
            Resistor(id=f"lead_{leg}", start=f"d_{leg}", end=f"m_{leg}", resistance_mohm=mohm),
            Load(
                id=f"motor_{leg}", start=f"m_{leg}", end="0", draw_a=0.0, floor_v=2.0, stuck_a=6.0
            ),
        ]
    return elements


def _engine() -> list[AnyElement]:
    """The engine's control unit and pump on a pack of their own."""
    return [
        _pack("pack_engine", "cells_engine", 0.8, 30.0, 2600.0),
        Resistor(id="lead_engine", start="cells_engine", end="unit", resistance_mohm=19.0),
        Load(
            id="control_unit", start="unit", end="0", draw_a=0.5, at_v=7.4, law="power", floor_v=4.0
        ),
        Resistor(id="lead_pump", start="unit", end="pump", resistance_mohm=13.3),
        Load(id="pump_motor", start="pump", end="0", draw_a=1.8),
    ]


def _busy(times: float) -> dict[str, float]:
    """All servos at a multiple of what they draw at rest."""
    return {name: times * a for name, _, a in SERVOS}


def _flight() -> tuple[Phase, ...]:
    """Ten seconds with everything in them: rest, a peak of 18 A, the gear, quiet."""
    legs = dict.fromkeys(("motor_nose", "motor_left", "motor_right"), 3.0)
    return (
        Phase("rest", 2.0, {}),
        Phase("peak", 1.0, _busy(10.0)),
        Phase("gear", 3.0, legs | _busy(2.0)),
        Phase("start", 2.0, {"pump_motor": 9.0}),
        Phase("quiet", 2.0, _busy(0.3)),
    )


def one_hub() -> Made:
    """Two packs by ideal diodes and regulators on one rail; two more packs apart from it."""
    elements = [*_path("a", "rail", 0.9), *_path("b", "rail", 0.3, 7.02)]
    for name, lead_mohm, a in SERVOS:
        elements += _servo(name, lead_mohm, a, "rail")
    for name in ("receiver_1", "receiver_2", "gyro"):
        elements += _receiver(name, "rail")
    return network([*elements, *_gear(0.85), *_engine()]), _flight()


def two_hubs() -> Made:
    """A pack a hub; a switch limited to 15 A ties the two rails."""
    elements = [*_path("a", "rail_left", 0.9), *_path("b", "rail_right", 0.3)]
    for name, lead_mohm, a in SERVOS:
        elements += _servo(name, lead_mohm, a, "rail_left" if name in LEFT else "rail_right")
    for name, rail in (("receiver_1", "rail_left"), ("receiver_2", "rail_right")):
        elements += _receiver(name, rail)
    tie = Limiter(id="tie", start="rail_left", end="rail_right", resistance_mohm=10.0, limit_a=15.0)
    return network([*elements, tie, *_gear(0.85), *_engine()]), _flight()


def _steps(load: str, *values: float) -> tuple[Phase, ...]:
    """A second a value of one load's current."""
    return tuple(Phase(f"{value:g} A", 1.0, {load: value}) for value in values)


def two_sources() -> Made:
    """Two packs of unlike charge and resistance, joined, with a resistive load."""
    return network(
        [
            _pack("full", "bus", 1.0, 30.0, 60.0),
            _pack("half", "bus", 0.5, 90.0, 60.0),
            Load(id="lamp", start="bus", end="0", draw_a=1.0, at_v=7.4, law="resistance"),
        ]
    ), _steps("lamp", 0.0, 2.0, 6.0)


def bridge() -> Made:
    """A bridge of leads with a pack across it and loads in both arms."""
    return network(
        [
            _pack("pack", "top", 0.7),
            Resistor(id="upper_left", start="top", end="left", resistance_mohm=20.0),
            Resistor(id="upper_right", start="top", end="right", resistance_mohm=140.0),
            Resistor(id="across", start="left", end="right", resistance_mohm=320.0),
            Load(id="lower_left", start="left", end="0", draw_a=1.0),
            Load(id="lower_right", start="right", end="0", draw_a=2.0, at_v=7.0, law="resistance"),
        ]
    ), _steps("lower_left", 1.0, 5.0, 0.2)


def joined_packs() -> Made:
    """Two small packs joined directly: the fuller one charges the other, in minutes' worth of it."""
    return network(
        [
            _pack("full", "a", 0.95, 30.0, 40.0),
            _pack("low", "b", 0.25, 30.0, 40.0),
            Resistor(id="lead_full", start="a", end="bus", resistance_mohm=6.0),
            Resistor(id="lead_low", start="b", end="bus", resistance_mohm=6.0),
            Load(id="servos", start="bus", end="0", draw_a=1.0),
        ]
    ), _steps("servos", 0.0, 4.0, 12.0, 1.0)


def junctions() -> Made:
    """Two packs over plain diodes: the fuller one carries all until the load brings in the other."""
    diode = {"resistance_mohm": 12.0, "saturation_a": 2e-5, "emission": 1.05}
    return network(
        [
            _pack("full", "a", 0.9),
            _pack("low", "b", 0.6),
            Junction(id="diode_full", start="a", end="bus", **diode),
            Junction(id="diode_low", start="b", end="bus", **diode),
            Load(id="servos", start="bus", end="0", draw_a=1.0),
        ]
    ), _steps("servos", 0.01, 1.0, 6.0, 20.0)


def ideal_diodes() -> Made:
    """The same over ideal diodes, with a load of constant power."""
    return network(
        [
            _pack("full", "a", 0.9),
            _pack("low", "b", 0.6),
            IdealDiode(id="diode_full", start="a", end="bus", resistance_mohm=5.0),
            IdealDiode(id="diode_low", start="b", end="bus", resistance_mohm=8.0, drop_v=0.03),
            Load(id="drive", start="bus", end="0", draw_a=1.0, at_v=7.4, law="power", floor_v=4.0),
        ]
    ), _steps("drive", 0.1, 4.0, 12.0, 25.0)


def dropout() -> Made:
    """A linear regulator that runs out of headroom as the load grows."""
    return network(
        [
            _pack("pack", "a", 0.35, 60.0),
            Regulator(
                id="regulator",
                start="a",
                end="rail",
                set_v=7.0,
                dropout_v=0.25,
                resistance_mohm=6.0,
            ),
            Resistor(id="lead", start="rail", end="s", resistance_mohm=60.0),
            Load(id="servo", start="s", end="0", draw_a=1.0),
            Load(
                id="receiver", start="rail", end="0", draw_a=0.3, at_v=7.0, law="power", floor_v=3.5
            ),
        ]
    ), _steps("servo", 0.2, 2.0, 6.0, 10.0)


def converter() -> Made:
    """A converting regulator: its input current rises as the pack sags."""
    return network(
        [
            _pack("pack", "a", 0.8, 50.0),
            Resistor(id="lead", start="a", end="b", resistance_mohm=10.0),
            Regulator(
                id="regulator",
                start="b",
                end="rail",
                set_v=5.5,
                dropout_v=0.4,
                resistance_mohm=8.0,
                efficiency_pct=88.0,
                limit_a=12.0,
            ),
            Load(id="servo", start="rail", end="0", draw_a=1.0),
            Load(id="lamp", start="b", end="0", draw_a=0.8, at_v=7.4, law="resistance"),
        ]
    ), _steps("servo", 0.2, 4.0, 9.0, 14.0)


def tie() -> Made:
    """Two rails tied by a limited switch that goes on limiting; a load that switches itself off."""
    return network(
        [
            _pack("left", "rail_left", 0.9, 30.0),
            _pack("right", "rail_right", 0.2, 200.0),
            Limiter(
                id="tie",
                start="rail_left",
                end="rail_right",
                resistance_mohm=12.0,
                limit_a=6.0,
                opens_after_s=None,
            ),
            Load(id="servo", start="rail_right", end="0", draw_a=1.0),
            Resistor(id="lead", start="rail_right", end="far", resistance_mohm=100.0),
            Load(id="recorder", start="far", end="0", draw_a=0.4, cut_off_v=5.5),
        ]
    ), _steps("servo", 0.5, 6.0, 13.0, 18.0)


NETWORKS: dict[str, Callable[[], Made]] = {
    made.__name__: made
    for made in (
        two_sources,
        bridge,
        joined_packs,
        junctions,
        ideal_diodes,
        dropout,
        converter,
        tie,
        one_hub,
        two_hubs,
    )
}
