"""Every single failure over the worst moments: what is lost, what is kept, and who would notice.

Solved are the worst moment on worn packs and the busiest minute on full ones, each with every failure
of every element, and with each plug pair parted. A function is lost when nothing that serves it has
voltage and a way for its command. Commands on wires that carry no power are the harness's matter.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.harness.model import ChannelPlan, Netlist, PlannedChannel
from hardstand.engines.power.defaults import RESET_V
from hardstand.engines.power.model import Consumer, FailureRow, Failures, PowerNetwork
from hardstand.engines.power.moments import flying_rails
from hardstand.engines.power.network.failures import Failure, single_failures, with_failures
from hardstand.engines.power.network.model import Solution
from hardstand.engines.power.network.solve import solve
from hardstand.engines.power.states import asked, cases_of, factors

OVER_V = 0.1  # more than this above what it stands: common practice
GIVEN_A = 0.01  # a pack that gives less than this gives nothing


def failures(slices: Any, earlier: Any) -> Failures | None:
    """Node: the sweep of all single failures; None without a network."""
    power: PowerNetwork | None = earlier["power.network"]
    net: Netlist = earlier["harness.netlist"]
    plan: ChannelPlan = earlier["harness.channels"]
    if power is None:
        return None
    these = asked(power, slices.phases, slices.duties)
    every = cases_of(power, these, these.currents.a, factors(power))
    names = [one.name for one in these.moments]
    pick = [names.index("peak"), names.index("warm") if "warm" in names else names.index("rest")]
    moments = every.take(np.array(pick))
    single = single_failures(power.network)
    joints = [(name, Failure(leads[0], "open")) for name, leads in power.together.items()]
    wanted = (None, *single, *(one for _, one in joints))
    swept = with_failures(power.network, moments, wanted)
    for place, (name, _) in enumerate(joints, 1 + len(single)):
        columns = [power.network.element_at[one] for lead in power.together[name]
                   for one in power.of_lead.get(lead, ())]  # fmt: skip
        swept.opened[2 * place : 2 * place + 2, columns] = True
    solution = solve(power.network, swept)
    seen = _Sight(power, net, plan, solution)
    labels: list[tuple[str, str, str]] = [("", "", "")]
    labels += [(one.element, seen.within(one.element), one.kind) for one in single]
    labels += [(name, name, "open") for name, _ in joints]
    rows = [seen.row(at, label) for at, label in enumerate(labels)]
    return Failures(rows[0], tuple(rows[1:]), seen.functions, _watched(power, net))


class _Sight:
    """Reads rows of the table off the solved cases: two cases a failure, worst moment and full packs."""

    def __init__(
        self, power: PowerNetwork, net: Netlist, plan: ChannelPlan, solution: Solution
    ) -> None:
        self.power, self.net, self.plan, self.solution = power, net, plan, solution
        self.functions = tuple(dict.fromkeys(
            name for one in plan.channels for name in one.functions))  # fmt: skip
        at = power.network.node_at
        self.fed = [one for one in power.consumers
                    if any(one.domain in fed for _, fed in power.groups)]  # fmt: skip
        self.columns = np.array([at[one.domain] for one in self.fed], np.intp)
        self.least = np.array([RESET_V.value if one.least_v is None else min(one.least_v, _usual(one))
                               for one in self.fed])  # fmt: skip
        self.most = np.array([np.inf if one.most_v is None else one.most_v for one in self.fed])
        self.of_item: dict[str, list[int]] = {}
        for name, column in at.items():
            self.of_item.setdefault(name.partition(".")[0], []).append(column)
        self.packs = [power.network.element_at[one] for one in power.packs]
        self.rails = [one for one in flying_rails(power) if one in at]
        self.base_out = np.abs(solution.current_a[0, self.packs]) <= GIVEN_A
        self.base_over = self._over(0)

    def within(self, element: str) -> str:
        """The item or lead that an element belongs to."""
        name = element.removesuffix(" path").removesuffix(" plug").removesuffix(" fuse")
        if name in self.power.paths:
            return self.power.paths[name]
        port = self.net.ports.get(name)
        return port.item or name if port is not None else name

    def _over(self, at: int) -> np.ndarray[Any, np.dtype[np.bool_]]:
        return np.asarray(self.solution.node_v[2 * at + 1, self.columns] > self.most + OVER_V)

    def row(self, at: int, label: tuple[str, str, str]) -> FailureRow:
        """One failure's row."""
        element, within, kind = label
        volts = self.solution.node_with_ground[2 * at]
        shaky = volts[self.columns] < self.least
        off = element if kind == "open" else ""
        dead = [one for one, low in zip(self.fed, shaky, strict=True) if low or one.end == off]
        gone = {element} if kind == "open" else set()
        if element in self.power.together and kind == "open":
            gone |= set(self.power.together[element])
        kept: dict[str, list[bool]] = {name: [] for name in self.functions}
        for one in self.plan.channels:
            works = self._works(one, volts, dead, gone)
            for name in one.functions:
                kept[name].append(works)
        less_by_load = {name for one in dead for name in one.functions}
        lost = tuple(name for name, all_of in kept.items() if not any(all_of))
        less = tuple(name for name, all_of in kept.items() if name not in lost
                     and (not all(all_of) or name in less_by_load))  # fmt: skip
        over = self._over(at) & ~self.base_over
        out = (np.abs(self.solution.current_a[2 * at, self.packs]) <= GIVEN_A) & ~self.base_out
        rail, low_v = self._lowest(volts, self.solution.fed[2 * at])
        return FailureRow(
            element, within, kind, rail, low_v, lost, less, tuple(sorted({one.item for one in dead})),
            tuple(one.item for one, high in zip(self.fed, over, strict=True) if high),
            tuple(one for one, none in zip(self.power.packs, out, strict=True) if none),
            bool(self.solution.settled[2 * at : 2 * at + 2].all()),
        )  # fmt: skip

    def _lowest(self, volts: Any, fed: Any) -> tuple[str, float]:
        at = self.power.network.node_at
        living = [one for one in self.rails if fed[at[one]]] or self.rails
        found = sorted((float(volts[at[one]]), one) for one in living)
        return (found[0][1], found[0][0]) if found else ("", 0.0)

    def _works(
        self, one: PlannedChannel, volts: Any, dead: list[Consumer], gone: set[str]
    ) -> bool:
        """Whether a channel's command comes from a living receiver over living copper to its items."""
        if gone & set(one.leads):
            return False
        sources = {end.partition(".")[0] for end in one.outputs}
        served = one.reaches or one.drives
        return (
            (not one.receivers or any(self._lives(name, volts, dead) for name in one.receivers))
            and all(self._lives(name, volts, dead) for name in sources)
            and (not served
                 or any(self._lives(name, volts, dead, one.functions) for name in served))
        )  # fmt: skip

    def _lives(
        self, item: str, volts: Any, dead: list[Consumer], functions: tuple[str, ...] = ()
    ) -> bool:
        """Whether what an item has for these functions, or has at all, has enough voltage."""
        mine = [one for one in self.fed if one.item == item]
        mine = [one for one in mine if set(functions) & set(one.functions)] or mine
        if mine:
            return any(one not in dead for one in mine)
        columns = self.of_item.get(item)
        return not columns or float(volts[columns].max()) >= RESET_V.value


def _usual(one: Any) -> float:
    """A rating is no reset: what is only rated goes on to work at four fifths of it, from memory."""
    return float(one.least_v) if one.resets else 0.8 * float(one.least_v)


def _watched(power: PowerNetwork, net: Netlist) -> dict[str, str]:
    """What shows the loss of a pack: a panel or display to be seen, with a lead to the rail's unit."""
    found = {}
    for rail in flying_rails(power):
        if not any(rail in fed and len(packs) > 1 for packs, fed in power.groups):
            continue
        unit = rail.partition(".")[0]
        near = {net.ports[far].item for end in net.ports if net.ports[end].item == unit
                for far in net.mates(end)}  # fmt: skip
        found[rail] = next((name for name in sorted(near) if name in net.boxes
                            and net.boxes[name].part.needs_view), "")  # fmt: skip
    return found
