"""Proof: how cheap any layout could be, by a relaxation that is tightened where it is violated.

Each round minimises the relaxation and looks what its solution does that a layout may not; those
pairs, holes and grids are added and the next round begins. Every round's bound is a proof. A round
whose solution violates nothing has found a best layout. Where a round is too long its bound stands
as far as it came, and the following rounds get more nodes. Of many free items the rounds would not
get far alone: there the proof is by cases (`branching`), and where their bound hardly rises any
more the rounds take turns with them, beginning with the conflicts that most cases were split by.
The better of both bounds holds.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from hardstand.engines.fit.layout.board import Board, Standing
from hardstand.engines.fit.layout.branching import Branching
from hardstand.engines.fit.layout.conflicts import (
    BetweenMillimetres,
    Conflict,
    InHole,
    Overlap,
    conflicts,
)
from hardstand.engines.fit.layout.cost import evaluate
from hardstand.engines.fit.layout.relaxation import Relaxation
from hardstand.engines.fit.layout.turns import Way, first_goes_on

# Up to so many free items the relaxation is tightened; more are proven by cases.
FEW = 8
# Linear programmes of a round of the proof by cases, for each node of a round of the other.
_PROGRAMMES = 1.25
# Linear programmes that a round of the other is worth before its first node.
_BEGINNING = 800.0
# Of the open cases so many must have been split by a conflict for the rounds to begin with it.
_COMMON = 0.1


@dataclass(frozen=True, slots=True)
class Bound:
    """After a round: no legal layout costs less than `cost` points.

    `standings`: the relaxed layout rounded to the grid, to start a search from (None: no solution
    was met). `infeasible`: there is no legal layout at all that costs at most what was asked for.
    `ended`: nothing more can be proven.
    """

    cost: int
    standings: list[Standing] | None
    infeasible: bool
    ended: bool


class Bounding:
    """The rounds of one proof. `upper` may fall between rounds as better layouts are found."""

    def __init__(self, board: Board, nodes: int = 400, at_once: int = 1000) -> None:
        self.board, self.nodes, self.at_once = board, nodes, at_once
        self.added: set[Conflict] = set()
        self.upper = math.inf
        self.best = 0
        self.looked_at = 0
        self.tightened = -math.inf
        self.step = _step(board)
        self.programmes = max(1, round(_PROGRAMMES * nodes))
        many = len(board.free_items) > FEW
        self.branching = Branching(board, 0.5 * self.step) if many else None
        first = self.branching.least if self.branching is not None else 0.0
        self.cases, self.others = Way(first), Way(first)

    @cached_property
    def relaxation(self) -> Relaxation:
        """What the rounds tighten."""
        return Relaxation(self.board)

    def rounds(self, seconds: float = math.inf) -> Iterator[Bound]:
        """Yield the bound after each round until it meets `upper` or the proof has ended."""
        while True:
            found = self.round(seconds)
            yield found
            if found.ended:
                return

    def stage(self, rounds: int, left: Callable[[], float]) -> list[Bound]:
        """At most so many rounds, fewer where those before had looked at `nodes` nodes together.

        `left`: seconds that there are still, asked before each round.
        """
        if self.branching is not None:
            return self._in_turn(rounds, left)
        found: list[Bound] = []
        most = self.looked_at + self.nodes
        while len(found) < rounds and self.looked_at < most:
            seconds = left()
            if seconds <= 0.0:
                break
            found.append(self.round(seconds))
            if found[-1].ended:
                break
        return found

    def _in_turn(self, rounds: int, left: Callable[[], float]) -> list[Bound]:
        """A stage by cases and by rounds, of as much work as that of so many rounds by cases."""
        found: list[Bound] = []
        most = self.cases.work + self.others.work + rounds * self.programmes
        while len(found) < rounds and self.cases.work + self.others.work < most:
            branching = self.branching
            if branching is not None and first_goes_on(self.cases, self.others):
                before = branching.solved
                found.append(self._by_cases(branching, left))
                self.cases.did(branching.solved - before, branching.least)
            else:
                if branching is not None and not self.others.work:
                    self._begin_with(branching.parted_by(_COMMON))
                nodes = self.looked_at
                found.append(self.round(left()))
                work = _BEGINNING + _PROGRAMMES * (self.looked_at - nodes)
                self.others.did(work, self.tightened)
            if found[-1].ended or left() <= 0.0:
                break
        return found

    def _begin_with(self, known: list[Overlap | InHole]) -> None:
        for one in known[: self.at_once]:
            self.added.add(one)
            self._add(one)

    def _by_cases(self, branching: Branching, left: Callable[[], float]) -> Bound:
        """One round of the proof by cases; it is given up when it can prove no more."""
        branching.upper = min(branching.upper, self.upper)
        branching.work(self.programmes, lambda: left() <= 0.0)
        self.upper = min(self.upper, branching.upper)
        standings = branching.standings
        if branching.ended:
            self.branching = None
        nothing = not math.isfinite(branching.least)
        if not nothing:
            self._raise(branching.least)
        return Bound(self.best, standings, nothing, ended=nothing or self.best >= self.upper)

    def _raise(self, least: float) -> None:
        """Take a bound on all that is cheaper than `upper`."""
        slack = 1e-6 * max(1.0, abs(least))
        stepped = math.ceil((least - slack) / self.step) * self.step
        self.best = max(self.best, stepped if self.upper > stepped else int(self.upper))

    def round(self, seconds: float = math.inf) -> Bound:
        """One round of at most so many nodes; `seconds` only stops it."""
        # Only what is cheaper than the layout known is looked for: if there is nothing, it is best.
        below = self.upper - 0.5 * self.step if math.isfinite(self.upper) else np.inf
        answer = self.relaxation.rows.minimised(self.nodes, below, max(0.05, seconds))
        self.looked_at += answer.nodes
        if answer.empty:
            nothing = not math.isfinite(self.upper)
            self.best = self.best if nothing else int(self.upper)
            return Bound(self.best, None, nothing, ended=True)
        if math.isfinite(answer.bound):
            self.tightened = max(self.tightened, answer.bound)
            self._raise(answer.bound)
        if answer.values is None:
            self.nodes *= 2
            return Bound(self.best, None, infeasible=False, ended=self.best >= self.upper)
        places = self.relaxation.places(answer.values)
        met = conflicts(self.board, places)
        new = [one for one in met if one not in self.added]
        for one in self._first(new):
            self.added.add(one)
            self._add(one)
        if not answer.finished:
            self.nodes *= 2
        rounded = [(a, round(x), round(y)) for a, x, y in places]
        if not met:  # a legal layout
            self.upper = min(self.upper, cost_of(self.board, rounded))
        return Bound(self.best, rounded, infeasible=False, ended=self.best >= self.upper)

    def _first(self, new: list[Conflict]) -> list[Conflict]:
        """The conflicts to add now: between linked items first, then the deepest, a few at once."""
        linked = {(pull.item, pull.other) for pull in self.board.pulls}
        linked |= {(other, one) for one, other in linked}

        def rank(one: Conflict) -> tuple[bool, float]:
            if not isinstance(one, Overlap):
                return True, 0.0
            return (one.i, one.j) not in linked, -one.depth_mm

        return sorted(new, key=rank)[: self.at_once]

    def _add(self, conflict: Conflict) -> None:
        if isinstance(conflict, Overlap):
            self.relaxation.keep_apart(
                conflict.i, conflict.part, conflict.j, conflict.other, conflict.tray
            )
        elif isinstance(conflict, InHole):
            self.relaxation.keep_out_of(conflict.i, conflict.a, conflict.hole)
        else:
            assert isinstance(conflict, BetweenMillimetres)
            self.relaxation.whole_millimetres(conflict.i)


def _step(board: Board) -> int:
    """What all costs are a multiple of: bounds may be rounded up to it."""
    problem = board.problem
    weights = [weight for pull in board.pulls for weight in pull.weight]
    weights += [one.weight for one in problem.apart]
    weights += [place.cost for item in problem.items for place in item.places]
    weights += [
        one.weight * math.gcd(2 * one.target_g_mm, *(item.mass_g for item in problem.items))
        for one in problem.balances
    ]
    return max(1, math.gcd(*weights)) if weights else 1


def cost_of(board: Board, standings: list[Standing]) -> int:
    """What standings cost, by the judge."""
    return evaluate(board.problem, board.layout(standings)).total
