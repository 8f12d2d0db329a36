"""The harness as plain data: the plan of channels, the leads, and who is fed by what."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hardstand.asbuilt import AsBuilt
    from hardstand.assessment import Assessment
    from hardstand.engines.harness.model import (
        ChannelPlan,
        HarnessLead,
        Lengths,
        Netlist,
        PlannedChannel,
        Routes,
        Supply,
    )
    from hardstand.figures import FigureSet


def harness_form(assessment: Assessment, asbuilt: AsBuilt) -> dict[str, Any]:
    """Channels in the order of their numbers, leads in that of the file, supplies by item.

    Of a lead, `lasting_a` and `stall_a` are the sums of what it feeds, `wire_load` and `spare` figures;
    null where a lead carries no power or the figure can't be had.
    """
    del asbuilt
    results = assessment.results
    net: Netlist = results["harness.netlist"]
    supply: Supply = results["harness.supply"]
    plan: ChannelPlan = results["harness.channels"]
    lengths: Lengths = results["harness.lengths"]
    routes: Routes = results["harness.routes"]
    last = 1_000  # those without a number come after all the others
    return {
        "channels": [_channel(one) for one in sorted(
            plan.channels, key=lambda row: (last if row.number is None else row.number, row.id))],
        "leads": [_lead(one, supply, lengths, routes) for one in net.leads.values()],
        "supplies": _supplies(net, supply),
        "bundles": _bundles(routes), "openings": _openings(routes),
        "single_failures": [{"id": name, "takes": sorted(axes)}
                            for name, axes in sorted(plan.takes.items())],
    }  # fmt: skip


def _channel(one: PlannedChannel) -> dict[str, Any]:
    return {
        "id": one.id, "number": one.number, "name": one.name, "function": list(one.functions),
        "side": one.side, "receivers": list(one.receivers), "at": list(one.outputs),
        "leads": list(one.leads), "reaches": list(one.reaches), "drives": list(one.drives),
    }  # fmt: skip


def _lead(one: HarnessLead, supply: Supply, lengths: Lengths, routes: Routes) -> dict[str, Any]:
    return {
        "id": one.id, "label": one.row.label or one.id, "from": one.row.from_, "to": one.row.to,
        "length_mm": one.length_mm, "straight_mm": lengths.straight_mm.get(one.id),
        "area_mm2": one.area_mm2, "awg": one.row.awg, "conductors": len(one.conductors),
        "connector": one.row.connector, "branch_of": one.row.branch_of, "cable": one.row.cable,
        "lasting_a": supply.lasting_a.get(one.id), "stall_a": supply.stall_a.get(one.id),
        "wire_load": _figure(supply.figures, f"harness.wire-load@{one.id}"),
        "spare": _figure(lengths.figures, f"harness.spare-length@{one.id}"),
        "routed": _figure(routes.figures, f"harness.routed-length@{one.id}"),
        "routed_spare": _figure(routes.figures, f"harness.routed-spare@{one.id}"),
        "route": _route(routes, one.id),
    }  # fmt: skip


def _route(routes: Routes, lead: str) -> dict[str, Any] | None:
    """The way of a lead, mm, and the openings it goes through; null without two placed ends."""
    one = routes.routes.get(lead)
    if one is None:
        return None
    return {"points_mm": [[round(at, 1) for at in point] for point in one.points_mm],
            "holes": list(one.holes), "outside_bays": one.outside, "through_something": one.through}


def _bundles(routes: Routes) -> list[dict[str, Any]]:
    """The stretches on which leads run together, thickest first, mm."""
    return [{"lane": one.lane, "from_mm": list(one.from_mm), "to_mm": list(one.to_mm),
             "length_mm": one.length_mm, "leads": list(one.leads), "wires": one.wires,
             "bundle_mm": one.bundle_mm} for one in routes.stretches]  # fmt: skip


def _openings(routes: Routes) -> list[dict[str, Any]]:
    """What goes through each opening, and how much of its area that takes."""
    return [{"hole": one.hole, "leads": list(one.leads), "wires": one.wires,
             "bundle_mm": one.bundle_mm, "fill_pct": one.fill_pct} for one in routes.passages]  # fmt: skip


def _figure(figures: FigureSet, address: str) -> dict[str, Any] | None:
    return figures.figure(address).as_json() if address in figures.addresses else None


def _supplies(net: Netlist, supply: Supply) -> list[dict[str, Any]]:
    """Every item that is fed: its packs and the voltage it gets, V."""
    rows = []
    for domain, packs in supply.packs.items():
        item = domain.partition(".")[0]
        volts = supply.volts.get(domain)
        if item in net.boxes and item not in packs:
            rows.append({"domain": domain, "item": item, "packs": list(packs),
                         "usual_v": volts[0] if volts else None,
                         "highest_v": volts[1] if volts else None})  # fmt: skip
    return sorted(rows, key=lambda one: one["domain"])
