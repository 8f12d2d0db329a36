"""The routes of the leads: along lanes, through the openings that they name, and how long that is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hardstand.engines.harness.bundles import passages, stretches
from hardstand.engines.harness.exits import exits_of
from hardstand.engines.harness.lane_graph import Exit, LaneGraph, lane_graph
from hardstand.engines.harness.lane_points import Lanes
from hardstand.engines.harness.lanes import lanes
from hardstand.engines.harness.model import HarnessLead, Nearness, Netlist, Route, Routes, Supply
from hardstand.engines.harness.route_figures import route_figures
from hardstand.engines.harness.separation import (
    HIGH_A,
    LIMIT_OF,
    aerial_solids,
    kept_mm,
    nearest,
)
from hardstand.engines.harness.solids import Solid, solids
from hardstand.engines.harness.ways import Way, Ways

PLACE_U_MM = 2.5  # how well a tied lead keeps to its lane; common practice, no source


@dataclass(frozen=True, eq=False)
class _Net:
    """What routing works with: the graph for one kind of lead, its ways, and what it keeps from."""

    graph: LaneGraph
    ways: Ways
    hazards: tuple[Solid, ...]
    blocked: frozenset[tuple[int, int]]


def routes(slices: Any, earlier: Any) -> Routes:
    """The way of every lead with two placed ends; slices: items, trays, holes, sections, keep-outs.

    Assumes that leads may run wherever a lane is, that a bay may be left anywhere through its wall,
    and that outside every bay (in a wing) they run straight, for nothing is described there.
    """
    net: Netlist = earlier["harness.netlist"]
    supply: Supply = earlier["harness.supply"]
    exits = exits_of(net, slices.items, slices.sections)
    rows = [one for one in net.leads.values()
            if not one.row.direct and all(end in exits for end in one.ends)]  # fmt: skip
    found = lanes(slices.trays, slices.holes, slices.sections, slices.keep_outs)
    high = {one.id for one in rows if supply.lasting_a.get(one.id, 0.0) >= HIGH_A}
    nets = {}
    for kind in {one.id in high for one in rows}:
        own = [one for one in rows if (one.id in high) == kind]
        nets[kind] = _net(slices, found, exits, own, aerial_solids(slices.antennas) if kind else [])
    made, ways = {}, {}
    near: list[Nearness] = []
    for one in rows:
        here = nets[one.id in high]
        way = _way(here, found, one, one.row.via)
        if way is not None:
            ways[one.id] = way.points
            made[one.id] = _route(net, here, found, exits, one, way)
            near += _near(here, found, slices.limits, one, made[one.id])
    points = next(iter(nets.values())).graph.points if nets else np.zeros((0, 3))
    return Routes(
        made, stretches(net, points, ways, found.names),
        passages(net, slices.holes, {lead: one.holes for lead, one in made.items()}),
        tuple(near), route_figures(net, made, slices.items),
    )  # fmt: skip


def _net(
    slices: Any, found: Lanes, exits: Mapping[str, Exit], rows: Sequence[HarnessLead],
    more: Sequence[Solid],
) -> _Net:  # fmt: skip
    things = (*solids(slices.items, slices.keep_outs), *more)
    graph = lane_graph(found, list(exits.values()), [one.ends for one in rows], things, slices.trays,
                       kept_mm(slices.limits))  # fmt: skip
    sources = [graph.exits[one.ends[0]] for one in rows]
    sources += [k for one in rows for hole in one.row.via for k in found.hole_points.get(hole, ())]
    return _Net(graph, Ways(graph, sources), tuple(one for one in things if one.hazard),
                graph.blocked())


def _way(here: _Net, found: Lanes, lead: HarnessLead, via: Sequence[str]) -> Way | None:
    openings = [found.hole_points[hole] for hole in via if hole in found.hole_points]
    start, goal = (here.graph.exits[end] for end in lead.ends)
    return here.ways.by(start, goal, openings)


def _route(
    net: Netlist, here: _Net, found: Lanes, exits: Mapping[str, Exit], lead: HarnessLead, way: Way
) -> Route:  # fmt: skip
    ports = [net.ports[end].at_mm or exits[end].at for end in lead.ends]
    points = [ports[0], *(tuple(here.graph.points[k].tolist()) for k in way.points), ports[1]]
    steps = list(zip(way.points, way.points[1:], strict=False))
    holes = dict.fromkeys(found.through.get((min(step), max(step)), "") for step in steps)
    length = float(np.linalg.norm(np.diff(np.array(points), axis=0), axis=1).sum())
    overhang = sum(float(np.linalg.norm(np.subtract(port, exits[end].at)))
                   for port, end in zip(ports, lead.ends, strict=True))  # fmt: skip
    return Route(
        lead.id, tuple(points), tuple(one for one in holes if one), length,
        not all(exits[end].inside for end in lead.ends),
        any((min(step), max(step)) in here.blocked for step in steps), overhang,
    )  # fmt: skip


def _near(
    here: _Net, found: Lanes, limits: Mapping[str, Any], lead: HarnessLead, route: Route
) -> list[Nearness]:
    """What a route comes nearer to than its limit; in the open, where nothing is described, nothing."""
    if route.outside:
        return []
    own = {end.partition(".")[0] for end in lead.ends}
    close = [one for one in nearest(np.array(route.points_mm), here.hazards, own)
             if one[3] + 2.0 * PLACE_U_MM < (limits[LIMIT_OF[one[0]]].low or 0.0)]  # fmt: skip
    if not close:
        return []
    free = _way(here, found, lead, ()) if lead.row.via else None
    kept = set()
    if free is not None:
        points = np.array([route.points_mm[0], *here.graph.points[list(free.points)], route.points_mm[-1]])
        kept = {other for hazard, other, _, far in nearest(points, here.hazards, own)
                if far - 2.0 * PLACE_U_MM >= (limits[LIMIT_OF[hazard]].low or 0.0)}  # fmt: skip
    return [Nearness(lead.id, hazard, other, name, far, PLACE_U_MM, LIMIT_OF[hazard],  # type: ignore[arg-type]
                     lead.row.via if other in kept else ()) for hazard, other, name, far in close]  # fmt: skip
