"""What a direct-current network is made of: elements between two named nodes, as frozen inputs.

Every element has an `id` and runs from `start` to `end`; its current is positive that way. A pack
runs from its minus to its plus, so that a positive current is one that it delivers. A lead's
resistance is that of its loop, plus and minus wire together, so that one ground node is enough.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

GROUND = "0"
FAULT_MOHM = 5.0  # what a dead short leaves: a crimp and a few centimetres of wire; common practice
Law = Literal["current", "power", "resistance"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Element:
    """Anything between two nodes: a lead, pack or port has the name that the aeroplane gives it."""

    id: str
    start: str
    end: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Resistor(Element):
    """A lead, a contact or a plain joint: it carries current both ways and only resists."""

    resistance_mohm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Switch(Element):
    """A switch: a small resistance while it is closed, nothing while it is open."""

    resistance_mohm: float
    closed: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Pack(Element):
    """Cells in series: open-circuit voltage by charge, and a resistance.

    `curve_charge` (fractions, rising) and `curve_v` (per cell) draw the open-circuit voltage,
    straight between the points; `standards.cells` has curves. `resistance_mohm` is the whole pack's, with
    temperature and age in it; `resistance_factors` scale it at the points of the curve.
    """

    cells: int
    capacity_mah: float
    resistance_mohm: float
    curve_charge: tuple[float, ...]
    curve_v: tuple[float, ...]
    resistance_factors: tuple[float, ...] = ()
    charge: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class IdealDiode(Element):
    """A transistor driven as a diode: from `drop_v` on it carries, through its path's `resistance_mohm`.

    `knee_v` is the width over which it opens. Backwards it leaks a microampere a volt.
    """

    resistance_mohm: float
    drop_v: float = 0.02
    knee_v: float = 0.002


@dataclass(frozen=True, slots=True, kw_only=True)
class Junction(Element):
    """A plain or Schottky diode: exponential law with a resistance in series.

    `saturation_a` and `emission` are its data-sheet fit; `temperature_degc` that of the junction.
    """

    resistance_mohm: float
    saturation_a: float
    emission: float = 1.0
    temperature_degc: float = 27.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Regulator(Element):
    """A regulator from `start` to `end` against ground: set voltage, or input less `dropout_v`.

    `resistance_mohm` is its output resistance. Without `efficiency_pct` it is linear: what goes in comes out,
    and the difference is heat. With it, it converts power. It carries nothing backwards. Its current
    ends at `limit_a`. Where two share a rail, set voltages and `resistance_mohm` decide who carries.
    """

    set_v: float
    dropout_v: float
    resistance_mohm: float
    efficiency_pct: float | None = None
    limit_a: float = float("inf")
    knee_v: float = 0.002


@dataclass(frozen=True, slots=True, kw_only=True)
class Limiter(Element):
    """A switch that never carries more than `limit_a`, and opens if that lasts `opens_after_s`.

    `opens_after_s` of None means that it goes on limiting. It carries both ways.
    """

    resistance_mohm: float
    limit_a: float
    opens_after_s: float | None = 0.010


@dataclass(frozen=True, slots=True, kw_only=True)
class Fuse(Element):
    """A fuse: a resistance that opens for good where it carries `opens_at_a` for `opens_after_s`."""

    resistance_mohm: float
    opens_at_a: float
    opens_after_s: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Load(Element):
    """A consumer: `draw_a` at `at_v`, by one of three laws, down to a floor.

    "current" draws the same at any voltage; "power" more at less; "resistance" less at less. Below
    `floor_v` the first two fall away with the voltage. Above zero, `cut_off_v` is where it switches
    itself off; there it settles on the edge, which in truth is going on and off. `stuck_a` is what
    it draws when it is stuck (a stalled servo), by the law of currents.
    """

    draw_a: float
    at_v: float = 1.0
    law: Law = "current"
    floor_v: float = 2.0
    cut_off_v: float = 0.0
    stuck_a: float | None = None


AnyElement = Resistor | Switch | Pack | IdealDiode | Junction | Regulator | Limiter | Fuse | Load
