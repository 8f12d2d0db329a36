"""What a neutral point is computed from and what comes of it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hardstand.engines.balance.lattice_model import Lattice
from hardstand.engines.balance.panel import Panel
from hardstand.engines.balance.planform import Planform


@dataclass(frozen=True, slots=True)
class Tail:
    """A tail (or canard) and how surely the stream reaches it.

    `panels` as exposed, from the body's side outward; none for a tailless aeroplane. `efficiency`
    is the dynamic pressure at the tail over that of the free stream, `efficiency_u` its standard
    uncertainty (1 and 0: the two ways of drawing the root are then all that is said about it).
    """

    panels: tuple[Panel, ...] = ()
    efficiency: float = 1.0
    efficiency_u: float = 0.0


@dataclass(frozen=True, slots=True)
class NeutralPoint:
    """Where the neutral point lies, in per cent of the mean aerodynamic chord.

    It is uniform between `lower_pct` and `upper_pct` (the two ways of drawing the tail root), plus
    a normal spread `normal_u_pct` (body and tail efficiency). `wing_pct`, `tail_pct` and `body_pct`
    add up to the middle. `lift_slopes` are per radian on the wing's area, for the same two ways in
    the order (carried to the centreline, exposed). `per_efficiency_pct` is how far the point moves
    per unit of tail efficiency, `body_u_pct` the body's own share of the spread. `flows` are the
    solved lattices for plots, in the same order.
    """

    reference: Planform
    lower_pct: float
    upper_pct: float
    normal_u_pct: float
    wing_pct: float
    tail_pct: float
    body_pct: float
    body_u_pct: float
    per_efficiency_pct: float
    lift_slopes: tuple[float, float]
    flows: tuple[Lattice, Lattice]

    @property
    def value_pct(self) -> float:
        """Middle of the range, % MAC."""
        return 0.5 * (self.lower_pct + self.upper_pct)

    @property
    def u_pct(self) -> float:
        """Standard uncertainty, % MAC: a uniform range's is its width over the root of twelve."""
        return math.hypot((self.upper_pct - self.lower_pct) / math.sqrt(12.0), self.normal_u_pct)

    @property
    def x_mm(self) -> float:
        """Station of the middle, mm."""
        return self.reference.x_at(self.value_pct / 100.0)

    @property
    def u_mm(self) -> float:
        """Standard uncertainty of that station, mm."""
        return self.u_pct / 100.0 * self.reference.mac_mm

    @property
    def lift_slope(self) -> float:
        """Mean of the two lift slopes, per radian."""
        return 0.5 * sum(self.lift_slopes)
