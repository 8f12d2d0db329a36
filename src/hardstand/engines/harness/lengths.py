"""What leads have to spare over the straight line between their ends: no route is shorter."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.harness.model import HarnessLead, Lengths, Netlist
from hardstand.figures import FigureSet, Input
from hardstand.standards.tolerances import ClassDefault

LENGTH = ClassDefault("length of a lead by tape, 5 mm", "mm", 5.0, 0.0)


def lengths(slices: Any, earlier: Any) -> Lengths:
    """The most that each lead with a length and two placed ends can have to spare, mm.

    What its items' own leads add is counted with it: a servo's lead and its extension are one.
    """
    net: Netlist = earlier["harness.netlist"]
    items = {one.id: one for one in slices.items}
    inputs: dict[str, Input] = {}
    rows: list[tuple[str, float, dict[str, float]]] = []
    straight: dict[str, float] = {}
    for lead in net.leads.values():
        points = [net.ports[end].at_mm for end in lead.ends]
        if points[0] is None or points[1] is None:
            continue
        apart = np.array(points[1]) - np.array(points[0])
        distance = float(np.linalg.norm(apart))
        straight[lead.id] = distance
        if lead.length_mm is None:
            continue
        length = lead.length_mm + sum(net.ports[end].flying_mm for end in lead.ends)
        slopes = {f"lead.{lead.id}.length_mm": 1.0}
        inputs[f"lead.{lead.id}.length_mm"] = length_input(lead)
        for way, end in zip((1.0, -1.0), lead.ends, strict=True):
            item = items.get(net.ports[end].item)
            if item is not None and distance > 0.0:
                for place, along in zip(item.place, apart / distance, strict=True):
                    inputs[place.address] = place
                    slopes[place.address] = slopes.get(place.address, 0.0) + way * float(along)
        rows.append((lead.id, length - distance, slopes))
    return Lengths(tuple(row[0] for row in rows), straight, _figures(rows, inputs))


def length_input(lead: HarnessLead) -> Input:
    """The length of a lead as an input, measured by tape."""
    address = f"lead.{lead.id}.length_mm"
    return Input(address, lead.length_mm or 0.0, "mm", LENGTH.fixed / 2.0, "declared", address,
                 LENGTH.name)  # fmt: skip


def _figures(
    rows: list[tuple[str, float, dict[str, float]]], inputs: dict[str, Input]
) -> FigureSet:
    column = {address: place for place, address in enumerate(inputs)}
    slope = np.zeros((len(rows), len(inputs)))
    for row, (_, _, slopes) in enumerate(rows):
        for address, one in slopes.items():
            slope[row, column[address]] = one
    return FigureSet(
        tuple(f"harness.spare-length@{row[0]}" for row in rows), np.array([row[1] for row in rows]),
        ("mm",) * len(rows), tuple(inputs.values()), slope, None,
        tuple(f"length of lead {row[0]} to spare over the straight line" for row in rows),
        method="length, with the items' own leads, less the distance of the two ports",
    )  # fmt: skip
