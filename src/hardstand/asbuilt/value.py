"""The as-built aeroplane: one frozen value that every engine reads slices of.

Each number that carries uncertainty is an `Input` that remembers its address, kind and where it was
written. Positions are mm in the aeroplane's axes: x aft, y to starboard, z up.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hardstand.description.aeroplane import Accept, AeroplaneTable, Panel, Stability
from hardstand.description.fuel import Fuel, Leg, State
from hardstand.description.items import Antenna, BallastPlace, Lead, OnHand, Weighing
from hardstand.description.network import Channel, Duty, Joint, Load, Phase
from hardstand.description.parts import Face, Part, Port
from hardstand.description.places import Hatch, Hole, KeepOut, Tray
from hardstand.description.set_aside import SetAside
from hardstand.figures import Input
from hardstand.findings import Limit

Triple = tuple[float, float, float]
Inputs3 = tuple[Input, Input, Input]


@dataclass(frozen=True, slots=True)
class MassPoint:
    """A mass that counts in the balance: an airframe piece or an item.

    `own_kgm2` is its own inertia about its centre (Ixx, Iyy, Izz), zero where nothing is known.
    """

    id: str
    table: str
    name: str
    mass: Input
    at: Inputs3
    own_kgm2: Triple
    removable: bool
    group: str


@dataclass(frozen=True, slots=True)
class PlacedPort:
    """A port at its place: the face it is on, the row its plugs take, and whether a lead uses it."""

    name: str
    port: Port
    used: bool


@dataclass(frozen=True, slots=True)
class PlacedItem:
    """An item with its part resolved and its box placed.

    `size_mm` is in the part's own axes, as are the faces of its ports and those that its part names
    (`slides_out`, `view_face`): they turn with it. `centre_mm` is the middle of the box; on a tray its
    z follows from the tray's top, the item's height and `raise_mm`. `place` and `size` are the
    inputs that the middle and the sides follow, `height_u_mm` the standard uncertainty of its tray's
    height (0 off a tray), in mm.
    """

    id: str
    name: str
    kind: str
    part: Part
    on: str | None
    size_mm: Triple
    centre_mm: Triple
    turn_deg: float
    tilt_deg: tuple[float, float]
    place: Inputs3
    size: Inputs3
    height_u_mm: float
    ports: tuple[PlacedPort, ...]
    ports_known: bool
    movable_x_mm: tuple[float, float] | None
    movable_y_mm: tuple[float, float] | None
    misalignment: Inputs3 | None
    through: str | None
    supports: tuple[str, ...]
    removable: bool
    set_v: float | None = None

    @property
    def place_u_mm(self) -> float:
        """Standard uncertainty of its place along each axis."""
        return self.place[0].u

    @property
    def size_u_mm(self) -> float:
        """Standard uncertainty of each side of its box."""
        return self.size[0].u

    @property
    def assumed_size(self) -> bool:
        """Whether its box is only typical of the class."""
        return self.size[0].kind == "assumed"

    def faces_used(self) -> tuple[Face, ...]:
        """The faces that have at least one port in use, in the order of the part's ports."""
        found: dict[Face, None] = {}
        for one in self.ports:
            if one.used:
                found[one.port.face] = None
        return tuple(found)


@dataclass(frozen=True, slots=True)
class PlacedTank:
    """A tank's inside as a solid at its place. `shrunk` says that its inside was derived."""

    id: str
    item: str
    cylinder: bool
    inside_mm: Triple
    centre: Inputs3
    turn_deg: float
    capacity: Input
    unusable_ml: float
    order: int
    header: bool
    shrunk: bool


@dataclass(frozen=True, slots=True)
class PlacedLeg:
    """An undercarriage leg: wheel contact, and the mass that swings between two places."""

    id: str
    leg: Leg
    contact: Inputs3
    moving: Input


@dataclass(frozen=True, slots=True)
class BaySection:
    """The inside of a bay at one station as a closed outline in (y, z), mm.

    `wall` is an input of value 0: by how much the whole outline stands further out than described.
    """

    id: str
    bay: str
    x_mm: float
    outline_mm: tuple[tuple[float, float], ...]
    wall: Input


@dataclass(frozen=True, slots=True)
class ScaleReading:
    """One scale of a weigh-in: where it stood and what it showed."""

    id: str
    at: Inputs3
    reading: Input
    resolution_g: float


@dataclass(frozen=True, slots=True)
class WeighIn:
    """A weighing with its readings and the attitude it was done in."""

    id: str
    weighing: Weighing
    pitch: Input
    readings: tuple[ScaleReading, ...]


@dataclass(frozen=True, slots=True)
class StaleMeasurement:
    """A measurement that no longer holds: its declared value or part has changed since."""

    id: str
    address: str
    declared_then: object
    declared_now: object


@dataclass(frozen=True)
class AsBuilt:
    """Description, chosen options and measurements laid over one another. Engines read slices of it.

    `set_aside` names the rows that do not apply with the options chosen.
    """

    aeroplane: AeroplaneTable
    cg_mark: Inputs3 | None
    cg_mark_name: str
    stability: Stability | None
    tail_strike: Inputs3 | None
    fuel: Fuel | None
    fuel_density: Input | None
    panels: tuple[Panel, ...]
    masses: tuple[MassPoint, ...]
    items: tuple[PlacedItem, ...]
    trays: tuple[Tray, ...]
    holes: tuple[Hole, ...]
    keep_outs: tuple[KeepOut, ...]
    hatches: tuple[Hatch, ...]
    sections: tuple[BaySection, ...]
    antennas: tuple[Antenna, ...]
    leads: tuple[Lead, ...]
    on_hand: tuple[OnHand, ...]
    on_hand_parts: Mapping[str, Part]
    ballast_places: tuple[BallastPlace, ...]
    tanks: tuple[PlacedTank, ...]
    legs: tuple[PlacedLeg, ...]
    states: tuple[State, ...]
    weighings: tuple[WeighIn, ...]
    stale: tuple[StaleMeasurement, ...]
    limits: Mapping[str, Limit]
    accepts: tuple[Accept, ...]
    joints: tuple[Joint, ...] = ()
    loads: tuple[Load, ...] = ()
    channels: tuple[Channel, ...] = ()
    phases: tuple[Phase, ...] = ()
    duties: tuple[Duty, ...] = ()
    set_aside: tuple[SetAside, ...] = ()
