"""Several good layouts that differ truly, so that a builder can choose by eye."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.annealing import anneal
from hardstand.engines.fit.layout.board import Board, Standing, board
from hardstand.engines.fit.layout.cost import Cost, evaluate, faults
from hardstand.engines.fit.layout.improving import effort_for
from hardstand.engines.fit.layout.problem import Layout, Problem
from hardstand.engines.fit.layout.search import Heat, Rebuilder, built, repaired, search

# An item stands elsewhere when its middle is on another tray or farther off than this.
ELSEWHERE_MM = 40.0
Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Alternative:
    """A layout, its cost, and how many items stand elsewhere than in the nearest one before it."""

    layout: Layout
    cost: Cost
    elsewhere: int


def alternatives(
    problem: Problem,
    count: int = 3,
    seed: int = 1,
    rounds: int = 4,
    within_pct: float = 15.0,
    least_elsewhere: int | None = None,
    start: Layout | None = None,
    stop: Callable[[], bool] = lambda: False,
) -> tuple[Alternative, ...]:
    """Up to `count` legal layouts, cheapest first, that differ truly.

    Each has at least `least_elsewhere` items (a third of the free ones if None) elsewhere than in
    every one before it, and also than in their mirror images; none costs more than `within_pct`
    over the first. `start`: a good layout that is known. Work is given by `rounds`.
    """
    made = board(problem)
    free = made.free_items
    need = max(1, -(-len(free) // 3)) if least_elsewhere is None else least_elsewhere
    pool = _pool(made, seed, rounds, start, stop)
    chosen: list[tuple[int, list[Standing], int]] = []
    for cost, standings in sorted(pool, key=lambda one: one[0]):
        if chosen and cost > chosen[0][0] * (1.0 + within_pct / 100.0):
            break
        apart = [elsewhere(made, standings, other) for _, other, _ in chosen]
        nearest = min(apart, default=len(free))
        if len(chosen) < count and nearest >= need:
            chosen.append((cost, standings, nearest))
    layouts = [(made.layout(standings), apart) for _, standings, apart in chosen]
    return tuple(
        Alternative(layout, evaluate(problem, layout), apart)
        for layout, apart in layouts
        if not faults(problem, layout)
    )


def _pool(
    made: Board, seed: int, rounds: int, start: Layout | None, stop: Callable[[], bool]
) -> list[tuple[int, list[Standing]]]:
    """Legal layouts from everywhere, each improved a little by itself."""
    effort, found = effort_for(len(made.free_items)), []
    first = built(made, seed) if start is None else made.standings(start)
    starts = [] if first is None else [first]
    for number in range(rounds):
        herd = anneal(made, None, seed + 7919 * number, effort.steps // 2, effort.herd, stop=stop)
        starts += herd.herd
    rebuilder = Rebuilder(made, seed)
    for number, one in enumerate(starts):
        if stop():
            break
        legal = repaired(made, one, rebuilder)
        if legal is not None:
            better = search(made, legal, seed + number, 6 * len(made.free_items), Heat(1e-4), stop)
            assert better.standings is not None
            found.append((better.cost, better.standings))
    return found


def elsewhere(made: Board, one: list[Standing], other: list[Standing]) -> int:
    """How many free items stand elsewhere, in the layout or its mirror image, whichever is less."""
    free = list(made.free_items)
    a, b = _middles(made, one)[free], _middles(made, other)[free]
    counts = []
    for side in (1.0, -1.0):
        off = np.abs(a - b * np.array([1.0, side, 1.0]))
        counts.append(int(((off[:, :2].max(axis=1) > ELSEWHERE_MM) | (off[:, 2] > 0)).sum()))
    return min(counts)


def _middles(made: Board, standings: list[Standing]) -> Floats:
    """Middles in plan and the tray's number (n, 3)."""
    rows = []
    for i, (a, x, y) in enumerate(standings):
        one = made.stances[i][a]
        rows.append((x + one.shape.length_mm / 2, y + one.shape.width_mm / 2, one.tray))
    return np.array(rows, dtype=np.float64)
