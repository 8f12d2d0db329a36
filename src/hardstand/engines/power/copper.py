"""Leads as elements: wire loop, plugs, fuses; plugs that branches share stand once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from hardstand.engines.harness.model import HarnessLead, Netlist
from hardstand.engines.power.defaults import WIRE_AREA_MM2, WIRE_DEGC, WIRE_LENGTH_MM, contact_mohm
from hardstand.engines.power.network.elements import Element, Fuse, Resistor
from hardstand.standards.wire_resistance import loop_mohm, mohm_per_m

DIRECT_MOHM = 0.01
# A blade fuse at twice its rating is open within seconds: ISO 8820-3, value from memory.
FUSE_OPENS, FUSE_V = 2.0, 0.1


@dataclass(frozen=True, slots=True)
class Copper:
    """One lead in the network: its elements in order, its wire alone (mohm), what was assumed."""

    elements: tuple[Element, ...]
    wire_mohm: float
    assumed: tuple[str, ...]


def node_of(net: Netlist, end: str) -> str:
    """The node that the plus of an end lies on: its domain's, else the end itself."""
    return net.ports[end].domain or end


def lead_copper(
    net: Netlist, lead: HarnessLead, shared: frozenset[str], ends: tuple[str, str]
) -> Copper:
    """A lead's elements from the end that power comes from to the other, as `ends` has them.

    Plugs at `shared` ends are not counted here.
    """
    wire, assumed = wire_mohm(lead)
    start, goal = (f"{end} plug" if end in shared else node_of(net, end) for end in ends)
    plugs = sum(plug_mohm(net, lead, side) for side in (0, 1) if lead.ends[side] not in shared)
    fuse = lead.row.fuse_a or next(
        (net.ports[end].fuse_a for end in lead.ends if net.ports[end].fuse_a), None)  # fmt: skip
    whole = Resistor(id=lead.id, start=start, end=goal, resistance_mohm=wire + plugs)
    if fuse is None:
        return Copper((whole,), wire, assumed)
    middle = f"{lead.id} fuse"
    return Copper(
        (Fuse(id=middle, start=start, end=middle, resistance_mohm=1e3 * FUSE_V / fuse,
              opens_at_a=FUSE_OPENS * fuse),
         Resistor(id=lead.id, start=middle, end=goal, resistance_mohm=wire + plugs)),
        wire, assumed,
    )  # fmt: skip


def wire_mohm(lead: HarnessLead) -> tuple[float, tuple[str, ...]]:
    """Loop resistance of a lead's wire at 20 degrees C, mohm, and what of it was assumed."""
    if lead.row.direct:
        return DIRECT_MOHM, ()
    unknown = [word for word, value in (("wire", lead.area_mm2), ("length", lead.length_mm))
               if value is None]  # fmt: skip
    one = mohm_per_m(lead.area_mm2 or WIRE_AREA_MM2, WIRE_DEGC)
    return loop_mohm(lead.length_mm or WIRE_LENGTH_MM, one), tuple(unknown)


def plug_mohm(net: Netlist, lead: HarnessLead, side: int) -> float:
    """Loop resistance of the plug at one end of a lead, mohm; none where it ends at no port."""
    port = net.ports[lead.ends[side]]
    if lead.row.direct and side:
        return 0.0
    if port.where in ("free", "unknown"):
        return 0.0
    own = (lead.row.from_connector, lead.row.to_connector)[side] or lead.row.connector
    if port.where == "joint":  # two leads meet in one pair of plugs: half of it to each
        return 0.5 * contact_mohm(port.connector or own, port.contact_mohm)
    return contact_mohm(own or port.connector, port.contact_mohm)


def shared_ends(net: Netlist, carrying: frozenset[str]) -> frozenset[str]:
    """Ports at which several leads share one plug: branches."""
    return frozenset(
        end for end, leads in net.at.items()
        if net.ports[end].where == "item" and len([one for one in leads if one in carrying]) > 1
    )  # fmt: skip


def shared_plugs(net: Netlist, shared: frozenset[str]) -> Iterator[Resistor]:
    """The plugs that branches share, each as an element of its own."""
    for end in sorted(shared):
        lead = net.leads[net.at[end][0]]
        yield Resistor(id=f"{end} plug", start=node_of(net, end), end=f"{end} plug",
                       resistance_mohm=plug_mohm(net, lead, lead.ends.index(end)))  # fmt: skip
