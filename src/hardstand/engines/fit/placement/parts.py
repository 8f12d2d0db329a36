"""An item as the solver sees it: a box with odd sides, plug rooms, and the solids they stand for."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.asbuilt.value import PlacedItem
from hardstand.engines.fit.item_frame import item_frame
from hardstand.engines.fit.item_solids import item_pieces, owner_of
from hardstand.engines.fit.layout.problem import PlugRoom
from hardstand.engines.fit.piece import Piece
from hardstand.engines.fit.placement.grid import odd_mm
from hardstand.engines.fit.placement.spread import Spread, spread_of
from hardstand.engines.fit.plug_zones import stretches, zone_pieces

LEAST_GROWTH_MM = 0.5


@dataclass(frozen=True, slots=True)
class Part:
    """One part of an item: the piece it stands for, and from where to where it is above the base."""

    piece: Piece
    bottom_mm: float
    top_mm: float
    spread: Spread


@dataclass(frozen=True, slots=True)
class Shape:
    """An item's box and plug rooms; parts[0] is the box, parts[k] goes with rooms[k - 1].

    growth_mm: by how much each rectangle is larger all round than what it stands for, at least;
    raise_mm: its base above the tray's top.
    """

    item: PlacedItem
    length_mm: int
    width_mm: int
    height_mm: float
    raise_mm: float
    growth_mm: float
    parts: tuple[Part, ...]
    rooms: tuple[PlugRoom, ...]


def shapes(items: Sequence[tuple[PlacedItem, float]]) -> dict[str, Shape]:
    """The shapes of items, each given with the height of its tray's top, by id.

    Half a millimetre all round is enough where all are known to 0.7 mm; what is known less well
    grows more, so that any two are as far apart as the uncertainty of both.
    """
    known = {item.id: _parts(item, top) for item, top in items}
    spreads = {one: max(part.spread.plan_mm for part in parts) for one, parts in known.items()}
    found = {}
    for item, _ in items:
        own = spreads[item.id]
        least = max((math.hypot(own, other) for other in spreads.values() if other <= own), default=0.0)
        growth = max(LEAST_GROWTH_MM, least - LEAST_GROWTH_MM)
        found[item.id] = _shape(item, growth, known[item.id])
    return found


def _parts(item: PlacedItem, tray_top_mm: float) -> tuple[Part, ...]:
    """The box first, then a part for each plug zone that is not below the item."""
    from dataclasses import replace

    level = replace(item, turn_deg=0.0)
    frame, owner = item_frame(level, tray_top_mm), owner_of(item)
    box = item_pieces(frame, owner)
    low = item.centre_mm[2] - item.size_mm[2] / 2.0 - tray_top_mm
    found = [Part(box[0], low, low + item.size_mm[2], spread_of(*box))]
    plugged = [one for one in stretches(level) if one.depth_mm > 0.0]
    for one, zone in zip(plugged, zone_pieces(frame, owner), strict=True):
        if one.face != "bottom":
            half = float(zone.body.half_mm[2])
            middle = float(zone.body.centre_mm[2]) - tray_top_mm
            found.append(Part(zone, middle - half, middle + half, spread_of(zone)))
    return tuple(found)


def _shape(item: PlacedItem, growth: float, parts: tuple[Part, ...]) -> Shape:
    length, width = (odd_mm(item.size_mm[k] + 2.0 * growth) for k in (0, 1))
    rooms = []
    plugged = [one for one in stretches(item) if one.depth_mm > 0.0 and one.face != "bottom"]
    for one, part in zip(plugged, parts[1:], strict=True):
        along = length if one.face in ("front", "back") else width
        real = item.size_mm[0 if one.face in ("front", "back") else 1]
        # The face of the rectangle stands out beyond that of the box: the room begins there.
        depth = one.depth_mm - (along - real) / 2.0 + growth
        if one.face == "top":
            rooms.append(PlugRoom("top", math.ceil(one.depth_mm)))
        elif one.face != "bottom":
            wide = None if one.width_mm is None else math.ceil(one.width_mm + 2.0 * growth - 1e-9)
            rooms.append(
                PlugRoom(one.face, max(1, math.ceil(depth - 1e-9)), wide, part.bottom_mm,
                         part.top_mm - part.bottom_mm)
            )  # fmt: skip
    low = parts[0].bottom_mm
    return Shape(item, length, width, parts[0].top_mm, low, growth, parts, tuple(rooms))
