"""The frozen results of the power engine, for its rules and for other engines.

Nodes of the network are the harness's domains (`hub.rail`, `servo.in`), joints and free ends by
their names. Elements have the id of the lead, pack or port that they are; what lies inside an item is
`item.input>rail`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from hardstand.figures import FigureSet, Input

Floats = NDArray[np.float64]
State = Literal["idle", "moving", "stall"]


@dataclass(frozen=True, slots=True)
class Consumer:
    """A load of the network: the port it hangs on, its functions, and its currents by state.

    `least_v` is where it resets (where it `resets`) or the least that it is rated for; `known` says
    whether that is described, or taken as usual of its kind. `most_v` is the most that it stands.
    """

    end: str
    item: str
    domain: str
    kind: str
    functions: tuple[str, ...]
    load: Mapping[str, Input]
    least_v: float | None
    most_v: float | None
    resets: bool
    known: bool

    def amperes(self, state: State) -> float:
        """Its current in a state, A; one that is not stated is that of the next calmer state."""
        order: tuple[State, ...] = ("stall", "moving", "idle")
        for one in order[order.index(state):]:
            if one in self.load:
                return self.load[one].value
        return 0.0


@dataclass(frozen=True, slots=True)
class Strand:
    """A stretch of copper from a rail to a servo: its leads, and the loop's wire alone, mohm."""

    leads: tuple[str, ...]
    end: str
    item: str
    wire_mohm: float


@dataclass(frozen=True, eq=False)
class PowerNetwork:
    """The network with what its elements are in the aeroplane.

    `network` is the solver's. `consumers` in the order of its loads; `groups` sets of packs that
    share rails, with the domains that they feed; `rails` the domains that units give on, with the
    voltage each is set to; `targets` the domains that a rail feeds over leads; `paths` the item of
    each way inside one; `of_lead` element ids by lead; `together` the leads that a plug pair parts at
    once; `strands` the ways to servos; `plugs` what a plug's class carries; `assumed` what was taken
    where the description is silent; `inputs` the packs' resistances.
    """

    network: Any
    consumers: tuple[Consumer, ...]
    packs: tuple[str, ...]
    groups: tuple[tuple[tuple[str, ...], frozenset[str]], ...]
    rails: Mapping[str, float | None]
    targets: Mapping[str, frozenset[str]]
    paths: Mapping[str, str]
    of_lead: Mapping[str, tuple[str, ...]]
    together: Mapping[str, tuple[str, ...]]
    strands: tuple[Strand, ...]
    plugs: Mapping[str, tuple[str, float]]
    assumed: tuple[tuple[str, str], ...]
    inputs: Mapping[str, Input]


@dataclass(frozen=True, slots=True)
class Moment:
    """One moment that was solved: its name, what packs are on, how they are, and what is drawn (A).

    `at` names the phase and what stalls in it, by group of packs.
    """

    name: str
    label: str
    packs: tuple[str, ...]
    worst: bool


@dataclass(frozen=True, eq=False)
class Moments:
    """Volts and amperes at M moments: rest, mean, peak, and peak with each pack alone.

    `node_v` (M, nodes), `current_a` (M, elements), `load_a` (M, loads); `fed` (M, nodes);
    `peak_at` says in words which moment is the worst, by the first pack of its group; `settled` (M).
    `phase_a` (phases, loads) are mean currents, `peak_a` (loads) those of the worst moment.
    """

    moments: tuple[Moment, ...]
    node_v: Floats
    current_a: Floats
    load_a: Floats
    fed: NDArray[np.bool_]
    settled: NDArray[np.bool_]
    phases: tuple[tuple[str, float], ...]
    phase_a: Floats
    mean_a: Floats
    peak_a: Floats
    peak_at: Mapping[str, str]
    figures: FigureSet


@dataclass(frozen=True, slots=True)
class PackUse:
    """Charge of one pack: what a flight takes of it, alone and shared, and how often it may."""

    pack: str
    partners: tuple[str, ...]
    capacity_mah: float
    shared_mah: float
    alone_mah: float
    flights: int
    needed_mah: float


@dataclass(frozen=True, eq=False)
class Endurance:
    """Charge per pack and flight; empty without phases. `by_phase_mah` (phases, packs)."""

    packs: tuple[PackUse, ...]
    phases: tuple[str, ...]
    by_phase_mah: Floats
    figures: FigureSet


@dataclass(frozen=True, slots=True)
class FailureRow:
    """What one failure does at the worst moment on worn packs, and over-voltage on full ones.

    `element` is a lead, pack, port, joint or way inside an item, `within` the item or lead that it
    belongs to; `kind` open, short or stuck; `low_rail` the lowest flight rail that lives, with its
    volts; `lost` functions that are gone, `less` those that lost some of their items, `dead` items
    without enough voltage, `over` those that get more than they stand, `out` packs that give nothing
    any more.
    """

    element: str
    within: str
    kind: str
    low_rail: str
    low_v: float
    lost: tuple[str, ...]
    less: tuple[str, ...]
    dead: tuple[str, ...]
    over: tuple[str, ...]
    out: tuple[str, ...]
    settled: bool

    @property
    def silent(self) -> bool:
        """Whether a pack is out and nothing tells of it."""
        return bool(self.out) and not (self.lost or self.less or self.dead or self.over)


@dataclass(frozen=True, eq=False)
class Failures:
    """Every single failure at the worst moments; `functions` are all that the plan knows.

    `none` is the row without a failure. `watched` names, for a rail that several packs reach, what
    shows the loss of one (empty: nothing). `most_a` (2, elements) is the greatest current of each
    element over all failures that last, so all but short circuits: at the worst moment, and in the
    busiest minute; `most_at` says in which of (none, *rows).
    """

    none: FailureRow
    rows: tuple[FailureRow, ...]
    functions: tuple[str, ...]
    watched: Mapping[str, str]
    most_a: Floats
    most_at: NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class WireChoice:
    """The wire and plug of one lead: what it carries, what is there, and the smallest that does.

    `length_from` is "described", "route" or "usual". `normal_a` is the greatest current without a
    failure and `worst_a` with any single one that lasts, `lasting_a` what heats it; `normal_at`,
    `worst_at` and `lasting_at` say when. `warm_degc` is the copper of the wire that is there (None: not
    known). `awg` and `section_mm2` are the thinnest of both ladders (None: none is thick enough),
    `binds` what asks for them: "drop", "volts", "warmth", "load" or "size". `mass_g` is what the
    chosen one of the ladder that is used weighs more than what is there. `plugs` are the classes at
    both ends, `plug` the smallest class that carries it, empty where none does.
    """

    lead: str
    ends: tuple[str, str]
    length_mm: float
    length_from: str
    conductors: int
    normal_a: float
    normal_at: str
    worst_a: float
    worst_at: str
    lasting_a: float
    lasting_at: str
    warm_degc: float | None
    there_awg: int | None
    there_mm2: float | None
    awg: int | None
    section_mm2: float | None
    binds: str
    mass_g: float | None
    plugs: tuple[str, str]
    plug: str

    @property
    def chosen(self) -> tuple[str, float] | None:
        """Field and value of the chosen wire, by gauge unless the lead is described by its section."""
        if self.there_mm2 is not None and self.there_awg is None:
            return None if self.section_mm2 is None else ("area_mm2", self.section_mm2)
        return None if self.awg is None else ("awg", self.awg)


@dataclass(frozen=True, eq=False)
class Choices:
    """The wire of every lead with a current; `silent` are those with power of which none is stated.

    `area_mm2` (wires, 2) is the metal that is there (nan: not known) and that of the chosen wire (inf:
    none is thick enough). `normal_degc` (wires) is the copper without a failure. `figures` hold
    `power.wire-warmth@LEAD` (degrees C) and, for what is no servo, `power.feed-drop@DOMAIN` (V).
    """

    wires: tuple[WireChoice, ...]
    silent: tuple[str, ...]
    area_mm2: Floats
    normal_degc: Floats
    feeds: Mapping[str, tuple[str, ...]]
    figures: FigureSet
