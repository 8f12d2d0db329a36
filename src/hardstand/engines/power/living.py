"""What lives in every failure: consumers with enough voltage, items, channels, and functions."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import ChannelPlan, PlannedChannel
from hardstand.engines.power.defaults import RESET_V
from hardstand.engines.power.model import Consumer, PowerNetwork
from hardstand.engines.power.network.elements import GROUND
from hardstand.engines.power.sweep import Sweep

Bools = NDArray[np.bool_]


class Living:
    """All failures of a sweep at once, F of them.

    `fed` are the consumers that a pack could reach, `columns` their nodes; `dead` (F, fed) which of
    them have too little voltage at the worst moment, or fail open themselves.
    """

    def __init__(self, power: PowerNetwork, plan: ChannelPlan, swept: Sweep) -> None:
        self._power, self._plan, self._swept = power, plan, swept
        at = power.network.node_at
        self.functions = tuple(dict.fromkeys(
            name for one in plan.channels for name in one.functions))  # fmt: skip
        reached = {domain for _, fed in power.groups for domain in fed}
        self.fed: list[Consumer] = [one for one in power.consumers if one.domain in reached]
        self.columns = np.array([at[one.domain] for one in self.fed], np.intp)
        self._of_item: dict[str, list[int]] = {}
        for name, column in at.items():
            if name != GROUND:
                self._of_item.setdefault(name.partition(".")[0], []).append(column)
        self._consumers: dict[str, list[int]] = {}
        for place, one in enumerate(self.fed):
            self._consumers.setdefault(one.item, []).append(place)
        self.dead = swept.node_v[:, self.columns] < np.array([_least_v(one) for one in self.fed])
        place_of = {one.end: place for place, one in enumerate(self.fed)}
        for row, (element, kind) in enumerate(swept.failures):
            if kind == "open" and element in place_of:
                self.dead[row, place_of[element]] = True
        self._lives: dict[tuple[str, tuple[str, ...]], Bools] = {}

    def functions_lost(self) -> tuple[Bools, Bools]:
        """Which functions are gone, and which have lost some of what serves them, (F, functions)."""
        count = len(self._swept.failures)
        lost = np.ones((count, len(self.functions)), bool)
        less = np.zeros((count, len(self.functions)), bool)
        column = {name: at for at, name in enumerate(self.functions)}
        parted = self._parted()
        for one in self._plan.channels:
            works = self._works(one, parted)
            for name in one.functions:
                lost[:, column[name]] &= ~works
                less[:, column[name]] |= ~works
        for place, consumer in enumerate(self.fed):
            for name in consumer.functions:
                if name in column:
                    less[:, column[name]] |= self.dead[:, place]
        return lost, less & ~lost

    def _parted(self) -> dict[str, list[int]]:
        """The failures in which a lead is parted, by lead."""
        found: dict[str, list[int]] = {}
        for row, (element, kind) in enumerate(self._swept.failures):
            if kind == "open":
                for name in (element, *self._power.together.get(element, ())):
                    found.setdefault(name, []).append(row)
        return found

    def _works(self, one: PlannedChannel, parted: dict[str, list[int]]) -> Bools:
        """Where a channel's command comes from a living receiver over living copper to its items."""
        works = np.ones(len(self._swept.failures), bool)
        if one.receivers:
            works &= np.any([self._living(name) for name in one.receivers], axis=0)
        for name in {end.partition(".")[0] for end in one.outputs}:
            works &= self._living(name)
        if served := one.reaches or one.drives:
            works &= np.any([self._living(name, one.functions) for name in served], axis=0)
        for lead in one.leads:
            works[parted.get(lead, [])] = False
        return works

    def _living(self, item: str, functions: tuple[str, ...] = ()) -> Bools:
        """Where what an item has for these functions, or has at all, has enough voltage, (F)."""
        known = self._lives.get((item, functions))
        if known is None:
            known = self._lives[item, functions] = self._enough(item, functions)
        return known

    def _enough(self, item: str, functions: tuple[str, ...]) -> Bools:
        every = self._consumers.get(item, [])
        mine = [at for at in every if set(functions) & set(self.fed[at].functions)] or every
        if mine:
            return np.asarray(~self.dead[:, mine].all(axis=1))
        columns = self._of_item.get(item)
        if not columns:
            return np.ones(len(self.dead), bool)
        return np.asarray(self._swept.node_v[:, columns].max(axis=1) >= RESET_V.value)


def _least_v(one: Consumer) -> float:
    """The least that a consumer works on, V; what is only rated goes on to four fifths, from memory."""
    if one.least_v is None:
        return RESET_V.value
    return min(one.least_v, one.least_v if one.resets else 0.8 * one.least_v)
