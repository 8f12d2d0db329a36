"""Node: whether the leads that are routed through an opening of a tray go through it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.description.items import Lead
from hardstand.description.places import Hole
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.model import Check, PassThrough, PassThroughs
from hardstand.engines.fit.tray_solids import opening
from hardstand.figures import Input
from hardstand.standards import tolerances, wire

BUNDLE = 1.25  # a tied bundle is this much thicker than the root of the sum of its wires' squares
USUAL_WIRES, USUAL_AWG = 3, 22  # of a lead whose connector or gauge is not described: a servo lead
FILL_PCT = 40.0  # of the opening, by area
Counted = tuple[Lead, int, float]  # a lead, how many wires it has, how thick each is in mm


def bundle_diameter_mm(wires_mm: Sequence[float]) -> float:
    """Diameter of a tied bundle of round wires, in mm.

    Assumptions and validity: wires of one order of thickness, tied by hand: 64 % of the bundle is
    wire; never thinner than the two thickest side by side. `wires_mm` are the outside diameters,
    each wire by itself; none gives 0.

    >>> round(bundle_diameter_mm([1.65] * 9), 2)
    6.19

    Source: common practice is a factor of 1.2; 1.25 is the least that no bundle of 3 or more alike
    can beat (Graham, Lubachevsky, Nurmela, Östergård: Dense packings of congruent circles in a
    circle, Discrete Mathematics 181, 1998, table 1).
    """
    return max(BUNDLE * math.sqrt(sum(one * one for one in wires_mm)), sum(sorted(wires_mm)[-2:]))


def needed_diameter_mm(wires_mm: Sequence[float], fill_pct: float = FILL_PCT) -> float:
    """Diameter of the round opening of which the wires fill a share, in mm.

    `wires_mm` are the outside diameters, `fill_pct` the share of the opening's area in per cent.
    Raises ValueError for a share that is not above 0.

    >>> round(needed_diameter_mm([1.65] * 9), 2)
    7.83

    Source: NFPA 70 (National Electrical Code), chapter 9, table 1: 40 % for more than two wires.
    """
    if fill_pct <= 0.0:
        raise ValueError(f"a fill of {fill_pct:g} % leaves no opening large enough")
    return math.sqrt(sum(one * one for one in wires_mm) * 100.0 / fill_pct)


def wires_of(lead: Lead, poles: Mapping[str, int]) -> int:
    """How many wires a lead has: the poles of the connector at either end, else a servo lead's."""
    found = [poles[end] for end in (lead.from_, lead.to) if end in poles]
    return max(found, default=USUAL_WIRES)


def pass_throughs(slices: Any, earlier: Any) -> PassThroughs:  # noqa: ARG001 a node takes both
    """Every opening that leads name in `via`, with its bundle. slices: holes, leads, items."""
    poles = {f"{item.id}.{port.name}": port.port.poles
             for item in slices.items for port in item.ports if port.port.poles is not None}
    found, rows = Collected("wires as round, by gauge; area of the opening"), list[PassThrough]()
    for hole in slices.holes:
        leads = [lead for lead in slices.leads if hole.id in lead.via]
        if leads:
            counted = [(lead, wires_of(lead, poles), _outside(lead)) for lead in leads]
            rows.append(_row(hole, counted, poles))
            _check(found, hole, counted, rows[-1].needed_mm)
    return PassThroughs(found.figures(), tuple(found.checks), tuple(rows))


def _outside(lead: Lead) -> float:
    return wire.outside_diameter_mm(USUAL_AWG if lead.awg is None else lead.awg)


def _row(hole: Hole, counted: Sequence[Counted], poles: Mapping[str, int]) -> PassThrough:
    wires = [wide for _, count, wide in counted for _ in range(count)]
    assumed = tuple(lead.id for lead, _, _ in counted
                    if lead.awg is None or not {lead.from_, lead.to} & set(poles))
    return PassThrough(hole.id, tuple(lead.id for lead, _, _ in counted), len(wires),
                       bundle_diameter_mm(wires), needed_diameter_mm(wires), FILL_PCT, assumed)


def _check(found: Collected, hole: Hole, counted: Sequence[Counted], needed_mm: float) -> None:
    """How much wider than needed an opening is, as the round one of its area."""
    shape = opening(hole)
    wide, edge = hole.diameter_mm, math.pi * (hole.diameter_mm or 0.0)
    if wide is None:
        wide, edge = math.sqrt(4.0 / math.pi * shape.area), shape.length
    field = next(name for name in ("diameter_mm", "width_mm", "outline_mm")
                 if getattr(hole, name) is not None)
    cut = Input(f"hole.{hole.id}.{field}", hole.diameter_mm or hole.width_mm or 0.0, "mm",
                tolerances.EDGE.fixed / 2.0, "declared", f"hole.{hole.id}.{field}",
                f"class default: {tolerances.EDGE.name}")
    slopes = {_gauge(lead, one): -count * one * 100.0 / FILL_PCT / needed_mm
              for lead, count, one in counted}
    leads = [lead.id for lead, _, _ in counted]
    check = Check("pass-through", "fit.pass-through", (hole.id, *leads), f"fit.pass-through@{hole.id}",
                  (f"{len(leads)} lead{'s' if len(leads) > 1 else ''}",), float(shape.centroid.x))
    found.add(check, wide - needed_mm, f"spare width of the opening {hole.id} for its leads",
              {**slopes, cut: edge / math.pi / wide})


def _gauge(lead: Lead, outside_mm: float) -> Input:
    """The outside of a lead's wires, known by its gauge only."""
    address = f"lead.{lead.id}.awg"
    u_from = f"class default: {wire.OUTSIDE.name}"
    stands_at = "" if lead.awg is None else address
    return Input(address, outside_mm, "mm", wire.OUTSIDE.tolerance(outside_mm) / 2.0, "assumed",
                 stands_at, u_from)
