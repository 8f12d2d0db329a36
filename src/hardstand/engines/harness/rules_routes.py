"""What the routes say: leads too short for their way, and ways too near what burns, moves or hears."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from hardstand.engines.harness.lead_stock import STANDARD_MM, standard_length_mm
from hardstand.engines.harness.model import HarnessLead, Lengths, Nearness, Netlist, Routes
from hardstand.engines.harness.saying import change, listed
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit, Remedy, judge

_WHY = {
    "hot": "heat lets its insulation go",
    "moving": "what moves catches it, or chafes it through",
    "aerial": "its current deafens the receiver",
}


def route_findings(
    net: Netlist, routes: Routes, lengths: Lengths, limits: Mapping[str, Limit]
) -> Iterator[Finding]:
    """Leads that are surely too short for their computed way, and ways surely too near a hazard.

    Where the straight line is too long already, that is said instead. Between the limits a computed
    way decides nothing, for the builder may lay it another way: then nothing is said.
    """
    limit = limits["harness.routed-spare"]
    short = Limit(limit.id, limit.unit, low=limit.low)
    figures = routes.figures
    for address, value, u in zip(figures.addresses, figures.values, figures.u, strict=True):
        code, _, lead = address.partition("@")
        if code != limit.id or judge(float(value), float(u), short) != "outside":
            continue
        if not _told(lengths, lead, limits):
            yield _short(net.leads[lead], figures.figure(address), limit, routes)
    for one in routes.near:
        yield _near(net, one, limits[one.limit_id])


def _told(lengths: Lengths, lead: str, limits: Mapping[str, Limit]) -> bool:
    address = f"harness.spare-length@{lead}"
    if address not in lengths.figures.addresses:
        return False
    figure = lengths.figures.figure(address)
    return judge(figure.value, figure.u, limits["harness.spare-length"]) == "outside"


def _short(lead: HarnessLead, figure: Figure, limit: Limit, routes: Routes) -> Finding:
    route = routes.routes[lead.id]
    needed = (lead.length_mm or 0.0) + (limit.low or 0.0) - figure.value
    new = standard_length_mm(needed) or STANDARD_MM[-1]
    through = f" through {listed(route.holes)}" if route.holes else ""
    text = (f"{lead.id} has {figure.value:.0f} mm (± {2.0 * figure.u:.0f}) to spare over its way of "
            f"{route.length_mm:.0f} mm{through}: there is no loop left to plug it by.")
    remedy = Remedy(f"make it {new:.0f} mm", (change(lead.row, "length_mm", float(new)),))
    return Finding(limit.id, "caution", (lead.id,), text, figure, limit, remedy)


def _near(net: Netlist, one: Nearness, limit: Limit) -> Finding:
    figure = Figure(f"harness.route-{one.hazard}@{one.lead}", one.distance_mm, "mm", one.u_mm, "computed",
                    (), f"distance of the way of lead {one.lead} to {one.other}",
                    "least distance of the computed way, at points 5 mm apart")  # fmt: skip
    text = (f"The way of {one.lead} comes to {one.distance_mm:.0f} mm of {one.name} (needs "
            f"{limit.low or 0.0:.0f} mm): {_WHY[one.hazard]}.")  # fmt: skip
    remedy = Remedy(f"tie it down {limit.low or 0.0:.0f} mm away, or give it a sleeve that stands it")
    if one.clear_without:
        remedy = Remedy(f"do not lead it through {listed(one.clear_without)}: then it keeps clear",
                        (change(net.leads[one.lead].row, "via", None),))  # fmt: skip
    return Finding(f"harness.route-{one.hazard}", "caution", (one.lead, one.other), text, figure, limit, remedy)
