"""Which routes come nearer to hot parts, to what moves or to aerials than their limits."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping

from hardstand.engines.harness.model import HarnessLead, Nearness, Netlist, Route
from hardstand.engines.harness.routing_nets import RoutingNet, way_of
from hardstand.engines.harness.separation import LIMIT_OF, Near, nearest, span
from hardstand.engines.kept import Kept
from hardstand.findings import Limit

PLACE_U_MM = 2.5  # how well a tied lead keeps to its lane; common practice, no source


def nearness(
    net: Netlist, nets: Mapping[bool, RoutingNet], high: Container[str], made: Mapping[str, Route],
    limits: Mapping[str, Limit], kept: Kept,
) -> tuple[Nearness, ...]:  # fmt: skip
    """What routes come nearer to than its limit; in the open, where nothing is described, nothing."""
    inside = {lead: one.points_mm for lead, one in made.items() if not one.outside}
    spans = kept.each("spans", inside, span)
    beside = {lead: (inside[lead], nets[lead in high].hazards.beside(one)) for lead, one in spans.items()}
    found = kept.each("nearest", {lead: one for lead, one in beside.items() if one[1]},
                      lambda one: nearest(*one))  # fmt: skip
    return tuple(one for lead, near in found.items()
                 for one in _near(nets[lead in high], limits, net.leads[lead], made[lead], near))  # fmt: skip


def _near(
    here: RoutingNet, limits: Mapping[str, Limit], lead: HarnessLead, route: Route, near: Iterable[Near]
) -> list[Nearness]:  # fmt: skip
    own = {end.partition(".")[0] for end in lead.ends}
    close = [one for one in near if one[1] not in own
             and one[3] + 2.0 * PLACE_U_MM < (limits[LIMIT_OF[one[0]]].low or 0.0)]  # fmt: skip
    if not close:
        return []
    free = way_of(here, lead, ()) if lead.row.via else None
    clear = set()
    if free is not None:
        points = route.points_mm[0], *(here.graph.places[k] for k in free.points), route.points_mm[-1]
        clear = {other for hazard, other, _, far in nearest(points, here.hazards.solids)
                 if far - 2.0 * PLACE_U_MM >= (limits[LIMIT_OF[hazard]].low or 0.0)}  # fmt: skip
    return [Nearness(lead.id, hazard, other, name, far, PLACE_U_MM, LIMIT_OF[hazard],  # type: ignore[arg-type]
                     lead.row.via if other in clear else ()) for hazard, other, name, far in close]  # fmt: skip
