"""The frozen results of the harness engine, for its rules and for other engines.

A *pin* is (end, pin name); an *end* is `item.port`, `joint.way`, or a name of its own. A *domain* is a
stretch of copper inside one item on which there is one voltage: `hub.rail`, `rx-pack-left.cells`,
`servo-rudder.in`, or the inside of a plug that takes power, `hub.in-pack-1`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from hardstand.description.electrics import Form, Way
from hardstand.description.items import Lead
from hardstand.description.parts import Part
from hardstand.figures import FigureSet, Input

Pin = tuple[str, str]
Where = Literal["item", "joint", "free", "unknown"]
How = Literal["diode", "joint", "own", "tie"]


@dataclass(frozen=True, slots=True)
class Box:
    """An item as the harness sees it: its part, and where it is across the aeroplane (mm; 0 in the circuit).

    `own_set_v` is what the item's own row sets its regulator to, `set_v` that or else its part's.
    """

    id: str
    name: str
    kind: str
    part: Part
    y_mm: float
    own_set_v: float | None

    @property
    def set_v(self) -> float | None:
        """What its regulator holds, V."""
        return self.part.set_v if self.own_set_v is None else self.own_set_v


@dataclass(frozen=True, slots=True)
class HarnessPort:
    """One end at which leads may end, with all that it does; `item` is empty where it is none.

    `row` is the port's row of the part (`hub.out` for `hub.out-3`), `domain` the copper its plus pin
    lies on (None: it has none), `load` what hangs on it inside: currents by "idle", "moving", "stall".
    `at_mm` is the middle of its face's row (None in the circuit), `flying_mm` the length of its own lead.
    """

    end: str
    item: str
    row: str
    where: Where
    kind: str
    connector: str
    poles: int | None
    gender: str
    pins: tuple[str, ...]
    power: Way
    signal: Way
    form: Form | None
    needed: bool
    domain: str | None
    current_a: float | None
    low_v: float | None
    high_v: float | None
    contact_mohm: float | None
    fuse_a: float | None
    load: Mapping[str, Input]
    at_mm: tuple[float, float, float] | None
    flying_mm: float


@dataclass(frozen=True, slots=True)
class Conductor:
    """One wire of a lead, from the pin it lands on at one end to that at the other.

    `name` is what it is called in the plugs; `lead` is empty for the copper of a plug pair.
    """

    lead: str
    name: str
    a: Pin
    b: Pin


@dataclass(frozen=True, slots=True)
class Net:
    """Pins that copper outside the items joins, and the conductors (by number) that do it."""

    pins: tuple[Pin, ...]
    conductors: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Link:
    """A way for power inside an item, from one domain to another; joints and ties work both ways."""

    item: str
    source: str
    target: str
    how: How


@dataclass(frozen=True, slots=True)
class HarnessLead:
    """A lead with its two ends, the section of each conductor (mm2) and its length where known.

    `conductors` are the numbers of its wires in the netlist.
    """

    id: str
    row: Lead
    ends: tuple[str, str]
    area_mm2: float | None
    length_mm: float | None
    conductors: tuple[int, ...]


@dataclass(frozen=True)
class Netlist:
    """Everything that is joined to everything else, at pin level.

    `harness.circuit` is one without places, for all that does not ask where things are, and
    `harness.netlist` the same with them.
    `ports` by end, with the ends that are joints or free; `at` the leads that end there; `nets` with
    two pins or more; `net_of` the number of a pin's net; `domains` the ends of each domain.
    """

    boxes: Mapping[str, Box]
    ports: Mapping[str, HarnessPort]
    leads: Mapping[str, HarnessLead]
    conductors: tuple[Conductor, ...]
    nets: tuple[Net, ...]
    net_of: Mapping[Pin, int]
    at: Mapping[str, tuple[str, ...]]
    links: tuple[Link, ...]
    domains: Mapping[str, tuple[str, ...]]

    def mates(self, end: str) -> tuple[str, ...]:
        """The far ends of the leads that end at a port, in the order of the leads."""
        return tuple(
            far for lead in self.at.get(end, ()) for far in self.leads[lead].ends if far != end
        )


@dataclass(frozen=True, slots=True)
class Feed:
    """How a domain comes by its power: from which domain, and through which leads (none: inside)."""

    source: str
    target: str
    leads: tuple[str, ...]
    ends: tuple[str, ...]


@dataclass(frozen=True)
class Supply:
    """Who feeds whom, with which voltage and current.

    `feeds` from packs outward; `packs` the packs that reach a domain; `volts` its usual voltage under way and its
    highest; `figures` the currents of leads, plugs and rails as shares of what they may carry
    (per cent); `lasting_a` the lasting current of each lead that carries power; `carrying` the leads of
    which a wire joins plus to plus.
    """

    feeds: tuple[Feed, ...]
    packs: Mapping[str, tuple[str, ...]]
    volts: Mapping[str, tuple[float, float]]
    lasting_a: Mapping[str, float]
    stall_a: Mapping[str, float]
    figures: FigureSet
    carrying: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class PlannedChannel:
    """One channel followed through the harness.

    `outputs` are the ends at which it comes out, `leads` those it passes, `reaches` the items that it
    ends at, `receivers` those from which its output can be commanded.
    """

    id: str
    number: int | None
    name: str
    functions: tuple[str, ...]
    side: str
    outputs: tuple[str, ...]
    leads: tuple[str, ...]
    reaches: tuple[str, ...]
    drives: tuple[str, ...]
    receivers: tuple[str, ...]


@dataclass(frozen=True)
class ChannelPlan:
    """Every channel followed, and the single failures that take a whole axis.

    `takes` names, for an item, lead or joint whose loss alone takes all surfaces of an axis that has
    several, the axes that go with it.
    """

    channels: tuple[PlannedChannel, ...]
    takes: Mapping[str, tuple[str, ...]]


@dataclass(frozen=True)
class Lengths:
    """What each lead has to spare over the straight line between its ends, at most.

    `figures` hold `harness.spare-length@LEAD`, mm; leads without a length or a placed end have none.
    """

    leads: tuple[str, ...]
    straight_mm: Mapping[str, float]
    figures: FigureSet


@dataclass(frozen=True, slots=True)
class Route:
    """The way that a lead takes: its points (mm) from port to port, and the openings it goes through.

    `length_mm` is from face to face; `outside` says that part of it lies in no described bay, `through`
    that no way was found that goes round everything; `overhang_mm` is what both plugs and bends take.
    """

    lead: str
    points_mm: tuple[tuple[float, float, float], ...]
    holes: tuple[str, ...]
    length_mm: float
    outside: bool
    through: bool
    overhang_mm: float


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of lane on which the same leads run: where, how many wires, how thick tied, mm."""

    lane: str
    from_mm: tuple[float, float, float]
    to_mm: tuple[float, float, float]
    length_mm: float
    leads: tuple[str, ...]
    wires: int
    bundle_mm: float


@dataclass(frozen=True, slots=True)
class Passage:
    """What goes through an opening on the computed routes: wires, bundle (mm), share of its area."""

    hole: str
    leads: tuple[str, ...]
    wires: int
    bundle_mm: float
    fill_pct: float


@dataclass(frozen=True, slots=True)
class Nearness:
    """How near a route comes to a hazard: "hot", "moving" or "aerial", and the limit it is held to.

    `clear_without` are the openings without which the lead would keep clear, where that would help.
    """

    lead: str
    hazard: Literal["hot", "moving", "aerial"]
    other: str
    name: str
    distance_mm: float
    u_mm: float
    limit_id: str
    clear_without: tuple[str, ...]


@dataclass(frozen=True)
class Routes:
    """The routes of all leads with two placed ends.

    `figures` hold `harness.routed-length@LEAD` and, where its length is known,
    `harness.routed-spare@LEAD`, mm. `near` lists what comes nearer than its limit.
    """

    routes: Mapping[str, Route]
    stretches: tuple[Stretch, ...]
    passages: tuple[Passage, ...]
    near: tuple[Nearness, ...]
    figures: FigureSet


@dataclass(frozen=True, slots=True)
class Making:
    """One lead as it is made or bought.

    `way_mm` is its way where known, `needed_mm` that with the allowance for a service loop and less its
    items' own leads; `cut_mm` what to cut: the length described, else what is needed, None where
    neither is known. `buy_mm` is the shortest usual extension lead that is long enough. `plugs` are the
    classes at both ends, each with the gender that fits its port.
    """

    lead: str
    label: str
    function: str
    ends: tuple[str, str]
    wire: str
    conductors: int
    way_mm: float | None
    needed_mm: float | None
    cut_mm: float | None
    buy_mm: int | None
    plugs: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Adapter:
    """What has to stand between a lead's plug and a port of another class."""

    lead: str
    end: str
    plug: str
    port: str


@dataclass(frozen=True, slots=True)
class BillLine:
    """A line of the bill of material: what, how much of it, in "m" or "pieces", and for which leads."""

    what: str
    amount: float
    unit: Literal["m", "pieces"]
    leads: tuple[str, ...]


@dataclass(frozen=True)
class Makings:
    """All leads as they are made, the adapters between plugs that do not mate, and what all that takes."""

    leads: tuple[Making, ...]
    adapters: tuple[Adapter, ...]
    bill: tuple[BillLine, ...]
