"""Where leads are free of their plugs, and whether that is in a described bay."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from hardstand.asbuilt.value import BaySection, PlacedItem
from hardstand.engines.harness.lane_graph import Exit
from hardstand.engines.harness.lane_points import HEIGHTS, WALL_MM, wall_points
from hardstand.engines.harness.model import HarnessPort, Netlist
from hardstand.engines.harness.port_points import OUT
from hardstand.standards.rotation import turned

SKIN_MM = 15.0  # what stands so far outside the inside of a bay is still reached from within


def exits_of(
    net: Netlist, items: Iterable[PlacedItem], sections: Sequence[BaySection]
) -> dict[str, Exit]:
    """The exit of every end that has a place and a lead, by end."""
    by_id = {one.id: one for one in items}
    found = {}
    for end in net.at:
        port = net.ports[end]
        if port.at_mm is not None:
            at = _free_at(port, by_id, _nearest_mm(net, end))
            found[end] = Exit(end, port.item, at, in_bay(at, sections))
    return found


def _nearest_mm(net: Netlist, end: str) -> float:
    """How far the nearest port is that a lead joins this one to."""
    here = net.ports[end].at_mm
    far = [net.ports[one].at_mm for one in net.mates(end)]
    return min((math.dist(here, one) for one in far if one and here), default=math.inf)


def _free_at(
    port: HarnessPort, items: Mapping[str, PlacedItem], nearest_mm: float
) -> tuple[float, float, float]:
    """A plug's length and half its bend before the face: a bend cuts the corner. Half way at most."""
    x, y, z = port.at_mm or (0.0, 0.0, 0.0)
    item = items.get(port.item)
    placed = next((one for one in item.ports if f"{port.item}.{one.name}" == port.end), None) if (
        item is not None) else None  # fmt: skip
    if item is None or placed is None:
        return x, y, z
    far = min(placed.port.plug_mm + placed.port.bend_mm / 2.0, nearest_mm / 2.0)
    out = OUT[placed.port.face]
    dx, dy, dz = turned((out[0] * far, out[1] * far, out[2] * far), item.turn_deg, item.tilt_deg)
    return x + dx, y + dy, z + dz


def row_u_mm(port: HarnessPort, items: Mapping[str, PlacedItem]) -> float:
    """Standard uncertainty of where on its face a port is: any place of its row is as likely, mm."""
    item = items.get(port.item)
    placed = next((one for one in item.ports if f"{port.item}.{one.name}" == port.end), None) if (
        item is not None) else None  # fmt: skip
    if item is None or placed is None:
        return 0.0
    along = 0 if placed.port.face in ("left", "right") else 1
    wide = placed.port.row_mm[0] if placed.port.row_mm else item.size_mm[along]
    return wide / math.sqrt(12.0)


def in_bay(at: tuple[float, float, float], sections: Sequence[BaySection]) -> bool:
    """Whether a point lies in a bay, or at its skin; where no bay is described, everything does."""
    bays: dict[str, list[BaySection]] = {}
    for one in sections:
        bays.setdefault(one.bay, []).append(one)
    for rows in bays.values():
        own = sorted(rows, key=lambda one: one.x_mm)
        if own[0].x_mm - SKIN_MM <= at[0] <= own[-1].x_mm + SKIN_MM:
            behind = next((k for k, one in enumerate(own) if one.x_mm >= at[0]), len(own) - 1)
            pair = own[max(behind - 1, 0) : behind + 1]
            sides = [wall_points(pair, [at[0]], HEIGHTS[1], way)[0][0] for way in (-1.0, 1.0)]
            if sides[0] - WALL_MM - SKIN_MM <= at[1] <= sides[1] + WALL_MM + SKIN_MM:
                return True
    return not bays
