"""The results of the balance engine, frozen, as the views and later engines read them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.changes import AnyChange
from hardstand.engines.balance.neutral_point_model import NeutralPoint
from hardstand.engines.balance.planform import Planform
from hardstand.engines.balance.suspects import Suspect
from hardstand.figures import FigureSet, Input

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Links:
    """How component masses or places follow the inputs, as E single entries.

    component, column (E,): which component by which input; axis (E,) for places; factor (E, S):
    change of the component per unit of the input in each state.
    """

    component: NDArray[np.int64]
    column: NDArray[np.int64]
    axis: NDArray[np.int64]
    factor: Floats


@dataclass(frozen=True, eq=False)
class MassTable:
    """N components of mass in S states: airframe and items, swinging legs, the fuel in each tank.

    Attributes: state_ids (S); names (N) for people, subjects (N) the ids, groups (N); mass_g (S, N)
    as on board in that state (0 where taken off, negative for a leg's mass leaving its place);
    at_mm (S, N, 3); own_kgm2 (S, N, 3, 3); inputs (M) and the links to them.
    """

    state_ids: tuple[str, ...]
    names: tuple[str, ...]
    subjects: tuple[str, ...]
    groups: tuple[str, ...]
    mass_g: Floats
    at_mm: Floats
    own_kgm2: Floats
    inputs: tuple[Input, ...]
    by_mass: Links
    by_place: Links


@dataclass(frozen=True, eq=False)
class Sums:
    """Mass, CG and inertia of every state from the parts alone.

    values (S, 4): mass g, then CG x, y, z mm; slope (S, 4, M) by the table's inputs; inertia_kgm2
    (S, 3, 3) about the CG, products with a minus.
    """

    values: Floats
    slope: Floats
    inertia_kgm2: Floats
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class Inertia:
    """Inertia of every state about its CG as figures; see `sums.inertia_figures`."""

    state_ids: tuple[str, ...]
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class WeighedIn:
    """One weigh-in set against the build-up of its state.

    `mass_g`, `x_mm`, `y_mm` as weighed, their u; `residual_g`, `residual_mm` (x) and, where known,
    `residual_y_mm`: weighed less built up, with the u of that difference; chance: how often sound
    figures differ by as much;
    suspects: the single slips that would best explain it, likeliest first, `suspect_names` what
    each is about and `suspect_words` each as a sentence's part. A stand that only tipped gives
    `low_mm` or `high_mm`, twice its u beyond the stand; its residual is how far the build-up lies on
    the wrong side, `x_mm` the stand.
    """

    id: str
    state_id: str
    method: str
    mass_g: float
    u_mass_g: float
    x_mm: float
    u_x_mm: float
    y_mm: float | None
    u_y_mm: float | None
    residual_g: float
    u_residual_g: float
    residual_mm: float
    u_residual_mm: float
    chance: float
    suspects: tuple[Suspect, ...] = ()
    suspect_names: tuple[str, ...] = ()
    suspect_words: tuple[str, ...] = ()
    low_mm: float | None = None
    high_mm: float | None = None
    residual_y_mm: float | None = None
    u_residual_y_mm: float | None = None


@dataclass(frozen=True, eq=False)
class Weighings:
    """All weigh-ins, and what they do to the inputs of the build-up.

    `unusable` holds (id, why) of weigh-ins that say nothing. With R measured rows, M inputs of the
    build-up and Q readings: `step` (M,) is how far each input has been moved, gain (M, R), rows
    (R, M) the slopes of the measured rows by the inputs, by_reading (R, Q) theirs by the readings.
    A figure with slope s by the inputs then follows them by s - (s gain) rows, and the readings by
    (s gain) by_reading.
    """

    weighed: tuple[WeighedIn, ...]
    unusable: tuple[tuple[str, str], ...]
    readings: tuple[Input, ...]
    step: Floats
    gain: Floats
    rows: Floats
    by_reading: Floats
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class Headline:
    """The figures that are judged: every state after all weigh-ins (or as built up without one).

    mass_g, cg_mm (S, 3), aft_mm (S,) behind the CG mark, mac_pct (S,), each with u; slope (S, 4, Q)
    over `inputs` (Q), which are the build-up's and the readings.
    """

    state_ids: tuple[str, ...]
    updated: bool
    mass_g: Floats
    cg_mm: Floats
    aft_mm: Floats | None
    mac_pct: Floats | None
    inertia_kgm2: Floats
    inputs: tuple[Input, ...]
    slope: Floats
    figures: FigureSet

    def row(self, state_id: str) -> int:
        """The row of a state."""
        return self.state_ids.index(state_id)


@dataclass(frozen=True, eq=False)
class Stability:
    """Planform and neutral point, with the defaults that were used in words.

    `point` and `efficiency` are None without a tail, or where `problem` says why it was not found;
    wing_slope (2, P): MAC and its leading edge by `wing_inputs` (P).
    """

    wing: Planform
    point: NeutralPoint | None
    efficiency: Input | None
    assumptions: tuple[str, ...]
    wing_inputs: tuple[Input, ...]
    wing_slope: Floats
    problem: str
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class Margins:
    """Static margin in every state, % MAC, and the chance that it is under its limit."""

    state_ids: tuple[str, ...]
    margin_pct: Floats
    u_pct: Floats
    chance: Floats
    limit_pct: float
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class RangeMargins:
    """Static margin at the forward and aft end of the designer's range, per cent of the MAC.

    aft_chance: the chance that it is under its limit at the aft end.
    """

    forward_pct: float
    aft_pct: float
    aft_chance: float
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class Ballast:
    """Ballast on board: its share of the lightest state, per cent, and the ids of its pieces."""

    share_pct: float
    total_g: float
    pieces: tuple[str, ...]
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class Locus:
    """Mass and CG along one run of the tanks, P steps in the order burned.

    gear; base, the described state that it begins from; fuel_pct (P,) of the main tanks and fuel_g
    (P,) of all; mass_g (P,), cg_mm (P, 3), aft_mm (P,) behind the CG mark and mac_pct (P,) where
    those are known. The first `flown` steps are above the reserve; foremost and aftmost number the
    ends of the travel among them.
    """

    gear: str
    base: str
    fuel_pct: Floats
    fuel_g: Floats
    mass_g: Floats
    cg_mm: Floats
    aft_mm: Floats | None
    mac_pct: Floats | None
    flown: int
    foremost: int
    aftmost: int

    @property
    def travel_mm(self) -> float:
        """Distance between the foremost and the aftmost CG down to the reserve."""
        return float(self.cg_mm[self.aftmost, 0] - self.cg_mm[self.foremost, 0])


@dataclass(frozen=True, eq=False)
class Travel:
    """The runs with gear up and gear down, and their largest travel as figures."""

    loci: tuple[Locus, ...]
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class Inside:
    """The joint chance, per cent, that all is inside.

    states: those whose static margin counts (none without a neutral point); ranged: whether the
    designer's range counts too.
    """

    chance_pct: float
    states: tuple[str, ...]
    ranged: bool
    figures: FigureSet


@dataclass(frozen=True, eq=False)
class OnWheels:
    """How the aeroplane stands in every state with the gear down; angles in degrees.

    `problem` says in words what kept a state, or the tail-strike angle, from being worked out.
    """

    state_ids: tuple[str, ...]
    nose_share_pct: Floats
    tip_back_deg: Floats
    overturn_deg: Floats
    tail_strike_deg: float | None
    problem: str
    figures: FigureSet


@dataclass(frozen=True, slots=True)
class WayOut:
    """One way to bring the CG where it should be: a sentence, the changes, and what it gives.

    cg_mm: where the CG of the judged state comes to, behind the mark; added_g: mass added;
    charge_lost_mah: how much less charge is on board; distance_mm: from the middle of the target.
    """

    kind: str
    text: str
    changes: tuple[AnyChange, ...]
    cg_mm: float
    added_g: float
    reaches_range: bool
    reaches_target: bool
    charge_lost_mah: float = 0.0
    distance_mm: float = 0.0


@dataclass(frozen=True, eq=False)
class Trade:
    """Sensitivities and ways out for the judged state.

    per_10g_mm: mm of CG per 10 g of each subject; next_weighing: (address, u of the CG after it) of
    the weighings that would shrink the uncertainty most; whole_weighed_u_mm: that u after weighing
    the whole aeroplane on three scales, None where it has not three wheels to stand on; ways: best
    first; front: the numbers of those that no other way beats in distance from the goal, mass
    added, charge lost and number of changes at once.
    """

    state_id: str | None
    per_10g_mm: Mapping[str, float]
    next_weighing: tuple[tuple[str, float], ...]
    u_now_mm: float
    ways: tuple[WayOut, ...]
    whole_weighed_u_mm: float | None = None
    front: tuple[int, ...] = ()
