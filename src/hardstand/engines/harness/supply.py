"""The supply as a result: feeds, packs, voltages, and how far wires, plugs and rails are loaded."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from hardstand.engines.harness.demand import Demand, Sum, amperes, demand
from hardstand.engines.harness.feeding import feeds, packs_of, power_leads, power_ways
from hardstand.engines.harness.model import Netlist, Supply
from hardstand.engines.harness.voltages import voltages
from hardstand.figures import FigureSet

WIRE_A_MM2 = 10.0  # lasting, short silicone leads in moving air; common practice, no source
Share = tuple[str, str, Sum, float]  # address, label, sum of currents, what may be carried (A)


def supply(slices: Any, earlier: Any) -> Supply:
    """Who feeds whom and with how much, from the netlist alone."""
    del slices
    net: Netlist = earlier["harness.circuit"]
    found = feeds(net, power_ways(net))
    lasting, short = demand(net, found, "moving"), demand(net, found, "stall")
    return Supply(
        found,
        packs_of(net, found),
        voltages(net, found),
        {lead: amperes(total, lasting.inputs) for lead, total in lasting.leads.items()},
        {lead: amperes(total, short.inputs) for lead, total in short.leads.items()},
        _figures(lasting, short, [*_wires(net, lasting), *_plugs(net, lasting, short),
                                  *_rails(net, lasting)]),
        power_leads(net),
    )  # fmt: skip


def _wires(net: Netlist, lasting: Demand) -> Iterator[Share]:
    for lead_id, total in lasting.leads.items():
        area = net.leads[lead_id].area_mm2
        if area is not None and total:
            yield (f"harness.wire-load@{lead_id}", f"lasting current of lead {lead_id}", total,
                   WIRE_A_MM2 * area)


def _plugs(net: Netlist, lasting: Demand, short: Demand) -> Iterator[Share]:
    for word, figure, found in (("lasting", "pin-load", lasting), ("highest", "pin-peak", short)):
        for end, total in found.ports.items():
            may = net.ports[end].current_a
            if may and total:
                yield f"harness.{figure}@{end}", f"{word} current of a pin of {end}", total, may


def _rails(net: Netlist, lasting: Demand) -> Iterator[Share]:
    for domain, total in lasting.domains.items():
        item, _, rail = domain.partition(".")
        box = net.boxes.get(item)
        gives = any(net.ports[end].power == "gives" for end in net.domains[domain])
        if box is not None and box.part.rated_a and gives and total:
            yield (f"harness.rail-load@{domain}", f"lasting current of {item}, {rail}", total,
                   box.part.rated_a)


def _figures(lasting: Demand, short: Demand, shares: list[Share]) -> FigureSet:
    inputs = {**lasting.inputs, **short.inputs}
    column = {address: place for place, address in enumerate(inputs)}
    slope = np.zeros((len(shares), len(inputs)))
    for row, (_, _, total, may) in enumerate(shares):
        for address, count in total.items():
            slope[row, column[address]] = 100.0 * count / may
    values = slope @ np.array([one.value for one in inputs.values()]) if inputs else (
        np.zeros(len(shares)))  # fmt: skip
    return FigureSet(
        tuple(one[0] for one in shares), values, ("pct",) * len(shares), tuple(inputs.values()),
        slope, None, tuple(one[1] for one in shares),
        method="sum of the declared currents downstream, as a share of what may be carried",
    )  # fmt: skip
