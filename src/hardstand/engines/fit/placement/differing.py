"""Layouts that differ truly from a good one: some items are barred from where they stand in it.

Where everything pulls to one layout, searching again finds it again. So each try bars a few of the
items that can go far from their places and from the mirror images of these, and looks for the best
of what is left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from hardstand.engines.fit.layout.alternatives import ELSEWHERE_MM, elsewhere
from hardstand.engines.fit.layout.board import Board, board
from hardstand.engines.fit.layout.cost import evaluate
from hardstand.engines.fit.layout.improving import Effort
from hardstand.engines.fit.layout.problem import Barrier, Item, Layout, Problem, Rectangle, Spot
from hardstand.engines.fit.layout.solve import Guide, solve

WITHIN_PCT = 15.0
TRIES = 3  # so many for each layout wanted


@dataclass(frozen=True, slots=True)
class Other:
    """A layout, its cost in points, and how many items stand elsewhere than in any before it."""

    layout: Layout
    cost: int
    elsewhere: int


def differing(
    problem: Problem,
    first: Layout,
    count: int,
    roaming: Sequence[str],
    seed: int = 1,
    stop: Callable[[], bool] = lambda: False,
) -> list[Other]:
    """Up to `count` legal layouts beside the first one, cheapest first.

    Each has at least a third of the `roaming` items (ids of those that can go far) elsewhere than in
    every one before it and in their mirror images, and costs no more than 15 % more than the first.
    """
    if not roaming:
        return []
    made, need = board(problem), max(1, -(-len(roaming) // 3))
    most = evaluate(problem, first).total * (1.0 + WITHIN_PCT / 100.0)
    found: list[tuple[int, Layout]] = []
    for k in range(TRIES * count):
        if stop():
            break
        barred = {roaming[(k + j * max(1, len(roaming) // need)) % len(roaming)]
                  for j in range(need)}  # fmt: skip
        layout = _without(problem, first, barred, seed + k, stop)
        if layout is not None:
            found.append((evaluate(problem, layout).total, layout))
    found.sort(key=lambda one: one[0])
    return _apart(made, first, [one for one in found if one[0] <= most], need)[:count]


def _without(
    problem: Problem, first: Layout, barred: set[str], seed: int, stop: Callable[[], bool]
) -> Layout | None:
    """The best layout found in which some items do not stand where they do in the first."""
    items = tuple(
        item if item.id not in barred
        else replace(item, barriers=(*item.barriers, *_around(spot, item)))
        for spot, item in zip(first, problem.items, strict=True)
    )  # fmt: skip
    n = len(items)
    effort = Effort(steps=50 * n, repaired=8, kept=1, insertions=5 * n)
    other = replace(problem, items=items)
    return solve(other, seed, 1, cancelled=stop, prove=False, guide=Guide(None, effort)).layout


def _around(at: Spot, item: Item) -> list[Barrier]:
    """Rooms around the middle of an item, and of its mirror image, that its box may not enter."""
    length, width = item.size_mm[:2] if at.turn % 2 == 0 else item.size_mm[1::-1]
    middle = (at.x_mm + length // 2, at.y_mm + width // 2)
    half = max(1, int(ELSEWHERE_MM) + 2 - min(length, width) // 2)
    return [
        Barrier("elsewhere", at.tray, 0, Rectangle(middle[0] - half, middle[0] + half, y - half,
                                                   y + half))
        for y in dict.fromkeys((middle[1], 1 - middle[1]))
    ]  # fmt: skip


def _apart(
    made: Board, first: Layout, found: Sequence[tuple[int, Layout]], need: int
) -> list[Other]:
    """Those that differ from the first and from one another in enough items."""
    before = [made.standings(first)]
    kept = []
    for cost, layout in found:
        standings = made.standings(layout)
        nearest = min(elsewhere(made, standings, one) for one in before)
        if nearest >= need:
            before.append(standings)
            kept.append(Other(layout, cost, nearest))
    return kept
