"""The search as a whole: rounds of annealing, repair and rebuilding, keeping the best layout."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from hardstand.engines.fit.layout.annealing import anneal
from hardstand.engines.fit.layout.board import Board
from hardstand.engines.fit.layout.search import (
    Heat,
    Rebuilder,
    Searched,
    Standings,
    built,
    repaired,
    search,
)

_WARM = Heat(0.004, 0.0003)


@dataclass(frozen=True, slots=True)
class Effort:
    """What one round does: annealing steps and herd, layouts repaired and kept, insertions."""

    steps: int = 10_000
    herd: int = 32
    repaired: int = 16
    kept: int = 2
    insertions: int = 800


def effort_for(free_items: int) -> Effort:
    """The effort that suits a number of free items: fewer need shorter rounds."""
    if free_items <= 8:
        return Effort(steps=300 * free_items, repaired=8, kept=1, insertions=50 * free_items)
    return Effort(steps=600 * free_items)


def rounds(
    board: Board,
    seed: int,
    effort: Effort = Effort(),
    stop: Callable[[], bool] = lambda: False,
    first: Standings | None = None,
) -> Iterator[Searched]:
    """Yield the best layout so far, again and again until `stop`; the first one comes quickly.

    Every other round anneals from anywhere, the others rebuild the best layout further. What is
    yielded is never worse than what was yielded before. `standings` is None until one is legal.
    """
    first = built(board, seed) if first is None else first
    best = Searched(first, 0, 0)
    if first is not None:
        best = Searched(first, Rebuilder(board, seed).cost(first), len(board.stances))
    yield best
    if best.standings is not None:
        best = search(board, best.standings, seed, effort.insertions // 4, Heat(0.002), stop)
        yield best
    number = 0
    while not stop():
        number += 1
        if number % 2 or best.standings is None:
            for start in _annealed(board, seed + 7919 * number, effort, stop):
                found = search(board, start, seed + number, effort.insertions, _WARM, stop)
                best = _better(best, found)
                yield best
        else:
            found = search(board, best.standings, seed + number, 2 * effort.insertions, _WARM, stop)
            best = _better(best, found)
            yield best


def _better(best: Searched, found: Searched) -> Searched:
    if best.standings is None or (found.standings is not None and found.cost < best.cost):
        return found
    return best


def _annealed(board: Board, seed: int, effort: Effort, stop: Callable[[], bool]) -> list[Standings]:
    """The best legal layouts of one annealing, made legal where they overlap."""
    found = anneal(board, None, seed, effort.steps, effort.herd, stop=stop)
    rebuilder = Rebuilder(board, seed)
    legal = [] if found.standings is None else [found.standings]
    for standings in found.herd[: effort.repaired]:
        made = repaired(board, standings, rebuilder)
        if made is not None and made not in legal:
            legal.append(made)
    return sorted(legal, key=rebuilder.cost)[: effort.kept]
