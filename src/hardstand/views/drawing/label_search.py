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
_WORK, _WORK_MANY = 1000, 250  # places looked at in all, for few names and for many


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
        self.owner = np.repeat(np.arange(len(every)), sizes)
        none = (self.leader == 0.0).all(axis=1)
        low = np.minimum(self.leader[:, :2], self.leader[:, 2:])
        high = np.maximum(self.leader[:, :2], self.leader[:, 2:])
        lead = np.hstack([low, high]) + margin
        slanting = (np.abs(self.leader[:, :2] - self.leader[:, 2:]) > 1e-6).all(axis=1)
        # Two leaders on one line would read as one: an upright leader is a box of its own as well.
        self.band = np.where((none | slanting)[:, None], _NOWHERE, lead)
        around = np.where(none[:, None], self.box, lead)
        self.span = np.hstack([np.minimum(self.box[:, :2], around[:, :2]),
                               np.maximum(self.box[:, 2:], around[:, 2:])])  # fmt: skip
        self.dear = _CROSSING * gap
        self.loose = False  # whether leaders may cross
        self._clashes: dict[int, tuple[NDArray[np.intp], NDArray[np.intp]]] = {}
        self.work = 0
        self.clear()

    def clear(self) -> None:
        """No name has a place."""
        self.loose = False
        self.blocked = np.zeros(len(self.cost), dtype=np.int32)
        self.met = np.zeros(len(self.cost), dtype=np.int32)
        self.chosen: list[int | None] = [None] * (len(self.first) - 1)

    def clashes(self, place: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        """The places of other names that one excludes, and those whose leader only crosses its own."""
        if place not in self._clashes:
            self.work += 1
            self._clashes[place] = self._found(place)
        return self._clashes[place]

    def _found(self, place: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        near = overlap(self.span, self.span[place][None])[:, 0] & (self.owner != self.owner[place])
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
                self.blocked[excluded] += step
                self.met[crossing] += step
        self.chosen[name] = place

    def hindered(self, name: int) -> NDArray[np.int32]:
        """By how many of the names placed each place of one is hindered."""
        span = slice(self.first[name], self.first[name + 1])
        met = self.met[span]
        borne = np.where(met > _CROSSINGS, met, 0) if self.loose else met
        return np.asarray(self.blocked[span] + borne)

    def settle(self, name: int) -> None:
        """Take the cheapest place of a name that is free."""
        self.take(name, None)
        free = self.first[name] + np.flatnonzero(self.hindered(name) == 0)
        if len(free):
            self.take(name, int(free[np.argmin(self.cost[free] + self.dear * self.met[free])]))

    def make_way(self, name: int) -> None:
        """Move one other name out of the way of one without a place, if that gives both a place."""
        for place in (self.first[name] + np.flatnonzero(self.hindered(name) == 1))[:_TRIED]:
            other = self._in_the_way(int(place))
            held = self.chosen[other]
            self.take(other, None)
            self.take(name, int(place))
            self.settle(other)
            if self.chosen[other] is not None:
                return
            self.take(name, None)
            self.take(other, held)

    def _in_the_way(self, place: int) -> int:
        """The name that hinders a place which only one hinders."""
        for name, one in enumerate(self.chosen):
            if one is not None:
                excluded, crossing = self.clashes(one)
                if _holds(excluded, place) or (not self.loose and _holds(crossing, place)):
                    return name
        raise AssertionError("a place counted as hindered is hindered by none")

    def worth(self) -> tuple[int, float]:
        """How many names have no place, and the sum of what the others cost."""
        taken = [one for one in self.chosen if one is not None]
        crossings = float(self.met[taken].sum()) / 2.0
        return len(self.chosen) - len(taken), float(self.cost[taken].sum()) + self.dear * crossings


def _holds(rising: NDArray[np.intp], value: int) -> bool:
    """Whether rising numbers hold one."""
    at = int(rising.searchsorted(value))
    return at < len(rising) and int(rising[at]) == value


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
            if table.chosen[name] is None and table.work < most:
                table.make_way(name)
        if table.chosen == before or table.work >= most:
            break
    table.loose = True
    for name in [k for k, one in enumerate(table.chosen) if one is None]:
        table.settle(name)
        if table.chosen[name] is None and table.work < most:
            table.make_way(name)
    return table.worth(), list(table.chosen)
