"""The routes of the leads: along lanes, through the openings that they name, and how long that is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from hardstand.engines.harness.bundles import passages, stretches
from hardstand.engines.harness.exits import exits_of
from hardstand.engines.harness.fans import Exit
from hardstand.engines.harness.lane_runs import Place
from hardstand.engines.harness.links import THROUGH_MM
from hardstand.engines.harness.model import Netlist, Route, Routes, Supply
from hardstand.engines.harness.nearness import nearness
from hardstand.engines.harness.route_figures import route_figures
from hardstand.engines.harness.routing_nets import RoutingNet, lane_runs, nets_of, way_of
from hardstand.engines.harness.searches import Way
from hardstand.engines.harness.separation import HIGH_A
from hardstand.engines.kept import Kept


def routes(slices: Any, earlier: Any, kept: Kept | None = None) -> Routes:
    """The way of every lead with two placed ends; slices: items, trays, holes, sections, keep-outs.

    Assumes that leads may run wherever a lane is, that a bay may be left anywhere through its wall,
    and that outside every bay (in a wing) they run straight, for nothing is described there.
    """
    net: Netlist = earlier["harness.netlist"]
    supply: Supply = earlier["harness.supply"]
    kept = kept or Kept()
    exits = exits_of(net, slices.items, slices.sections, kept)
    rows = [one for one in net.leads.values()
            if not one.row.direct and all(end in exits for end in one.ends)]  # fmt: skip
    runs = lane_runs(slices, kept)
    high = {one.id for one in rows if supply.lasting_a.get(one.id, 0.0) >= HIGH_A}
    nets = nets_of(slices, runs, exits, {
        kind: [one for one in rows if (one.id in high) == kind]
        for kind in sorted({one.id in high for one in rows})
    }, kept)  # fmt: skip
    ways = {one.id: way_of(nets[one.id in high], one, one.row.via) for one in rows}
    laid = {lead: way for lead, way in ways.items() if way is not None}
    made = kept.each("routes", {
        lead: _content(net, nets[lead in high], exits, lead, way) for lead, way in laid.items()
    }, _route)  # fmt: skip
    places = next(iter(nets.values())).graph.places if nets else ()
    return Routes(
        made, stretches(net, places, {lead: way.points for lead, way in laid.items()}, runs.lanes.names),
        passages(net, slices.holes, {lead: one.holes for lead, one in made.items()}),
        nearness(net, nets, high, made, slices.limits, kept), route_figures(net, made, slices.items, kept),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Laid:
    """All that a route is made of: its way's places, its ports and their exits, and openings, mm."""

    lead: str
    places: tuple[Place, ...]
    ports: tuple[Place, ...]
    exits: tuple[Exit, ...]
    holes: tuple[str, ...]
    through: bool


def _content(net: Netlist, here: RoutingNet, exits: Mapping[str, Exit], lead: str, way: Way) -> _Laid:
    ends = net.leads[lead].ends
    steps = list(zip(way.points, way.points[1:], strict=False))
    openings = here.lanes.through
    holes = dict.fromkeys(openings[step] for step in ((min(one), max(one)) for one in steps)
                          if step in openings)  # fmt: skip
    return _Laid(
        lead, tuple(here.graph.places[k] for k in way.points),
        tuple(net.ports[end].at_mm or exits[end].at for end in ends),
        tuple(exits[end] for end in ends), tuple(holes),
        way.cost > THROUGH_MM and any(here.graph.blocked(*step) for step in steps),
    )  # fmt: skip


def _route(laid: _Laid) -> Route:
    points = laid.ports[0], *laid.places, laid.ports[1]
    length = float(np.linalg.norm(np.diff(np.array(points), axis=0), axis=1).sum())
    overhang = sum(float(np.linalg.norm(np.subtract(port, one.at)))
                   for port, one in zip(laid.ports, laid.exits, strict=True))  # fmt: skip
    return Route(laid.lead, points, laid.holes, length, not all(one.inside for one in laid.exits),
                 laid.through, overhang)  # fmt: skip
