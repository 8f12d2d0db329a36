"""The leads that pull on items: by port, by way of holes, to points that do not move."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.asbuilt.value import AsBuilt
from hardstand.description.items import Lead as LeadRow
from hardstand.description.places import Hole
from hardstand.engines.fit.high_current import HIGH_A, lead_current_a
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.layout.problem import ItemPort, Lead, Point, Port
from hardstand.engines.fit.placement.grid import SHIFT_MM
from hardstand.engines.fit.placement.parts import Shape
from hardstand.engines.fit.placement.prices import (
    HEAVY_AWG,
    LEAD_WEIGHTS,
    POWER_AWG,
    points,
)
from hardstand.engines.fit.plug_zones import port_point_mm

Triple = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Pulling:
    """Leads for the solver, their kinds by id, and the leads whose far end has no known place."""

    leads: tuple[Lead, ...]
    kinds: Mapping[str, str]
    left_out: tuple[str, ...]


def kind_of(lead: LeadRow, frames: Mapping[str, ItemFrame]) -> str:
    """high-current from 5 A or AWG 16 on, power from AWG 22 on, else signal."""
    current = lead_current_a(lead, frames)
    if (current or 0.0) >= HIGH_A or (lead.awg is not None and lead.awg <= HEAVY_AWG):
        return "high-current"
    return "power" if lead.awg is not None and lead.awg <= POWER_AWG else "signal"


def ports_of(shape: Shape) -> tuple[Port, ...]:
    """The middles of the faces that the ports of an item are in, from the corner of its rectangle."""
    from dataclasses import replace

    from hardstand.engines.fit.item_frame import item_frame

    level = item_frame(replace(shape.item, turn_deg=0.0), 0.0)
    found = []
    for one in shape.item.ports:
        at = port_point_mm(level, one.name) if one.used else None
        if at is not None:
            x, y, z = at - np.array(shape.item.centre_mm)
            height = shape.item.size_mm[2]
            found.append(
                Port(
                    one.name,
                    (shape.length_mm / 2.0 + float(x), shape.width_mm / 2.0 + float(y),
                     shape.raise_mm + height / 2.0 + float(z)),
                )
            )  # fmt: skip
    return tuple(found)


def pulling(
    asbuilt: AsBuilt, frames: Mapping[str, ItemFrame], ports: Mapping[str, tuple[Port, ...]]
) -> Pulling:
    """The leads with an end on an item that moves; ports: the ports of those items by id.

    A lead that goes through holes is counted to the first and from the last of them. A joint lies
    in the middle of what else hangs on it.
    """
    leads, kinds, left_out = list[Lead](), dict[str, str](), list[str]()
    for row in asbuilt.leads:
        ends = [row.from_, row.to]
        movers = [end.partition(".")[0] in ports for end in ends]
        if not any(movers):
            continue
        via = hole_points(asbuilt, row.via)
        kind = kind_of(row, frames)
        weight = points(LEAD_WEIGHTS[kind])
        if all(movers) and not via:
            start, end = (_port(one, ports) for one in ends)
            leads.append(Lead(row.id, start, end, weight))
            kinds[row.id] = kind
            continue
        for k, mover in enumerate(movers):
            far: Triple | None = (via[0] if k == 0 else via[-1]) if via else None
            if mover and far is None:
                far = place_of(ends[1 - k], [one for one in asbuilt.leads if one is not row], frames)
            if mover and far is None:
                left_out.append(row.id)
            elif mover and far is not None:
                name = f"{row.id}.{k}" if all(movers) else row.id
                leads.append(Lead(name, _port(ends[k], ports), on_grid(far), weight))
                kinds[name] = kind
    return Pulling(tuple(leads), kinds, tuple(left_out))


def on_grid(at_mm: Triple) -> Point:
    """A point of the aeroplane's on the solver's plan."""
    return Point((at_mm[0] + SHIFT_MM, at_mm[1] + SHIFT_MM, at_mm[2]))


def _port(end: str, ports: Mapping[str, tuple[Port, ...]]) -> ItemPort:
    item, _, name = end.partition(".")
    known = any(port.id == name for port in ports[item])
    return ItemPort(item, name if known else "")


def hole_points(asbuilt: AsBuilt, via: Sequence[str]) -> list[Triple]:
    """The middles of the holes that a lead goes through, in its order."""
    holes = {hole.id: hole for hole in asbuilt.holes}
    tops = {tray.id: tray.top_z_mm for tray in asbuilt.trays}
    return [_hole_point(holes[one], tops) for one in via]


def _hole_point(hole: Hole, tops: Mapping[str, float]) -> Triple:
    if hole.outline_mm is not None:
        corners = np.array(hole.outline_mm)
        x, y = (corners.min(axis=0) + corners.max(axis=0)) / 2.0
    elif hole.at_mm is not None:
        x, y = hole.at_mm
    else:
        assert hole.from_mm is not None and hole.to_mm is not None  # noqa: PT018 checked when read
        x, y = (np.array(hole.from_mm) + np.array(hole.to_mm)) / 2.0
    return float(x), float(y), tops[hole.tray]


def place_of(
    end: str, leads: Sequence[LeadRow], frames: Mapping[str, ItemFrame]
) -> Triple | None:
    """Where an end that does not move is, None where nothing tells.

    leads: the others, by which a joint is found: in the middle of what hangs on them.
    """
    item, point, name = end.partition(".")
    if item in frames:
        at = port_point_mm(frames[item], name) if point else None
        at = np.array(frames[item].item.centre_mm) if at is None else at
        return float(at[0]), float(at[1]), float(at[2])
    others = [
        far.partition(".")[0]
        for row in leads
        for near, far in ((row.from_, row.to), (row.to, row.from_))
        if near == end
    ]
    known = [frames[one].item.centre_mm for one in others if one in frames]
    if not known:
        return None
    x, y, z = np.mean(known, axis=0)
    return float(x), float(y), float(z)
