"""Newton's method on the currents at every node, for many cases at once, with its certificate."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.elimination import Plan, eliminate
from hardstand.engines.power.network.equations import Equations, add_tangents, linear
from hardstand.engines.power.network.prepared import Indices, Prepared, taken

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

DIRECT_ROUNDS = 60
ROUNDS = 300
GREATEST_STEP_V = 2.0
SETTLED_V = 1e-9
NEAR_V, FARTHER = 0.05, 0.3
FIRST_WIDE_V, NARROWING, LEAST_WIDE_V = 0.3, 0.6, 1e-4
LEAST_STEP_V, GROWTH = 1e-6, 1.25


def _tangents(base: Equations, ready: Prepared, v: Floats, wide: Floats, near: Bools) -> Floats:
    """Voltages (nodes, cases) that solve the equations straightened out at `v`."""
    made = base.copy()
    knee: Floats | float = wide if wide.any() else 0.0
    for part in ready.parts:
        start_v, end_v = v[part.start], v[part.end]
        add_tangents(made, part, part.law.flow(start_v, end_v, knee), (start_v, end_v), near)
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

    def advance(self, settled_v: float) -> Bools:
        """Take one step in every case; return which ones have settled."""
        solved = _tangents(self.base, self.ready, self.v, self.wide, self.near)
        change = np.nan_to_num(solved - self.v[:-1])
        greatest = np.abs(change).max(axis=0, initial=0.0)
        settled = (greatest < settled_v) & (self.wide == 0.0) & self.near
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
    network: tuple[Plan, Indices, Indices], begun: _Search, rounds: int, settled_v: float
) -> tuple[Floats, Bools]:
    """Step until all cases settle or the rounds are used up; voltages, and which cases settled."""
    plan, *ends = network
    v = begun.v
    settled = np.zeros(v.shape[1], bool)
    under_way: Indices = np.arange(v.shape[1])
    now = begun
    for _ in range(rounds):
        done = now.advance(settled_v)
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
    settled_v: float = SETTLED_V,
) -> tuple[Floats, Bools]:
    """Find the voltages at which the currents at every node balance, from a first guess.

    A step is never longer than 2 V a node. Where a step goes back on the one before, it may be half
    as long, and the next ones grow again slowly. Cases that have settled take no further part. Those that go round in
    circles are begun afresh with all knees widened, to be narrowed as they come near.

    Parameters: `network`, its plan, start nodes and end nodes; `ready` cases; `shunt` (nodes, cases
    or 1) in siemens; `guess` (nodes + 1, cases) with ground last; `warm`, whether it is the solution
    of a like case; `settled_v`, the step that is short enough to be the last.

    Returns the voltages, of the same shape, and which cases settled.

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

    v, settled = _search(network, begin(ready, shunt, guess, 0.0), DIRECT_ROUNDS, settled_v)
    if settled.all():
        return v, settled
    left = np.flatnonzero(~settled) if count > 1 else np.zeros(1, np.intp)
    again = begin(ready.take(left), taken(shunt, left), guess[:, left], FIRST_WIDE_V)
    v[:, left], settled[left] = _search(network, again, ROUNDS, settled_v)
    return v, settled
