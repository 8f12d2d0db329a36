"""Where leads are free of their plugs, and whether that is in a described bay."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from hardstand.asbuilt.value import BaySection, PlacedItem, PlacedPort
from hardstand.engines.harness.fans import Exit
from hardstand.engines.harness.lane_points import HEIGHTS, WALL_MM, wall_points
from hardstand.engines.harness.model import HarnessPort, Netlist
from hardstand.engines.harness.port_points import OUT
from hardstand.engines.kept import Kept
from hardstand.standards.rotation import turned

SKIN_MM = 15.0  # what stands so far outside the inside of a bay is still reached from within


def exits_of(
    net: Netlist, items: Iterable[PlacedItem], sections: Sequence[BaySection],
    kept: Kept | None = None,
) -> dict[str, Exit]:
    """The exit of every end that has a place and a lead, by end."""
    by_id = {one.id: one for one in items}
    found = {}
    bays = (kept or Kept()).each("bays", {"": tuple(sections)}, Bays)[""]
    for end in net.at:
        port = net.ports[end]
        if port.at_mm is not None:
            at = _free_at(port, by_id, _nearest_mm(net, end))
            found[end] = Exit(end, port.item, at, bays.hold(at))
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
    placed = _port_of(port.end, item)
    if item is None or placed is None:
        return x, y, z
    far = min(placed.port.plug_mm + placed.port.bend_mm / 2.0, nearest_mm / 2.0)
    out = OUT[placed.port.face]
    dx, dy, dz = turned((out[0] * far, out[1] * far, out[2] * far), item.turn_deg, item.tilt_deg)
    return x + dx, y + dy, z + dz


def row_u_mm(end: str, item: PlacedItem | None) -> float:
    """Standard uncertainty of where on its face a port is: any place of its row is as likely, mm."""
    placed = _port_of(end, item)
    if item is None or placed is None:
        return 0.0
    along = 0 if placed.port.face in ("left", "right") else 1
    wide = placed.port.row_mm[0] if placed.port.row_mm else item.size_mm[along]
    return wide / math.sqrt(12.0)


def _port_of(end: str, item: PlacedItem | None) -> PlacedPort | None:
    if item is None or not end.startswith(f"{item.id}."):
        return None
    name = end[len(item.id) + 1 :]
    return next((one for one in item.ports if one.name == name), None)


class Bays:
    """The bays of an aeroplane, to ask whether points lie in one."""

    def __init__(self, sections: Sequence[BaySection]) -> None:
        rows: dict[str, list[BaySection]] = {}
        for one in sections:
            rows.setdefault(one.bay, []).append(one)
        self._bays = []
        for own in rows.values():
            own.sort(key=lambda one: one.x_mm)
            x = [one.x_mm for one in own]
            sides = [[y for y, _ in wall_points(own, x, HEIGHTS[1], way)] for way in (-1.0, 1.0)]
            self._bays.append((x, sides))

    def hold(self, at: tuple[float, float, float]) -> bool:
        """Whether a point lies in a bay, or at its skin; where no bay is described, everything does."""
        for x, (left, right) in self._bays:
            if x[0] - SKIN_MM <= at[0] <= x[-1] + SKIN_MM:
                sides = float(np.interp(at[0], x, left)), float(np.interp(at[0], x, right))
                if sides[0] - WALL_MM - SKIN_MM <= at[1] <= sides[1] + WALL_MM + SKIN_MM:
                    return True
        return not self._bays
