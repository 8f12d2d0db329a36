"""Choosing one place for each name so that no two get in one another's way.

Several orders are tried, each then mended; the layout that places the most names, with the shortest
sum of leaders, wins. Leaders do not cross one another, except for the sake of names that would else
be left out. The work is bounded by the number of places, so that it does not grow with the square of
the names.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.views.drawing.boxes import Bools, Floats, crossed, meets, overlap

_NOWHERE = np.array([np.inf, np.inf, -np.inf, -np.inf])  # a box that overlaps none
_CROSSING, _CROSSINGS = 27.0, 2  # what a crossing of leaders costs, by the gap; how many are borne
_TRIED, _PASSES, _MANY = 24, 4, 80
_BITS = 20
_COUNT = (1 << _BITS) - 1
_WORK, _WORK_MANY = 300, 250  # places looked at in all, for few names and for many


@dataclass(frozen=True, eq=False, slots=True)
class Places:
    """All places for one name, the cheapest first: box (N, 4), leader (N, 4) and cost (N,).

    A leader of zeros is none: the name stands inside what it names. `short` (N,) says where a number
    stands for the name; without it none does.
    """

    box: Floats
    leader: Floats
    cost: Floats
    short: Bools | None = None


class _Table:
    """The places of all names in one table, and which of them are in the way of those taken."""

    def __init__(self, every: Sequence[Places], gap: float) -> None:
        margin = np.array([-1.0, -1.0, 1.0, 1.0]) * gap
        sizes = [len(one.cost) for one in every]
        self.first = np.concatenate([[0], np.cumsum(sizes)]).astype(np.intp)
        self.box = np.vstack([one.box for one in every]) + margin
        self.leader = np.vstack([one.leader for one in every])
        self.cost = np.concatenate([one.cost for one in every])
        none_short = np.zeros(0, dtype=np.bool_)
        self.short: Bools = np.concatenate(
            [none_short, *(np.zeros(len(one.cost), dtype=np.bool_) if one.short is None or one.short.all()
                           else one.short for one in every)])  # fmt: skip
        self.owner = np.repeat(np.arange(len(every)), sizes)
        none = (self.leader == 0.0).all(axis=1)
        low = np.minimum(self.leader[:, :2], self.leader[:, 2:])
        high = np.maximum(self.leader[:, :2], self.leader[:, 2:])
        lead = np.hstack([low, high]) + margin
        slanting = (np.abs(self.leader[:, :2] - self.leader[:, 2:]) > 1e-6).all(axis=1)
        # Two leaders on one line would read as one: an upright leader is a box of its own as well.
        self.band = np.where((none | slanting)[:, None], _NOWHERE, lead)
        around = np.where(none[:, None], self.box, lead)
        span = np.hstack([np.minimum(self.box[:, :2], around[:, :2]), np.maximum(self.box[:, 2:], around[:, 2:])])
        self._edges = np.ascontiguousarray(span.T)
        self.dear = _CROSSING * gap
        self.loose = False  # whether leaders may cross
        self._clashes: dict[int, tuple[NDArray[np.intp], NDArray[np.intp]]] = {}
        self.work = 0
        self.clear()

    def clear(self) -> None:
        """No name has a place."""
        self.loose = False
        # How many of the names placed exclude each place, or cross it; above _COUNT the sum of who they are.
        self._blocked = np.zeros(len(self.cost), dtype=np.int64)
        self._met = np.zeros(len(self.cost), dtype=np.int64)
        self.chosen: list[int | None] = [None] * (len(self.first) - 1)

    def clashes(self, place: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """The places of other names that one excludes, and those whose leader only crosses its own."""
        if place not in self._clashes:
            self.work += 1
            self._clashes[place] = self._found(place)
        return self._clashes[place]

    def _found(self, place: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        left, top, right, bottom = self._edges
        a, b, c, d = self._edges[:, place]
        near = (left < c) & (right > a) & (top < d) & (bottom > b) & (self.owner != self.owner[place])
        rows = np.flatnonzero(near)
        box, leader = self.box[place][None], self.leader[place][None]
        clash: Bools = overlap(self.box[rows], box)[:, 0]
        clash |= crossed(self.box[rows], leader)[:, 0]
        clash |= crossed(box, self.leader[rows])[0]
        clash |= overlap(self.band[rows], self.band[place][None])[:, 0]
        others = rows[~clash]
        return rows[clash], others[meets(self.leader[others], leader)[:, 0]]

    def take(self, name: int, place: int | None) -> None:
        """Give a name a place, or none; what it had is free again."""
        for one, step in ((self.chosen[name], -1), (place, 1)):
            if one is not None:
                excluded, crossing = self.clashes(one)
                self._blocked[excluded] += step * (1 + (name + 1) * (_COUNT + 1))
                self._met[crossing] += step * (1 + (name + 1) * (_COUNT + 1))
        self.chosen[name] = place

    def hindered(self, name: int) -> NDArray[np.int64]:
        """By how many of the names placed each place of one is hindered."""
        span = slice(self.first[name], self.first[name + 1])
        met = self._met[span] & _COUNT
        borne = np.where(met > _CROSSINGS, met, 0) if self.loose else met
        return np.asarray((self._blocked[span] & _COUNT) + borne)

    def settle(self, name: int) -> None:
        """Take the cheapest place of a name that is free."""
        self.take(name, None)
        free = self.first[name] + np.flatnonzero(self.hindered(name) == 0)
        if len(free):
            self.take(name, int(free[np.argmin(self.cost[free] + self.dear * (self._met[free] & _COUNT))]))

    def make_way(self, name: int, tried: int) -> None:
        """Move one other name out of the way of one without a place, or a dear one, where that pays."""
        mine = self.chosen[name]
        before = self._cost(name)
        self.take(name, None)
        near = np.flatnonzero(self.hindered(name) == 1)
        for place in (self.first[name] + near)[:tried]:
            if self.cost[place] >= before:
                break
            other = self._in_the_way(int(place))
            held, both = self.chosen[other], before + self._cost(other)
            self.take(other, None)
            self.take(name, int(place))
            self.settle(other)
            if self._cost(other) < np.inf and self._cost(name) + self._cost(other) < both:
                return
            self.take(name, None)
            self.take(other, held)
        self.take(name, mine)

    def _cost(self, name: int) -> float:
        place = self.chosen[name]
        return np.inf if place is None else float(self.cost[place])

    def is_short(self, name: int) -> bool:
        """Whether a number stands for a name."""
        place = self.chosen[name]
        return place is not None and bool(self.short[place])

    def _in_the_way(self, place: int) -> int:
        """The name that hinders a place which only one hinders."""
        who = self._blocked[place] if self._blocked[place] & _COUNT else self._met[place]
        return int(who >> _BITS) - 1

    def worth(self) -> tuple[int, float]:
        """How many names have no place, and the sum of what the others cost."""
        taken = [one for one in self.chosen if one is not None]
        crossings = float((self._met[taken] & _COUNT).sum()) / 2.0
        return len(self.chosen) - len(taken), float(self.cost[taken].sum()) + self.dear * crossings


def best_places(every: Sequence[Places], gap: float) -> list[int | None]:
    """The index of the place for each name, None where it has none. `gap` stays free about a name."""
    if not sum(len(one.cost) for one in every):
        return [None] * len(every)
    table = _Table(every, gap)
    least = [float(one.cost[0]) if len(one.cost) else 0.0 for one in every]
    middle = [float(one.box[0, 0]) if len(one.cost) else 0.0 for one in every]
    names = range(len(every))
    orders = [
        sorted(names, key=lambda k: (len(every[k].cost), k)),
        sorted(names, key=lambda k: (least[k], k)),
        sorted(names, key=lambda k: (middle[k], k)),
        sorted(names, key=lambda k: (-middle[k], k)),
    ]
    found = [_tried(table, order) for order in orders[: 1 if len(every) > _MANY else 4]]
    _, chosen = min(found, key=lambda one: one[0])
    return [None if one is None else int(one - table.first[k]) for k, one in enumerate(chosen)]


def _tried(table: _Table, order: Sequence[int]) -> tuple[tuple[int, float], list[int | None]]:
    """Names placed one after the other, then each taken out and put where it now goes best.

    At last leaders may cross, for the sake of names that would else be left out.
    """
    table.clear()
    for name in order:
        table.settle(name)
    most = _WORK if len(order) <= _MANY else _WORK_MANY
    for _ in range(_PASSES):
        before = list(table.chosen)
        for name in range(len(order)):
            table.settle(name)
            if table.work < most and (table.chosen[name] is None or table.is_short(name)):
                table.make_way(name, _TRIED)
        if table.chosen == before or table.work >= most:
            break
    table.loose = True
    for name in [k for k, one in enumerate(table.chosen) if one is None]:
        table.settle(name)
        if table.chosen[name] is None and table.work < most:
            table.make_way(name, _TRIED)
    return table.worth(), list(table.chosen)
