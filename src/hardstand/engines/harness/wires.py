"""The wires of a lead: which pin at one end each joins to which pin at the other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import pi

from hardstand.description.electrics import EMPTY
from hardstand.description.items import Lead
from hardstand.engines.harness.model import Box, Conductor, HarnessPort
from hardstand.standards.wire import conductor_diameter_mm


def plug_pins(lead: Lead, side: int, port: HarnessPort) -> tuple[str, ...]:
    """What stands in the places of a lead's plug at one end (0: from, 1: to): as stated, else to fit."""
    stated = lead.to_pins if side else lead.from_pins
    return stated if stated is not None else port.pins


def wires_of(lead: Lead, ports: tuple[HarnessPort, HarnessPort]) -> Iterator[Conductor]:
    """A wire for each name that both plugs have, from the pin it lands on to the other.

    A plug's place meets the pin in that place of the port. Ports plugged into one another directly
    join place by place.
    """
    first, second = ports
    if lead.direct:
        for a, b in zip(first.pins, second.pins, strict=False):
            yield Conductor(lead.id, a, (first.end, a), (second.end, b))
        return
    plugs = plug_pins(lead, 0, first), plug_pins(lead, 1, second)
    for place, name in enumerate(plugs[0]):
        if name == EMPTY or name not in plugs[1]:
            continue
        landed = [
            port.pins[at] if at < len(port.pins) else EMPTY
            for port, at in ((first, place), (second, plugs[1].index(name)))
        ]
        if EMPTY not in landed:
            yield Conductor(lead.id, name, (first.end, landed[0]), (second.end, landed[1]))


def plug_pairs(
    boxes: Mapping[str, Box], ports: Mapping[str, HarnessPort]
) -> Iterator[Conductor]:
    """The copper inside plug pairs that are items: left and right, pin by pin."""
    for box in boxes.values():
        left, right = ports.get(f"{box.id}.left"), ports.get(f"{box.id}.right")
        if box.kind == "other" and left is not None and right is not None:
            for a, b in zip(left.pins, right.pins, strict=False):
                yield Conductor("", a, (left.end, a), (right.end, b))


def section_mm2(lead: Lead) -> float | None:
    """The section of each conductor of a lead in mm2; None where neither gauge nor section is given.

    Source: ASTM B258 for the gauges, as `standards.wire` has them.

    >>> lead = Lead.model_validate({"id": "a", "from": "b.c", "to": "d.e", "awg": 20})
    >>> round(section_mm2(lead) or 0.0, 3)
    0.518
    """
    if lead.area_mm2 is not None:
        return float(lead.area_mm2)
    return None if lead.awg is None else pi / 4.0 * conductor_diameter_mm(lead.awg) ** 2
