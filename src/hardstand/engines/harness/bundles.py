"""Bundles: which leads run together on which stretch of lane, how thick they are, how full holes get."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Mapping, Sequence

from hardstand.description.places import Hole
from hardstand.engines.harness.lane_runs import Place
from hardstand.engines.harness.model import Netlist, Passage, Stretch
from hardstand.standards.wire import outside_diameter_mm

BUNDLE = 1.2  # a tied bundle over the root of the sum of its wires' squares: value from memory
USUAL_AWG = 22  # of a lead whose wire is not described: a servo lead


def wires_mm(net: Netlist, leads: Iterable[str]) -> list[float]:
    """The outside diameter of every wire of some leads, mm; gauge 22 where none is described."""
    found: list[float] = []
    for lead in leads:
        row, count = net.leads[lead].row, len(net.leads[lead].conductors)
        if row.awg is None and row.area_mm2 is not None:
            from hardstand.standards.wire_insulation import insulated_diameter_mm

            wide = insulated_diameter_mm(row.area_mm2)
        else:
            wide = outside_diameter_mm(USUAL_AWG if row.awg is None else row.awg)
        found += [wide] * (row.conductors or count or 1)
    return found


def bundle_mm(wires: Sequence[float]) -> float:
    """Diameter of a tied bundle of round wires, mm; a single wire is as thick as it is.

    >>> round(bundle_mm([1.65] * 9), 2), bundle_mm([2.0]), bundle_mm([])
    (5.94, 2.0, 0.0)

    Source: common practice, value from memory; two wires are as wide as both side by side.
    """
    thickest = sum(sorted(wires)[-2:])
    return max(BUNDLE * math.sqrt(sum(one * one for one in wires)) if len(wires) > 1 else 0.0, thickest)


def stretches(
    net: Netlist, points: Sequence[Place], ways: Mapping[str, tuple[int, ...]], names: Sequence[str]
) -> tuple[Stretch, ...]:
    """Every stretch on which two leads or more run together; runs of the same leads are one stretch."""
    sharing: dict[tuple[int, int], list[str]] = {}
    for lead, way in ways.items():
        for a, b in itertools.pairwise(way):
            here = sharing.setdefault((min(a, b), max(a, b)), [])
            if lead not in here:
                here.append(lead)
    groups: dict[tuple[str, ...], list[tuple[int, int]]] = {}
    for run, names_there in sharing.items():
        if len(names_there) > 1:
            groups.setdefault(tuple(names_there), []).append(run)
    found = []
    for together, runs in groups.items():
        for chain in _chains(runs):
            wires = wires_mm(net, together)
            ends = [points[k] for k in (chain[0], chain[-1])]
            long = sum(math.dist(points[a], points[b]) for a, b in itertools.pairwise(chain))
            lane = next((names[k] for k in chain if k < len(names)), "")
            found.append(Stretch(lane, ends[0], ends[1], long, together, len(wires), bundle_mm(wires)))
    return tuple(sorted(found, key=lambda one: -one.bundle_mm))


def _chains(runs: Iterable[tuple[int, int]]) -> list[list[int]]:
    """Runs joined end to end into chains of points."""
    left = list(runs)
    chains: list[list[int]] = []
    while left:
        chain = list(left.pop(0))
        grown = True
        while grown:
            grown = False
            for run in left:
                for one, other in (run, run[::-1]):
                    if chain[-1] == one or chain[0] == one:
                        chain = [*chain, other] if chain[-1] == one else [other, *chain]
                        left.remove(run)
                        grown = True
                        break
                if grown:
                    break
        chains.append(chain)
    return chains


def passages(
    net: Netlist, holes: Iterable[Hole], through: Mapping[str, tuple[str, ...]]
) -> tuple[Passage, ...]:
    """Every opening that a route goes through; `through` are the openings of each lead."""
    from shapely import LineString, Polygon

    found = []
    for hole in holes:
        leads = tuple(lead for lead, own in through.items() if hole.id in own)
        if not leads:
            continue
        if hole.diameter_mm is not None:
            area = math.pi / 4.0 * hole.diameter_mm**2
        elif hole.width_mm is not None and hole.from_mm is not None and hole.to_mm is not None:
            along = LineString([hole.from_mm, hole.to_mm]).length
            area = along * hole.width_mm + math.pi / 4.0 * hole.width_mm**2
        else:
            area = Polygon(hole.outline_mm or ()).area
        wires = wires_mm(net, leads)
        copper = math.pi / 4.0 * sum(one * one for one in wires)
        found.append(Passage(hole.id, leads, len(wires), bundle_mm(wires), 100.0 * copper / area))
    return tuple(found)
