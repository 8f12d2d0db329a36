"""What a turned item takes in plan and height: its box, its plug rooms, its ports."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hardstand.engines.fit.layout.problem import Item, PlugRoom, Rectangle


@dataclass(frozen=True, slots=True)
class Part:
    """A rectangle of a footprint from the box's lower corner, over bottom_mm to top_mm."""

    room: Rectangle
    bottom_mm: float
    top_mm: float
    plug: bool


@dataclass(frozen=True, slots=True)
class Footprint:
    """An item at a turn: the box first among `parts`; ports in half millimetres from its corner.

    length_mm, width_mm: along x and y as turned. `ports` maps a port to twice (x, y, z), "" to
    the middle of the box.
    """

    length_mm: int
    width_mm: int
    parts: tuple[Part, ...]
    ports: Mapping[str, tuple[int, int, int]]


def footprint(item: Item, turn: int) -> Footprint:
    """The footprint of an item after `turn` quarter turns from x to y.

    >>> from hardstand.engines.fit.layout.problem import Port
    >>> pack = Item("pack", (60, 20, 15), (), (PlugRoom("back", 25),), (Port("lead", (60, 10, 5)),))
    >>> turned = footprint(pack, 1)
    >>> turned.length_mm, turned.width_mm, turned.ports["lead"]
    (20, 60, (20, 120, 10))
    >>> turned.parts[1].room
    Rectangle(x0_mm=0, x1_mm=20, y0_mm=60, y1_mm=85)
    """
    length, width, height = item.size_mm
    box = Part(Rectangle(0, length, 0, width), 0, height, plug=False)
    parts = (box, *(_plug_part(item, room) for room in item.plug_rooms))
    twice = {port.id: tuple(round(2 * value) for value in port.at_mm) for port in item.ports}
    ports = {name: (at[0], at[1], at[2]) for name, at in twice.items()}
    ports[""] = (length, width, round(height))
    for _ in range(turn % 4):
        parts = tuple(_quarter(part, width) for part in parts)
        ports = {name: (2 * width - at[1], at[0], at[2]) for name, at in ports.items()}
        length, width = width, length
    return Footprint(length, width, parts, ports)


def _plug_part(item: Item, room: PlugRoom) -> Part:
    """The rectangle of a plug room at turn 0, its halves rounded outward."""
    length, width, height = item.size_mm
    if room.face == "top":
        return Part(Rectangle(0, length, 0, width), height, height + room.depth_mm, plug=True)
    across = width if room.face in ("front", "back") else length
    taken = across if room.width_mm is None else room.width_mm
    low, high = (across - taken) // 2, across - (across - taken) // 2
    top = height if room.height_mm is None else min(height, room.bottom_mm + room.height_mm)
    rooms = {
        "front": Rectangle(-room.depth_mm, 0, low, high),
        "back": Rectangle(length, length + room.depth_mm, low, high),
        "left": Rectangle(low, high, -room.depth_mm, 0),
        "right": Rectangle(low, high, width, width + room.depth_mm),
    }
    return Part(rooms[room.face], room.bottom_mm, top, plug=True)


def _quarter(part: Part, width_mm: int) -> Part:
    """A part after one more quarter turn of an item that is width_mm wide before it."""
    at = part.room
    room = Rectangle(width_mm - at.y1_mm, width_mm - at.y0_mm, at.x0_mm, at.x1_mm)
    return Part(room, part.bottom_mm, part.top_mm, part.plug)
