"""Find a layout and prove how good it is: the one function that others call.

Search and proof work side by side in stages of fixed work and tell each other what they found only
between stages, so the answer depends on the problem, the seed and the work, and not on the clock.
The clock or the caller may cut it short; the answer then says so.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from hardstand.engines.fit.layout.board import Board, Standing, board
from hardstand.engines.fit.layout.bound import FEW, Bound, Bounding
from hardstand.engines.fit.layout.cost import Cost, evaluate, faults
from hardstand.engines.fit.layout.feasible import feasibility
from hardstand.engines.fit.layout.improving import Effort, effort_for, rounds
from hardstand.engines.fit.layout.problem import Layout, Problem
from hardstand.engines.fit.layout.search import Heat, Rebuilder, Searched, repaired, search

Ending = Literal["proven", "work", "cancelled", "infeasible", "unknown"]
# What the round of the proof that the clock cut off may take to hand over its bound.
_GRACE = 0.5


@dataclass(frozen=True, slots=True)
class Progress:
    """What is known so far: cost of the best layout (None: none yet), proven bound, gap."""

    cost: int | None
    bound: int
    stage: int

    @property
    def gap_pct(self) -> float | None:
        """How far the bound is below the cost."""
        return gap_pct(self.cost, self.bound)


@dataclass(frozen=True, slots=True)
class Answer:
    """The best layout found, what it costs, and the proven lower bound of any layout's cost.

    `ending`: proven (nothing is cheaper), work (the work allowed was done), cancelled (by the clock
    or the caller, so a repetition may differ), infeasible (proven that there is no legal layout),
    unknown (none found, none excluded).
    """

    layout: Layout | None
    cost: Cost | None
    bound: int
    ending: Ending
    stages: int

    @property
    def gap_pct(self) -> float | None:
        """How far the bound is below the cost."""
        return gap_pct(None if self.cost is None else self.cost.total, self.bound)


@dataclass(frozen=True, slots=True)
class Guide:
    """What a search may rest on and how much one stage is.

    `start`: a layout that is known, used where it is legal, so that the answer is no worse;
    `effort`: of the search in one stage, as suits the number of free items if None; `nodes`: of the
    bound in the first.
    """

    start: Layout | None = None
    effort: Effort | None = None
    nodes: int = 400


def gap_pct(cost: int | None, bound: int) -> float | None:
    """How far a bound is below a cost in percent of the cost; None without a cost.

    >>> gap_pct(200, 150)
    25.0
    """
    if cost is None:
        return None
    return 100.0 * (cost - bound) / cost if cost else 0.0


def solve(
    problem: Problem,
    seed: int = 1,
    stages: int = 12,
    seconds: float = float("inf"),
    progress: Callable[[Progress], None] = lambda _: None,
    cancelled: Callable[[], bool] = lambda: False,
    prove: bool = True,
    guide: Guide = Guide(),
) -> Answer:
    """Find the cheapest legal layout of a problem.

    Parameters: `seed`; `stages`, the work allowed (one is a few seconds); `seconds`, wall clock,
    only to cut off; `progress` hears of every better layout or bound; `cancelled` is asked all the
    time; `prove` False spends nothing on the bound; `guide`: a layout that is known, and what one
    stage does. Returns `Answer`; its layout has no faults by
    `cost.faults`. Raises KeyError for an unknown item, port or tray.

    >>> from hardstand.engines.fit.layout.problem import Item, ItemPort, Lead, Place, Point, Tray
    >>> tray = Tray("t", ((0, 0), (100, 0), (100, 50), (0, 50)))
    >>> boxes = tuple(Item(name, (30, 20, 10), (Place("t"),)) for name in "ab")
    >>> leads = tuple(Lead(n, ItemPort(n), Point((50, 25, 5)), 1) for n in "ab")
    >>> answer = solve(Problem((tray,), boxes, leads))
    >>> answer.ending, answer.cost.total, answer.bound
    ('proven', 40, 40)
    """
    return _Run(problem, seed, seconds, progress, cancelled, prove, guide).run(stages)


class _Run:
    """One call of `solve`."""

    def __init__(
        self,
        problem: Problem,
        seed: int,
        seconds: float,
        progress: Callable[[Progress], None],
        cancelled: Callable[[], bool],
        prove: bool,
        guide: Guide,
    ) -> None:
        self.board: Board = board(problem)
        self.seed, self.progress, self.cancelled, self.prove = seed, progress, cancelled, prove
        self.known: list[Standing] | None = self.legal(guide.start)
        self.ends = time.monotonic() + seconds
        self.best: Searched = Searched(None, 0, 0)
        self.bounding: Bounding | None = None
        self.stage = 0
        self.told: tuple[int | None, int] = (None, -1)
        self.nodes = guide.nodes
        self.effort: Effort = guide.effort or effort_for(len(self.board.free_items))

    def legal(self, start: Layout | None) -> list[Standing] | None:
        """A layout as standings where nothing is wrong with it."""
        if start is None or faults(self.board.problem, start):
            return None
        return self.board.standings(start)

    def stop(self) -> bool:
        """Whether the clock or the caller wants an end."""
        return time.monotonic() > self.ends or self.cancelled()

    def left(self) -> float:
        """Seconds left."""
        return max(0.0, self.ends - time.monotonic())

    def proving(self) -> float:
        """Seconds left to a round of the proof; none once someone wants an end."""
        return 0.0 if self.stop() else self.left()

    def run(self, stages: int) -> Answer:
        """Stages until the layout is proven best, the work is done or someone stops."""
        if any(not choices for choices in self.board.stances):
            return self.answer("infeasible")
        searching = self.begun()
        if self.best.standings is None and not self.stop():
            known = feasibility(self.board, self.seed, 20.0, 0, min(self.left(), 1e9))
            if known.standings is not None:
                self.take(self.costed(known.standings))
                searching = rounds(self.board, self.seed, self.effort, self.stop, known.standings)
                next(searching)
            elif known.proven:
                return self.answer("infeasible")
        if self.prove:
            self.bounding = Bounding(self.board, self.nodes)
        chunks = 1 if len(self.board.free_items) <= FEW else 8
        for self.stage in range(1, stages + 1):
            if self.stop():
                return self.answer("cancelled")
            ended = self.both(searching, chunks)
            if ended:
                return self.answer("proven" if self.best.standings else "infeasible")
        if self.stop():
            return self.answer("cancelled")
        return self.answer("work" if self.best.standings is not None else "unknown")

    def begun(self) -> Iterator[Searched]:
        """The search after its first layout: the one known, or one built where that is cheaper."""
        searching = rounds(self.board, self.seed, self.effort, self.stop)
        built = next(searching)
        if self.known is not None:
            there = self.costed(self.known)
            self.take(there)
            if built.standings is None or there.cost <= built.cost:
                searching = rounds(self.board, self.seed, self.effort, self.stop, self.known)
                next(searching)
        self.take(built)
        return searching

    def both(self, searching: object, chunks: int) -> bool:
        """One stage of search and proof; True when the proof is complete."""
        found: list[Bound] = []
        worker = None
        if self.bounding is not None:
            if self.best.standings is not None:
                self.bounding.upper = min(self.bounding.upper, self.best.cost)
            bounding = self.bounding
            worker = threading.Thread(
                target=lambda: found.extend(bounding.stage(chunks, self.proving)), daemon=True
            )
            worker.start()
        for _ in range(chunks):
            if self.stop():
                break
            self.take(next(searching, self.best))  # type: ignore[call-overload]
        while worker is not None and worker.is_alive() and not self.stop():
            worker.join(0.05)
        if worker is not None and not self.cancelled():
            worker.join(_GRACE)
        if self.bounding is None:
            return False
        relaxed = [one for one in found if one.standings is not None]
        if relaxed:
            self.follow(relaxed[-1])
        self.tell()
        return any(one.infeasible for one in found) or (
            self.best.standings is not None and self.bounding.best >= self.best.cost
        )

    def follow(self, bound: Bound) -> None:
        """Make a legal layout of the relaxed one."""
        assert bound.standings is not None
        made = repaired(self.board, bound.standings, Rebuilder(self.board, self.seed))
        if made is not None:
            self.take(search(self.board, made, self.seed, 60, Heat(0.001), self.stop))

    def costed(self, standings: list[tuple[int, int, int]]) -> Searched:
        """Standings with their cost."""
        cost = evaluate(self.board.problem, self.board.layout(standings)).total
        return Searched(standings, cost, 0)

    def take(self, found: Searched) -> None:
        """Keep what was found if it is cheaper."""
        if found.standings is not None and (
            self.best.standings is None or found.cost < self.best.cost
        ):
            self.best = found
        self.tell()

    def tell(self) -> None:
        """Report what is new."""
        cost = None if self.best.standings is None else self.best.cost
        now = (cost, 0 if self.bounding is None else self.bounding.best)
        if now != self.told:
            self.told = now
            self.progress(Progress(cost, now[1], self.stage))

    def answer(self, ending: Ending) -> Answer:
        """The answer, judged anew."""
        bound = 0 if self.bounding is None else self.bounding.best
        if self.best.standings is None:
            return Answer(None, None, bound, "unknown" if ending == "work" else ending, self.stage)
        layout = self.board.layout(self.best.standings)
        wrong = faults(self.board.problem, layout)
        if wrong:
            raise AssertionError(f"the layout found is not legal: {wrong}")
        return Answer(layout, evaluate(self.board.problem, layout), bound, ending, self.stage)
