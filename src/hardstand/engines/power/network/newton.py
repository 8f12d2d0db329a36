"""Newton's method on the currents at every node, for many cases at once, with its certificate."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.elimination import Plan, eliminate
from hardstand.engines.power.network.laws import Flow
from hardstand.engines.power.network.prepared import Indices, Part, Prepared, taken

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

DIRECT_ROUNDS = 60
ROUNDS = 300
GREATEST_STEP_V = 2.0
SETTLED_V = 1e-9
NEAR_V, FARTHER = 0.05, 0.3
FIRST_WIDE_V, NARROWING, LEAST_WIDE_V = 0.3, 0.6, 1e-4
LEAST_STEP_V, GROWTH = 1e-6, 1.25


def _shared(row: Floats) -> Floats:
    """A row as an array of one where all cases share its value."""
    return row[:1] if row.shape[0] > 1 and (row == row[0]).all() else row


class Equations:
    """The matrix and the right side as lists of arrays, and how elements add to them."""

    def __init__(self, plan: Plan, count: int) -> None:
        self.plan, self.ground = plan, count
        self.matrix: list[Floats] = [np.zeros(1) for _ in plan.at]
        self.right: list[Floats] = [np.zeros(1) for _ in range(count)]

    def copy(self) -> Equations:
        """The same, to be added to and used up."""
        other = object.__new__(Equations)
        other.plan, other.ground = self.plan, self.ground
        other.matrix, other.right = list(self.matrix), list(self.right)
        return other

    def slope(self, row: int, column: int, value: Floats) -> None:
        """Add a slope of the current leaving node `row` by the voltage of node `column`."""
        if row < self.ground and column < self.ground:
            at = self.plan.at[row, column]
            self.matrix[at] = self.matrix[at] + value

    def conductance(self, a: int, b: int, value: Floats) -> None:
        """Add a conductance between two nodes."""
        self.slope(a, a, value)
        self.slope(b, b, value)
        self.slope(a, b, -value)
        self.slope(b, a, -value)

    def source(self, node: int, value: Floats) -> None:
        """Add a current into a node."""
        if node < self.ground:
            self.right[node] = self.right[node] + value


def linear(plan: Plan, ready: Prepared, ends: tuple[Indices, Indices], shunt: Floats) -> Equations:
    """The equations of all that is linear, with a shunt (nodes, cases or 1) at every node."""
    made = Equations(plan, len(shunt))
    start, end = ends
    for node, value in enumerate(shunt):
        made.slope(node, node, _shared(value))
    for at, value in zip(ready.plain, ready.plain_siemens, strict=True):
        made.conductance(int(start[at]), int(end[at]), _shared(value))
    for at, value, emf in zip(ready.packs, ready.pack_siemens, ready.emf_v, strict=True):
        made.conductance(int(start[at]), int(end[at]), _shared(value))
        made.source(int(end[at]), _shared(value * emf))
        made.source(int(start[at]), _shared(-value * emf))
    for at in np.flatnonzero(ready.fault_siemens.any(axis=1)):
        a, b = int(ready.fault_start[at]), int(ready.fault_end[at])
        made.conductance(a, b, ready.fault_siemens[at])
    return made


def _add(
    made: Equations, part: Part, flow: Flow, volts: tuple[Floats, Floats], near: Bools
) -> None:
    """Add the tangents of the elements of one kind.

    What draws more at less voltage would turn the search round where nothing else holds the node
    yet; so its slope counts only near the solution, and until then its current alone.
    """
    start_v, end_v = volts
    if (flow.into_start < 0.0).any():
        held = np.where(near, flow.into_start, np.maximum(flow.into_start, 0.0))
        change = held - flow.into_start
        twoway = flow.out is flow.into
        ends = flow.into_end - change if twoway else flow.into_end
        flow = flow._replace(into_start=held, into_end=ends)
        if twoway:
            flow = flow._replace(out_start=held, out_end=ends)
    into = flow.into_start * start_v + flow.into_end * end_v - flow.into
    same = flow.out is flow.into
    out = into if same else flow.out_start * start_v + flow.out_end * end_v - flow.out
    for row in range(len(part.at)):
        a, b = int(part.start[row]), int(part.end[row])
        made.source(a, into[row])
        made.slope(a, a, flow.into_start[row])
        made.slope(a, b, flow.into_end[row])
        if b < made.ground:
            made.source(b, -out[row])
            made.slope(b, b, -flow.out_end[row])
            made.slope(b, a, -flow.out_start[row])


def _tangents(base: Equations, ready: Prepared, v: Floats, wide: Floats, near: Bools) -> Floats:
    """Voltages (nodes, cases) that solve the equations straightened out at `v`."""
    made = base.copy()
    knee: Floats | float = wide if wide.any() else 0.0
    for part in ready.parts:
        start_v, end_v = v[part.start], v[part.end]
        _add(made, part, part.law.flow(start_v, end_v, knee), (start_v, end_v), near)
    solved = eliminate(made.plan.steps, made.matrix, made.right)
    new = np.empty_like(v[:-1])
    for node, value in enumerate(solved):
        new[node] = value
    return new


@dataclass
class _Search:
    """Cases under way: voltages, the last step, the longest next one, the width of knees, whether near.

    `near_v` is how short a step has to be for that; it shrinks where a case was near and left again.
    """

    ready: Prepared
    shunt: Floats
    base: Equations
    v: Floats
    last: Floats
    reach: Floats
    wide: Floats
    near: Bools
    near_v: Floats

    def advance(self) -> Bools:
        """Take one step in every case; return which ones have settled."""
        solved = _tangents(self.base, self.ready, self.v, self.wide, self.near)
        change = np.nan_to_num(solved - self.v[:-1])
        greatest = np.abs(change).max(axis=0, initial=0.0)
        settled = (greatest < SETTLED_V) & (self.wide == 0.0) & self.near
        back = np.einsum("nk,nk->k", change, self.last) < 0.0
        before = np.abs(self.last).max(axis=0, initial=0.0)
        self.reach = np.where(
            back,
            np.maximum(0.5 * np.minimum(self.reach, before), LEAST_STEP_V),
            np.minimum(GROWTH * self.reach, GREATEST_STEP_V),
        )
        self.last = np.clip(change, -self.reach, self.reach)
        self.v[:-1] += self.last
        near = greatest < self.near_v
        self.near_v = np.where(self.near & ~near, FARTHER * self.near_v, self.near_v)
        self.near = near
        narrower = NARROWING * self.wide
        narrower[narrower < LEAST_WIDE_V] = 0.0
        self.wide = np.where(greatest < 0.5 * self.wide, narrower, self.wide)
        return np.asarray(settled)

    def take(self, kept: Indices, plan: Plan, ends: tuple[Indices, Indices]) -> _Search:
        """Go on with some of the cases."""
        ready, shunt = self.ready.take(kept), taken(self.shunt, kept)
        return _Search(
            ready,
            shunt,
            linear(plan, ready, ends, shunt),
            self.v[:, kept],
            self.last[:, kept],
            self.reach[kept],
            self.wide[kept],
            self.near[kept],
            self.near_v[kept],
        )


def _search(
    network: tuple[Plan, Indices, Indices], begun: _Search, rounds: int
) -> tuple[Floats, Bools]:
    """Step until all cases settle or the rounds are used up; voltages, and which cases settled."""
    plan, *ends = network
    v = begun.v
    settled = np.zeros(v.shape[1], bool)
    under_way: Indices = np.arange(v.shape[1])
    now = begun
    for _ in range(rounds):
        done = now.advance()
        if 2 * np.count_nonzero(done) >= len(done):
            v[:, under_way] = now.v
            settled[under_way[done]] = True
            kept = np.flatnonzero(~done)
            if not kept.size:
                return v, settled
            under_way, now = under_way[kept], now.take(kept, plan, (ends[0], ends[1]))
    v[:, under_way] = now.v
    return v, settled


def newton(
    network: tuple[Plan, Indices, Indices],
    ready: Prepared,
    shunt: Floats,
    guess: Floats,
    warm: bool = False,
) -> tuple[Floats, Bools]:
    """Find the voltages at which the currents at every node balance, from a first guess.

    A step is never longer than 2 V a node. Where a step goes back on the one before, it may be half
    as long, and the next ones grow again slowly. Cases that have settled take no further part. Those that go round in
    circles are begun afresh with all knees widened, to be narrowed as they come near.

    Parameters: `network`, its plan, start nodes and end nodes; `ready` cases; `shunt` (nodes, cases
    or 1) in siemens; `guess` (nodes + 1, cases) with ground last; `warm`, whether it is the solution
    of a like case.

    Returns the voltages, of the same shape, and which cases settled (to 1 nV).

    Source: common practice in circuit simulation; L. W. Nagel, SPICE2, memorandum UCB/ERL M520
    (1975), from memory.
    """
    plan, start, end = network
    count = guess.shape[1]

    def begin(cases: Prepared, some_shunt: Floats, v: Floats, wide_v: float) -> _Search:
        size = v.shape[1]
        return _Search(
            cases,
            some_shunt,
            linear(plan, cases, (start, end), some_shunt),
            v.copy(),
            np.zeros_like(v[:-1]),
            np.full(size, GREATEST_STEP_V),
            np.full(size, wide_v),
            np.full(size, warm),
            np.full(size, NEAR_V),
        )

    v, settled = _search(network, begin(ready, shunt, guess, 0.0), DIRECT_ROUNDS)
    if settled.all():
        return v, settled
    left = np.flatnonzero(~settled) if count > 1 else np.zeros(1, np.intp)
    again = begin(ready.take(left), taken(shunt, left), guess[:, left], FIRST_WIDE_V)
    v[:, left], settled[left] = _search(network, again, ROUNDS)
    return v, settled
