"""Every single failure over the worst moments: what is lost, what is kept, and who would notice.

A function is lost when nothing that serves it has voltage and a way for its command. Commands on wires
that carry no power are the harness's matter.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import ChannelPlan, Netlist
from hardstand.engines.kept import Kept
from hardstand.engines.power.living import Living
from hardstand.engines.power.model import FailureRow, Failures, PowerNetwork
from hardstand.engines.power.sweep import Sweep, sweep
from hardstand.engines.power.wanted import flying_rails

Bools = NDArray[np.bool_]
OVER_V = 0.1  # more than this above what it stands: common practice
GIVEN_A = 0.01  # a pack that gives less than this gives nothing


def failures(slices: Any, earlier: Any, kept: Kept | None = None) -> Failures | None:
    """Node: the sweep of all single failures; None without a network."""
    power: PowerNetwork | None = earlier["power.network"]
    net: Netlist = earlier["harness.circuit"]
    plan: ChannelPlan = earlier["harness.channels"]
    if power is None:
        return None
    swept = sweep(power, earlier["power.islands"], slices.phases, slices.duties, kept)
    rows = _rows(power, net, plan, swept)
    functions = tuple(dict.fromkeys(name for one in plan.channels for name in one.functions))
    return Failures(rows[0], tuple(rows[1:]), functions, _watched(power, net), swept.most_a,
                    swept.most_at)  # fmt: skip


def _rows(
    power: PowerNetwork, net: Netlist, plan: ChannelPlan, swept: Sweep
) -> list[FailureRow]:
    """One row of the table for each failure, in the order of the sweep."""
    living = Living(power, plan, swept)
    over, out = _over(living, swept), np.abs(swept.pack_a) <= GIVEN_A
    over, out = over & ~over[0], out & ~out[0]
    rail, low_v = _lowest(power, swept)
    lost, less = living.functions_lost()
    items = [one.item for one in living.fed]
    return [
        FailureRow(
            element, _within(power, net, element), kind, rail[row], low_v[row],
            _named(living.functions, lost[row]), _named(living.functions, less[row]),
            tuple(sorted(set(_named(items, living.dead[row])))), _named(items, over[row]),
            _named(power.packs, out[row]), bool(swept.settled[row]),
        )
        for row, (element, kind) in enumerate(swept.failures)
    ]  # fmt: skip


def _named(names: Any, which: Bools) -> tuple[str, ...]:
    return tuple(names[at] for at in np.flatnonzero(which).tolist())


def _within(power: PowerNetwork, net: Netlist, element: str) -> str:
    """The item or lead that an element belongs to."""
    name = element.removesuffix(" path").removesuffix(" plug").removesuffix(" fuse")
    if name in power.paths or element in power.together:
        return power.paths.get(name, name)
    port = net.ports.get(name)
    return port.item or name if port is not None else name


def _over(living: Living, swept: Sweep) -> Bools:
    most = [np.inf if one.most_v is None else one.most_v + OVER_V for one in living.fed]
    return np.asarray(swept.full_v[:, living.columns] > np.array(most))


def _lowest(power: PowerNetwork, swept: Sweep) -> tuple[list[str], list[float]]:
    """The lowest flight rail that lives, by failure; of all where none lives."""
    at = power.network.node_at
    rails = sorted(one for one in flying_rails(power) if one in at)
    if not rails:
        return [""] * len(swept.failures), [0.0] * len(swept.failures)
    columns = [at[one] for one in rails]
    volts, alive = swept.node_v[:, columns], swept.fed[:, columns]
    counts = alive | ~alive.any(axis=1, keepdims=True)
    place = np.where(counts, volts, np.inf).argmin(axis=1)
    return [rails[one] for one in place.tolist()], volts[np.arange(len(place)), place].tolist()


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
