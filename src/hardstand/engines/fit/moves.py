"""Node: for what is too near, the smallest move that clears it and spoils nothing else."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from hardstand.engines.fit.model import Check, Checks, Move, Moves
from hardstand.engines.fit.move_search import MoveSearch
from hardstand.engines.fit.neighbourhood import Budget
from hardstand.engines.fit.pairing import LIMIT_OF
from hardstand.engines.fit.piece import Solids
from hardstand.findings import Limit, judge

MEASURED = 10_000  # distances in all, a fraction of a second: a way out is worth that, not more
MOST = 12  # so many of the worst are given a way out; a badly placed aeroplane has other worries
BY_MOVING = (*LIMIT_OF, "tray-edge", "bay-gap")


def moves(slices: Any, earlier: Any) -> Moves:
    """Moves by the check that they clear. slices: items, trays, sections, limits.

    Of the items of a check the one is moved that can clear all that is too near it, else the one
    that moves least.
    """
    solids: Solids = earlier["fit.solids"]
    items = {item.id: item for item in slices.items}
    searches: dict[str, MoveSearch] = {}
    budget = Budget(MEASURED)
    found: dict[tuple[str, tuple[str, ...]], Move] = {}
    seen: set[frozenset[str]] = set()
    results = (earlier["fit.clearances"], earlier["fit.containment"])
    for check in _too_near(results, slices.limits):
        pair = frozenset(check.about)
        if pair in seen or len(seen) >= MOST:
            continue
        seen.add(pair)
        ways = []
        for one in (items[row] for row in check.about if row in items):
            if one.id not in searches:
                searches[one.id] = MoveSearch(one, solids, slices, budget)
            way = searches[one.id].clearing(pair)
            ways += [way] if way is not None else []
        if ways:
            best = min(ways, key=lambda way: (not way.clears_all, np.hypot(*way.by_mm)))
            found[check.slug, check.about] = best
    return Moves(found)


def _too_near(results: tuple[Checks, ...], limits: Mapping[str, Limit]) -> Iterator[Check]:
    """The checks that fail and could be cleared by moving something, in the results' order."""
    for result in results:
        u = result.figures.u
        for k, check in enumerate(result.checks):
            if check.slug in BY_MOVING:
                value = float(result.figures.values[k])
                if judge(value, float(u[k]), limits[check.limit_id]) == "outside":
                    yield check
