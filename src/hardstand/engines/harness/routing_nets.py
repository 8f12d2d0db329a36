"""What routing works with: a graph for the leads of high current, and one for all others."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.engines.harness.fans import Exit
from hardstand.engines.harness.lane_graph import LaneGraph, lane_graph
from hardstand.engines.harness.lane_points import Lanes
from hardstand.engines.harness.lane_runs import LaneRuns
from hardstand.engines.harness.lanes import lanes
from hardstand.engines.harness.model import HarnessLead
from hardstand.engines.harness.searches import Way
from hardstand.engines.harness.separation import Hazards, aerial_solids, kept_mm
from hardstand.engines.harness.solids import solids
from hardstand.engines.harness.ways import Ways
from hardstand.engines.kept import Kept


@dataclass(frozen=True, eq=False)
class RoutingNet:
    """The graph for one kind of lead, its ways, and what it keeps from."""

    lanes: Lanes
    graph: LaneGraph
    ways: Ways
    hazards: Hazards


def lane_runs(slices: Any, kept: Kept) -> LaneRuns:
    """All lanes with the runs between their points; slices: trays, holes, sections, keep-outs."""
    walls_in = tuple(one for one in slices.keep_outs if one.kind == "structure")
    content = tuple(slices.trays), tuple(slices.holes), tuple(slices.sections), walls_in
    return kept.each("lanes", {"": content}, lambda one: LaneRuns(lanes(*one), one[0]))[""]


def nets_of(
    slices: Any, runs: LaneRuns, exits: Mapping[str, Exit],
    kinds: Mapping[bool, Sequence[HarnessLead]], kept: Kept,
) -> dict[bool, RoutingNet]:  # fmt: skip
    """For the leads of high current, which keep from aerials, and for all others."""
    usual, kept_from = solids(slices.items, slices.keep_outs, kept), kept_mm(slices.limits)
    things = {kind: (*usual, *(aerial_solids(slices.antennas) if kind else ())) for kind in kinds}
    graphs = {
        kind: lane_graph(runs, list(exits.values()), [one.ends for one in rows], things[kind],
                         kept_from, kept, f"high current {kind}")
        for kind, rows in kinds.items()
    }  # fmt: skip
    ways = kept.each("ways", {str(kind): (kind, runs, tuple(exits)) for kind in kinds},
                     lambda one: Ways(graphs[one[0]]))  # fmt: skip
    found = {}
    for kind, graph in graphs.items():
        ways[str(kind)].renew(graph)
        found[kind] = RoutingNet(runs.lanes, graph, ways[str(kind)], Hazards(things[kind], slices.limits))
    return found


def way_of(here: RoutingNet, lead: HarnessLead, via: Sequence[str]) -> Way | None:
    """The cheapest way of a lead through openings in their order; those not described are left out."""
    openings = [here.lanes.hole_points[hole] for hole in via if hole in here.lanes.hole_points]
    start, goal = (here.graph.exits[end] for end in lead.ends)
    return here.ways.by(start, goal, openings)
