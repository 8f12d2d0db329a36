"""How long each route is and what its lead has to spare over it, with their uncertainty."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.engines.harness.exits import row_u_mm
from hardstand.engines.harness.lengths import length_input
from hardstand.engines.harness.model import Netlist, Route
from hardstand.figures import FigureSet, Input

# Half-width of 95 % by which a laid lead differs from its computed way: so much, and a share of it;
# more where no bay is described. Common practice, no source.
LAID_MM, LAID, LAID_OUTSIDE = 15.0, 0.05, 0.15
METHOD = "shortest way along lanes, from face to face; laid by hand it differs by 15 mm and 5 %"
Row = tuple[str, str, float, float, dict[str, float], tuple[str, ...]]


def route_figures(
    net: Netlist, routes: Mapping[str, Route], items: Iterable[PlacedItem]
) -> FigureSet:
    """`harness.routed-length@LEAD` of every route, `harness.routed-spare@LEAD` where a length is known.

    What its items' own leads add to the length is counted with it.
    """
    by_id = {one.id: one for one in items}
    inputs: dict[str, Input] = {}
    rows: list[Row] = []
    for lead, route in routes.items():
        one = net.leads[lead]
        slopes: dict[str, float] = {}
        for end, ends in zip(one.ends, (route.points_mm[:3], route.points_mm[:-4:-1]), strict=True):
            item = by_id.get(net.ports[end].item)
            if item is not None:
                for place, along in zip(item.place, _away(ends), strict=True):
                    inputs[place.address] = place
                    slopes[place.address] = slopes.get(place.address, 0.0) + along
        share = LAID_OUTSIDE if route.outside else LAID
        extra = math.hypot((LAID_MM + share * route.length_mm) / 2.0,
                           *(row_u_mm(net.ports[end], by_id) for end in one.ends))
        name = f"harness.routed-length@{lead}"
        rows.append((name, f"length of the way of lead {lead}", route.length_mm, extra, slopes, ()))
        if one.length_mm is not None:
            given = length_input(one)
            inputs[given.address] = given
            long = one.length_mm + sum(net.ports[end].flying_mm for end in one.ends)
            turned = {address: -along for address, along in slopes.items()} | {given.address: 1.0}
            rows.append((f"harness.routed-spare@{lead}", f"length of lead {lead} to spare over its way",
                         long - route.length_mm, extra, turned, (name,)))  # fmt: skip
    return _set(rows, inputs)


def _away(ends: Sequence[tuple[float, float, float]]) -> list[float]:
    """How the way grows as its port is moved along x, y and z: away from where it leads after its plug."""
    way = np.subtract(ends[min(1, len(ends) - 1)], ends[-1])
    far = float(np.linalg.norm(way))
    return [0.0] * 3 if far == 0.0 else [float(one) for one in way / far]


def _set(rows: Sequence[Row], inputs: Mapping[str, Input]) -> FigureSet:
    column = {address: place for place, address in enumerate(inputs)}
    slope = np.zeros((len(rows), len(inputs)))
    for number, row in enumerate(rows):
        for address, one in row[4].items():
            slope[number, column[address]] = one
    return FigureSet(
        tuple(row[0] for row in rows), np.array([row[2] for row in rows], dtype=np.float64),
        ("mm",) * len(rows), tuple(inputs.values()), slope,
        np.array([row[3] for row in rows], dtype=np.float64), tuple(row[1] for row in rows),
        {row[0]: row[5] for row in rows if row[5]}, METHOD,
    )  # fmt: skip
