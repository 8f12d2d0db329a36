"""Proof by cases: the case with the least bound is split again and again.

Of several splits the one is taken that should leave the fewest cases below a given bound, judged by
what its parts' bounds have risen by. Splits that have risen much elsewhere are tried first, and a
few that have not been tried yet. Each try is one solution of a linear programme from where the last
one ended, so that hundreds are done where a mixed-integer solver looks at a few nodes.
"""

from __future__ import annotations

import heapq
import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass

from hardstand.engines.fit.layout.board import Board, Standing
from hardstand.engines.fit.layout.conflicts import InHole, Overlap
from hardstand.engines.fit.layout.cost import evaluate
from hardstand.engines.fit.layout.programme import Programme
from hardstand.engines.fit.layout.relaxation import Relaxation
from hardstand.engines.fit.layout.rows import Floats
from hardstand.engines.fit.layout.splits import Case, Split, parts, splits

# How many splits known from elsewhere, and how many new ones, are tried on a case.
_KNOWN, _NEW = 2, 2
# A bound that rises by less than this part of it counts as one that rises by as much.
_LEAST = 2e-5


@dataclass(frozen=True, slots=True)
class Open:
    """A case that is to be split: no layout of it costs less than `least`."""

    least: float
    case: Case
    values: Floats


class Branching:
    """The cases of one proof. `upper`: only what is cheaper by more than `slack` is looked for."""

    def __init__(self, board: Board, slack: float = 0.5) -> None:
        self.board, self.slack, self.upper = board, slack, math.inf
        self.relaxation = Relaxation(board)
        told = 1 + max((c for axis in self.relaxation.across for row in axis for c in row), default=0)
        self.programme = Programme(self.relaxation.rows, told)
        self.solved = 0
        # Cases that cannot be split: their bounds stand.
        self.rest = math.inf
        self.met: tuple[int, list[Standing]] | None = None
        self.gains: dict[Split, tuple[float, int]] = {}
        self.numbers = itertools.count()
        self.heap: list[tuple[float, int, Open]] = []
        self._open([one] if (one := self._looked_at(Case(), 0.0)) else [])

    @property
    def least(self) -> float:
        """No layout costs less than this; `upper` where none is cheaper."""
        return min(self.rest, self.heap[0][0] if self.heap else math.inf, self.upper)

    @property
    def ended(self) -> bool:
        """Whether splitting more can prove nothing more."""
        return not self.heap or self.least in (self.rest, self.upper)

    @property
    def standings(self) -> list[Standing] | None:
        """The layout met that costs `upper`, or else the relaxed one of the case that costs least."""
        if self.met is not None and self.met[0] <= self.upper:
            return self.met[1]
        if not self.heap:
            return None
        places = self.relaxation.places(self.heap[0][2].values)
        return [(a, round(x), round(y)) for a, x, y in places]

    def parted_by(self, share: float) -> list[Overlap | InHole]:
        """The conflicts that at least such a share of the open cases was split by, by frequency."""
        count: dict[Overlap | InHole, int] = {}
        for _, _, one in sorted(self.heap, key=lambda row: row[:2]):
            met = [key[0] for key in one.case.lines if isinstance(key, tuple)]
            for split in dict.fromkeys(one for one in met if isinstance(one, Overlap | InHole)):
                count[split] = count.get(split, 0) + 1
        common = [one for one in count if count[one] >= share * len(self.heap)]
        return sorted(common, key=lambda one: -count[one])

    def work(self, programmes: int, stop: Callable[[], bool] = lambda: False) -> None:
        """Split cases until about so many programmes more have been solved, or `stop`."""
        most = self.solved + programmes
        while self.solved < most and not self.ended and not stop():
            one = heapq.heappop(self.heap)[2]
            if self._pruned(one.least):
                continue
            found = splits(self.relaxation, one.values)
            if found:
                self._open(self._split(one, found))
            else:
                self._whole(one)

    def _pruned(self, cost: float) -> bool:
        return cost > self.upper - self.slack

    def _open(self, cases: list[Open]) -> None:
        for one in cases:  # of equal ones the newest first
            heapq.heappush(self.heap, (one.least, -next(self.numbers), one))

    def _whole(self, one: Open) -> None:
        """A case whose solution has no conflict is a layout; it may cost more than its bound."""
        standings = [(a, round(x), round(y)) for a, x, y in self.relaxation.places(one.values)]
        cost = evaluate(self.board.problem, self.board.layout(standings)).total
        if cost < self.upper:
            self.upper, self.met = cost, (cost, standings)
        if not self._pruned(one.least):
            self.rest = min(self.rest, one.least)

    def _looked_at(self, case: Case, least: float) -> Open | None:
        """A case with its bound, None where nothing in it is looked for."""
        cost, values = self.programme.solved(case.shut, case.lines)
        self.solved += 1
        if values is None and cost < 0.0:  # the solver gave up
            self.rest = min(self.rest, least)
            return None
        cost = max(least, cost - 1e-6 * max(1.0, abs(cost)))
        return None if values is None or self._pruned(cost) else Open(cost, case, values)

    def _split(self, one: Open, found: list[tuple[Split, float]]) -> list[Open]:
        """The parts of a case by the best of the splits tried."""
        known = sorted((split for split, _ in found if split in self.gains), key=self._gain)
        new = sorted((pair for pair in found if pair[0] not in self.gains), key=lambda pair: -pair[1])
        tries = [*reversed(known[-_KNOWN:]), *(split for split, _ in new[:_NEW])]
        best: tuple[float, list[Open]] = (-1.0, [])
        for split in tries:
            cases = parts(self.relaxation, one.case, split)
            left = [open_ for case in cases if (open_ := self._looked_at(case, one.least))]
            gain = rise([open_.least - one.least for open_ in left], _LEAST * max(1.0, one.least))
            total, count = self.gains.get(split, (0.0, 0))
            self.gains[split] = (total + min(gain, 0.1 * max(1.0, one.least)), count + 1)
            if gain > best[0]:
                best = (gain, left)
            if not left:
                break
        return best[1]

    def _gain(self, split: Split) -> float:
        total, count = self.gains[split]
        return total / count


def rise(rises: list[float], least: float) -> float:
    """What a bound rises by for each e-fold more cases, where parts rise by so much each.

    A tree whose every case is split like that has e^(b/g) cases below b, for the g at which the sum
    of e^(-rise/g) is 1. Rises under `least` count as that. Infinite without any part.

    >>> round(rise([10.0, 10.0], 1.0) * math.log(2.0), 6)
    10.0
    >>> rise([10.0, 10.0], 1.0) < rise([5.0, 30.0], 1.0) < rise([7.0], 1.0)
    True
    """
    if not rises:
        return math.inf
    taken = [max(one, least) for one in rises]
    if len(taken) == 1:  # no more cases than before
        return 1e6 * taken[0]
    low, high = 0.0, math.log(len(taken)) / min(taken)
    for _ in range(40):
        middle = (low + high) / 2.0
        if sum(math.exp(-middle * one) for one in taken) > 1.0:
            low = middle
        else:
            high = middle
    return 1.0 / high
