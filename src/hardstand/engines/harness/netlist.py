"""The netlist: from items, parts, ports, joints and leads to nets of pins."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from hardstand.description.items import Lead
from hardstand.engines.harness.domains import links
from hardstand.engines.harness.ends import ends_of, free_ends, item_ends, joint_ends
from hardstand.engines.harness.model import (
    Box,
    Conductor,
    HarnessLead,
    HarnessPort,
    Net,
    Netlist,
    Pin,
)
from hardstand.engines.harness.port_points import places_mm
from hardstand.engines.harness.wires import plug_pairs, section_mm2, wires_of
from hardstand.engines.kept import Kept

NOT_ELECTRIC = ("fuel", "air")


def netlist(slices: Any, earlier: Any) -> Netlist:
    """Node: the netlist with the places of its items and ports."""
    net: Netlist = earlier["harness.circuit"]
    y_mm = {one.id: one.centre_mm[1] for one in slices.items}
    at_mm = places_mm(slices.items, slices.joints)
    return replace(
        net, boxes={name: replace(box, y_mm=y_mm[name]) for name, box in net.boxes.items()},
        ports={end: replace(port, at_mm=at_mm[end]) if end in at_mm else port
               for end, port in net.ports.items()})  # fmt: skip


def circuit(slices: Any, earlier: Any, kept: Kept | None = None) -> Netlist:
    """Node: the whole netlist without places; tubes for fuel and air are left out.

    All items lie on the centreline here and no port has a place, so that the circuit stays the same
    where an item is only moved.
    """
    del earlier
    boxes = {one.id: Box(one.id, one.name, one.kind, one.part, 0.0, one.set_v)
             for one in slices.items}  # fmt: skip
    ports = item_ends(slices.items, slices.loads, kept or Kept()) | joint_ends(slices.joints)
    leads = [one for one in slices.leads if not is_tube(ports, one)]
    ports |= free_ends(leads, ports, slices.loads)
    wires: list[Conductor] = []
    rows: dict[str, HarnessLead] = {}
    at: dict[str, list[str]] = {}
    for lead in leads:
        ends = ends_of(lead)
        own = list(wires_of(lead, (ports[ends[0]], ports[ends[1]])))
        numbers = tuple(range(len(wires), len(wires) + len(own)))
        rows[lead.id] = HarnessLead(lead.id, lead, ends, section_mm2(lead), lead.length_mm, numbers)
        wires += own
        for end in ends:
            at.setdefault(end, []).append(lead.id)
    wires += plug_pairs(boxes, ports)
    nets = _nets(wires)
    domains: dict[str, list[str]] = {}
    for port in ports.values():
        if port.domain is not None:
            domains.setdefault(port.domain, []).append(port.end)
    return Netlist(
        boxes, ports, rows, tuple(wires), nets,
        {pin: number for number, net in enumerate(nets) for pin in net.pins},
        {end: tuple(ids) for end, ids in at.items()}, links(boxes, ports.values()),
        {name: tuple(ends) for name, ends in domains.items()},
    )  # fmt: skip


def is_tube(ports: Mapping[str, HarnessPort], lead: Lead) -> bool:
    """Whether a lead is a tube for fuel or air: it ends at no port that could take a wire."""
    kinds = [ports[end].kind for end in (lead.from_, lead.to) if end in ports]
    return bool(kinds) and all(kind in NOT_ELECTRIC for kind in kinds)


def _nets(wires: Iterable[Conductor]) -> tuple[Net, ...]:
    """Pins joined by wires, in the order of the wires."""
    above: dict[Pin, Pin] = {}

    def top(pin: Pin) -> Pin:
        above.setdefault(pin, pin)
        while above[pin] != pin:
            above[pin] = above[above[pin]]
            pin = above[pin]
        return pin

    all_wires = list(wires)
    for wire in all_wires:
        above[top(wire.b)] = top(wire.a)
    pins: dict[Pin, list[Pin]] = {}
    for pin in above:
        pins.setdefault(top(pin), []).append(pin)
    numbers: dict[Pin, list[int]] = {}
    for number, wire in enumerate(all_wires):
        numbers.setdefault(top(wire.a), []).append(number)
    return tuple(Net(tuple(here), tuple(numbers[first])) for first, here in pins.items())


def pole_of(pin: str) -> str:
    """What a pin is for: plus, minus, signal, or its own name; a name before a hyphen is set aside.

    >>> pole_of("plus"), pole_of("flap-minus"), pole_of("3")
    ('plus', 'minus', '3')
    """
    last = pin.rpartition("-")[2]
    return last if last in ("plus", "minus", "signal") else pin


def ends_on(net: Netlist, end: str, pole: str) -> tuple[Pin, ...]:
    """The other pins on the net of a port's pole."""
    port: HarnessPort = net.ports[end]
    pin = next((one for one in port.pins if pole_of(one) == pole), None)
    number = net.net_of.get((end, pin)) if pin is not None else None
    return () if number is None else tuple(one for one in net.nets[number].pins if one[0] != end)


def boxes_of(net: Netlist, ends: Iterable[str]) -> Mapping[str, Box]:
    """The items that ends belong to."""
    found = (net.ports[end].item for end in ends if end in net.ports)
    return {item: net.boxes[item] for item in found if item}
