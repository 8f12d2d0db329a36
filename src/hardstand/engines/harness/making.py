"""What to cut, to buy and to plug: every lead as it is made, adapters, and the bill of material."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from hardstand.engines.harness.lead_stock import standard_length_mm
from hardstand.engines.harness.model import (
    Adapter,
    BillLine,
    ChannelPlan,
    HarnessLead,
    Making,
    Makings,
    Netlist,
    Routes,
)
from hardstand.engines.harness.rules_plugs import OPPOSITE, plug, same_class

CUT_STEP_MM = 5.0  # what is cut is rounded up to this


def makings(slices: Any, earlier: Any) -> Makings:
    """Every lead that is no plain plug pair; the allowance is the least of `harness.routed-spare`."""
    net: Netlist = earlier["harness.netlist"]
    plan: ChannelPlan = earlier["harness.channels"]
    routes: Routes = earlier["harness.routes"]
    allowance = slices.limits["harness.routed-spare"].low or 0.0
    rows = [one for one in net.leads.values() if not one.row.direct]
    made = tuple(_made(net, plan, routes, one, allowance) for one in rows)
    adapters = tuple(found for one in rows for found in _adapters(net, one))
    return Makings(made, adapters, tuple(_bill(net, made, adapters)))


def _made(
    net: Netlist, plan: ChannelPlan, routes: Routes, lead: HarnessLead, allowance_mm: float
) -> Making:
    route = routes.routes.get(lead.id)
    needed = None
    if route is not None:
        flying = sum(net.ports[end].flying_mm for end in lead.ends)
        needed = max(route.length_mm + allowance_mm - flying, 0.0)
    cut = lead.length_mm
    if cut is None and needed is not None:
        cut = CUT_STEP_MM * math.ceil(needed / CUT_STEP_MM)
    plugs = tuple(_plug_of(net, lead, side) for side in (0, 1))
    return Making(
        lead.id, lead.row.label or lead.id, _function(net, plan, lead), lead.ends, _wire(lead),
        lead.row.conductors or len(lead.conductors), route.length_mm if route else None, needed, cut,
        None if needed is None else standard_length_mm(needed), (plugs[0], plugs[1]),
    )  # fmt: skip


def _wire(lead: HarnessLead) -> str:
    if lead.row.awg is not None:
        return f"gauge {lead.row.awg}"
    return "" if lead.area_mm2 is None else f"{lead.area_mm2:g} mm²"


def _function(net: Netlist, plan: ChannelPlan, lead: HarnessLead) -> str:
    """What a lead is for: the channels that pass it, else what it ends at, in the builder's names."""
    channels = dict.fromkeys(one.name for one in plan.channels if lead.id in one.leads)
    if channels:
        return ", ".join(one.replace("-", " ") for one in channels)
    port = net.ports[lead.ends[1]]
    box = net.boxes.get(port.item)
    far = box.name if box is not None else lead.row.to.replace("-", " ")
    kind = {"power": "supply of", "motor": "motor of"}.get(port.kind, "signal to")
    return f"{kind} {far}"


def _plug_of(net: Netlist, lead: HarnessLead, side: int) -> str:
    """The plug at one end: its class, and the gender that fits its port; empty where nothing is known."""
    port = net.ports[lead.ends[side]]
    own, gender, _ = plug(lead, side)
    gender = gender or (OPPOSITE.get(port.gender) if port.gender else None)
    name = own or port.connector
    return f"{name}, {gender}" if name and gender and gender != "none" else name


def _adapters(net: Netlist, lead: HarnessLead) -> Iterator[Adapter]:
    for side, end in enumerate(lead.ends):
        own, _, _ = plug(lead, side)
        port = net.ports[end]
        if own and port.connector and not same_class(own, port.connector):
            yield Adapter(lead.id, end, own, port.connector)


def _bill(net: Netlist, made: tuple[Making, ...], adapters: tuple[Adapter, ...]) -> Iterator[BillLine]:
    wire: dict[str, tuple[float, list[str]]] = {}
    plugs: dict[str, list[str]] = {}
    taken: set[tuple[str, int]] = set()
    for one in made:
        row = net.leads[one.lead].row
        shared = row.branch_of is not None
        if one.wire and one.cut_mm is not None:
            metres, leads = wire.get(one.wire, (0.0, []))
            own = max(one.cut_mm - row.branch_after_mm * shared, 0.0)
            wire[one.wire] = metres + one.conductors * own / 1000.0, [*leads, one.lead]
        for side, plug_name in list(enumerate(one.plugs))[1 if shared else 0 :]:
            if plug_name and _first_in_plug(net, one.lead, one.ends[side], taken):
                plugs.setdefault(plug_name, []).append(one.lead)
    for name, (metres, leads) in sorted(wire.items()):
        yield BillLine(f"wire, {name}", math.ceil(metres * 10.0) / 10.0, "m", tuple(leads))
    for name, leads in sorted(plugs.items()):
        yield BillLine(f"plug, {name}", float(len(leads)), "pieces", tuple(dict.fromkeys(leads)))
    for found in adapters:
        yield BillLine(f"adapter, {found.plug} to {found.port}", 1.0, "pieces", (found.lead,))
    if made:
        yield BillLine("label", 2.0 * len(made), "pieces", ())


def _first_in_plug(net: Netlist, lead: str, end: str, taken: set[tuple[str, int]]) -> bool:
    """Whether a lead's plug is not counted yet: the circuits on one side of a joint share one."""
    if net.ports[end].where != "joint":
        return True
    half = end.partition(".")[0], net.at[end].index(lead)
    new = half not in taken
    taken.add(half)
    return new
