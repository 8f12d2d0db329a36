"""What a layout is to be found for: trays, items, leads and wishes, frozen and plain.

Lengths in plan are whole millimetres, so that what is proven holds on the 1 mm grid that a builder
works to; heights are exact and count from the top of the tray. An item's own axes: length along x, width along y, as
`description` has them; faces front (-x), back (+x), left (-y), right (+y). A turn is a number of
quarter turns from x to y.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Face = Literal["front", "back", "left", "right", "top"]
Axis = Literal["x", "y"]


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle in plan, from x0_mm to x1_mm and from y0_mm to y1_mm."""

    x0_mm: int
    x1_mm: int
    y0_mm: int
    y1_mm: int


@dataclass(frozen=True, slots=True)
class KeepOut:
    """A rectangle over a tray that nothing may enter between bottom_mm and top_mm above it."""

    id: str
    room: Rectangle
    bottom_mm: float = 0
    top_mm: float = 100_000


@dataclass(frozen=True, slots=True)
class Barrier:
    """A rectangle over a tray that one part of one item may not enter, at whatever height it is.

    `part`: 0 the box, 1 the first plug room and so on. `id`: what stands in the way there.
    """

    id: str
    tray: str
    part: int
    room: Rectangle


@dataclass(frozen=True, slots=True)
class Tray:
    """A tray: outline_mm, a simple closed polygon; top_z_mm; headroom_mm above it (None: open).

    `plugs_overhang`: plug rooms may reach beyond the outline (boxes never do).
    """

    id: str
    outline_mm: tuple[tuple[float, float], ...]
    top_z_mm: float = 0.0
    headroom_mm: float | None = None
    keep_outs: tuple[KeepOut, ...] = ()
    plugs_overhang: bool = False


@dataclass(frozen=True, slots=True)
class PlugRoom:
    """Room in front of a face: depth_mm outward, width_mm in its middle (None: the whole face).

    bottom_mm and height_mm (None: to the top of the box) tell which height of the face it takes.
    """

    face: Face
    depth_mm: int
    width_mm: int | None = None
    bottom_mm: float = 0
    height_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Port:
    """Where a lead ends on an item, from the corner of its box at front, left and bottom, turn 0."""

    id: str
    at_mm: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Place:
    """A tray an item may stand on: where its middle may be there (None: anywhere), and a cost.

    `cost` is added when it stands there, for poor service access say.
    """

    tray: str
    x_mm: tuple[int, int] | None = None
    y_mm: tuple[int, int] | None = None
    cost: int = 0


@dataclass(frozen=True, slots=True)
class Spot:
    """Where an item stands: tray, quarter turns, and the lower corner of its box in x and y."""

    tray: str
    turn: int
    x_mm: int
    y_mm: int


@dataclass(frozen=True, slots=True)
class Item:
    """A box to be placed. `fixed`: where it stands when it may not move.

    `barriers`: where parts of it may not come beside what every item must keep clear of.
    """

    id: str
    size_mm: tuple[int, int, float]
    places: tuple[Place, ...]
    plug_rooms: tuple[PlugRoom, ...] = ()
    ports: tuple[Port, ...] = ()
    turns: tuple[int, ...] = (0, 1, 2, 3)
    mass_g: int = 0
    kind: str = ""
    fixed: Spot | None = None
    barriers: tuple[Barrier, ...] = ()


@dataclass(frozen=True, slots=True)
class ItemPort:
    """An end of a lead on an item; `port` "" is the middle of its box."""

    item: str
    port: str = ""


@dataclass(frozen=True, slots=True)
class Point:
    """An end of a lead that does not move, in the aeroplane's axes."""

    at_mm: tuple[float, float, float]


End = ItemPort | Point


@dataclass(frozen=True, slots=True)
class Lead:
    """A lead, counted along x, y and z; `weight` points for each half millimetre."""

    id: str
    start: ItemPort
    end: End
    weight: int


@dataclass(frozen=True, slots=True)
class Centred:
    """A wish that the middle of an item be at y_mm: `weight` points for each half millimetre off."""

    item: str
    y_mm: float
    weight: int


@dataclass(frozen=True, slots=True)
class Balance:
    """A wish for a moment: the items' masses times their middles along an axis.

    `weight` points for each half g·mm that the sum is off target_g_mm. For a CG target, the target
    is target × total mass − moment of the rest of the aeroplane.
    """

    axis: Axis
    target_g_mm: int
    weight: int


@dataclass(frozen=True, slots=True)
class Apart:
    """A wish that the middles of two items be distance_mm apart, along x plus along y.

    `weight` points for each half millimetre short of it.
    """

    items: tuple[str, str]
    distance_mm: int
    weight: int


@dataclass(frozen=True, slots=True)
class Problem:
    """A whole placement problem. gap_mm: between two boxes; plug rooms need none.

    `plug_rooms_shared`: plug rooms may overlap one another (not boxes): two plugs in one room.
    """

    trays: tuple[Tray, ...]
    items: tuple[Item, ...]
    leads: tuple[Lead, ...] = ()
    centred: tuple[Centred, ...] = ()
    balances: tuple[Balance, ...] = ()
    apart: tuple[Apart, ...] = ()
    gap_mm: int = 0
    plug_rooms_shared: bool = False

    def tray(self, tray_id: str) -> Tray:
        """The tray of that id. Raises KeyError where there is none."""
        found = next((tray for tray in self.trays if tray.id == tray_id), None)
        if found is None:
            raise KeyError(tray_id)
        return found


# One spot for each item, in the order of the problem's items.
Layout = tuple[Spot, ...]
