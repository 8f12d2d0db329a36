"""Search by taking a few items out and putting them back at their best places, again and again.

Items taken out are neighbours by lead or by place. They go back one by one, each at its cheapest
legal place, in a random order; a worse layout is kept with a chance that falls as the work is used
up (simulated annealing over whole rebuilds). The random numbers come from the seed and the work is
counted in insertions, so the same call gives the same layout on any machine.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from hardstand.engines.fit.layout.board import Board, Standing
from hardstand.engines.fit.layout.cost import evaluate
from hardstand.engines.fit.layout.insertion import State, best_insertion

Standings = list[Standing]


@dataclass(frozen=True, slots=True)
class Searched:
    """The best standings found (None: no legal layout found), their cost, and the work used."""

    standings: Standings | None
    cost: int
    insertions: int


@dataclass(frozen=True, slots=True)
class Heat:
    """How much worse a layout may be and still be kept: shares of the cost, at start and end."""

    start: float = 0.01
    end: float = 0.0003


class Rebuilder:
    """Takes items out of a layout and puts them back."""

    def __init__(self, board: Board, seed: int) -> None:
        self.board = board
        self.random = np.random.default_rng(seed)
        self.insertions = 0
        self.near = _neighbours(board)

    def cost(self, standings: Standings) -> int:
        """What standings cost."""
        return evaluate(self.board.problem, self.board.layout(standings)).total

    def put_back(self, state: State, out: list[int]) -> bool:
        """Put items back in the order given; False where one finds no room."""
        for i in out:
            self.insertions += 1
            found = best_insertion(state, i)
            if found is None:
                return False
            state.put(i, found.standing)
        return True

    def taken(self, standings: Standings, count: int) -> list[int]:
        """Items to take out: one at random, and others drawn among what it is near to."""
        free = self.board.free_items
        first = int(self.random.choice(free))
        out = [first]
        middles = _middles(self.board, standings)
        while len(out) < min(count, len(free)):
            anchor = out[int(self.random.integers(len(out)))]
            away = np.abs(middles - middles[anchor]).sum(axis=1)
            score = 1.0 / (30.0 + away) + 0.02 * self.near[anchor]
            weight = np.array([0.0 if i in out else score[i] for i in free]) ** 2
            out.append(int(self.random.choice(free, p=weight / weight.sum())))
        self.random.shuffle(out)
        return out


def search(
    board: Board,
    start: Standings,
    seed: int,
    insertions: int,
    heat: Heat = Heat(),
    stop: Callable[[], bool] = lambda: False,
) -> Searched:
    """Improve a legal layout by `insertions` placings of single items; `stop` ends it early.

    Returns `Searched` with the cheapest legal standings met, never worse than `start`.
    """
    rebuilder = Rebuilder(board, seed)
    now, now_cost = list(start), rebuilder.cost(start)
    best, best_cost = list(now), now_cost
    while rebuilder.insertions < insertions and not stop():
        done = rebuilder.insertions / insertions
        warmth = now_cost * heat.start * (heat.end / heat.start) ** done
        count = int(rebuilder.random.integers(1, min(6, len(board.free_items)) + 1))
        out = rebuilder.taken(now, count)
        state = State(board, list(now))
        for i in out:
            state.standings[i] = None
        if not rebuilder.put_back(state, out):
            continue
        new = [standing for standing in state.standings if standing is not None]
        cost = rebuilder.cost(new)
        if cost <= now_cost or rebuilder.random.random() < math.exp((now_cost - cost) / warmth):
            now, now_cost = new, cost
            if cost < best_cost:
                best, best_cost = list(new), cost
    return Searched(best, best_cost, rebuilder.insertions)


def built(board: Board, seed: int, tries: int = 60) -> Standings | None:
    """A first legal layout: items put in one by one, each at its cheapest place, large ones first.

    The order is disturbed more with every try, and what found no room comes first in the next.
    None where no try succeeds, which proves nothing.
    """
    random = np.random.default_rng(seed)
    items = board.problem.items
    size = np.array([float(item.size_mm[0] * item.size_mm[1]) for item in items])
    rank = np.where([item.fixed is None for item in items], size, np.inf)
    for attempt in range(tries):
        noise = 1.0 + 0.1 * attempt * random.random(size.size) if attempt else np.ones(size.size)
        state = State(board, [None] * size.size)
        for i in np.argsort(-rank * noise, kind="stable").tolist():
            found = best_insertion(state, i)
            if found is None:
                rank[i] *= 1.5
                break
            state.put(i, found.standing)
        else:
            return [standing for standing in state.standings if standing is not None]
    return None


def repaired(board: Board, standings: Standings, rebuilder: Rebuilder) -> Standings | None:
    """Standings with overlaps made legal: what overlaps most is taken out and put back."""
    state = State(board, list(standings))
    out = [
        i
        for i in board.free_items
        if not board.stances[i][standings[i][0]].allows(*standings[i][1:])
    ]
    for i in out:
        state.standings[i] = None
    while True:
        worst = _most_overlapping(board, state)
        if worst is None:
            break
        state.standings[worst] = None
        out.append(worst)
    sizes = [board.problem.items[i].size_mm for i in out]
    order = sorted(range(len(out)), key=lambda k: -sizes[k][0] * sizes[k][1])
    if not rebuilder.put_back(state, [out[k] for k in order]):
        return None
    return [standing for standing in state.standings if standing is not None]


def _most_overlapping(board: Board, state: State) -> int | None:
    """The free item that overlaps the most others; the smaller one of equals."""
    count = dict.fromkeys(board.free_items, 0)
    for i, one in enumerate(state.standings):
        for j, other in enumerate(state.standings[:i]):
            if one is None or other is None or not _collide(board, j, other, i, one):
                continue
            for k in (i, j):
                if k in count:
                    count[k] += 1
    size = [item.size_mm[0] * item.size_mm[1] for item in board.problem.items]
    worst = max(count, key=lambda i: (count[i], -size[i]), default=None)
    return worst if worst is not None and count[worst] else None


def _collide(board: Board, i: int, one: Standing, j: int, other: Standing) -> bool:
    if board.stances[i][one[0]].tray != board.stances[j][other[0]].tray:
        return False
    dx, dy = other[1] - one[1], other[2] - one[2]
    rooms = board.colliding(i, one[0], j, other[0])
    inside = (rooms[:, 0] < dx) & (dx < rooms[:, 1]) & (rooms[:, 2] < dy) & (dy < rooms[:, 3])
    return bool(inside.any())


def _neighbours(board: Board) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Whether two items have a lead between them (n, n)."""
    n = len(board.problem.items)
    found = np.zeros((n, n))
    for pull in board.pulls:
        if pull.other >= 0:
            found[pull.item, pull.other] = found[pull.other, pull.item] = 1.0
    return found


def _middles(
    board: Board, standings: Standings
) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    rows = []
    for i, (a, x, y) in enumerate(standings):
        stance = board.stances[i][a]
        rows.append((x + stance.shape.length_mm / 2, y + stance.shape.width_mm / 2, stance.twice_z))
    return np.array(rows)
