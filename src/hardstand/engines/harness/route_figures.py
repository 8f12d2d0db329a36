"""How long each route is and what its lead has to spare over it, with their uncertainty."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.engines.harness.exits import row_u_mm
from hardstand.engines.harness.lengths import length_input
from hardstand.engines.harness.model import HarnessLead, Netlist, Route
from hardstand.engines.kept import Kept
from hardstand.figures import FigureSet, Input

# Half-width of 95 % by which a laid lead differs from its computed way: so much, and a share of it;
# more where no bay is described. Common practice, no source.
LAID_MM, LAID, LAID_OUTSIDE = 15.0, 0.05, 0.15
METHOD = "shortest way along lanes, from face to face; laid by hand it differs by 15 mm and 5 %"
Row = tuple[str, str, float, float, dict[str, float], tuple[str, ...]]


def route_figures(
    net: Netlist, routes: Mapping[str, Route], items: Iterable[PlacedItem],
    kept: Kept | None = None,
) -> FigureSet:
    """`harness.routed-length@LEAD` of every route, `harness.routed-spare@LEAD` where a length is known.

    What its items' own leads add to the length is counted with it.
    """
    by_id = {one.id: one for one in items}
    contents = {}
    for lead, route in routes.items():
        ports = tuple(net.ports[end] for end in net.leads[lead].ends)
        contents[lead] = (net.leads[lead], route, tuple((one.end, one.flying_mm) for one in ports),
                          tuple(by_id.get(one.item) for one in ports))  # fmt: skip
    made = (kept or Kept()).each("figures", contents, lambda one: _of_lead(*one))
    inputs = {one.address: one for _, own in made.values() for one in own}
    return _set([row for rows, _ in made.values() for row in rows], inputs)


def _of_lead(
    one: HarnessLead, route: Route, ports: Sequence[tuple[str, float]],
    items: Sequence[PlacedItem | None],
) -> tuple[list[Row], list[Input]]:  # fmt: skip
    """The rows of one lead and the inputs that they rest on; `ports` are ends with their own leads' mm."""
    inputs: list[Input] = []
    slopes: dict[str, float] = {}
    for item, ends in zip(items, (route.points_mm[:3], route.points_mm[:-4:-1]), strict=True):
        if item is not None:
            inputs += item.place
            for place, along in zip(item.place, _away(ends), strict=True):
                slopes[place.address] = slopes.get(place.address, 0.0) + along
    share = LAID_OUTSIDE if route.outside else LAID
    extra = math.hypot((LAID_MM + share * route.length_mm) / 2.0,
                       *(row_u_mm(end, item) for (end, _), item in zip(ports, items, strict=True)))
    name = f"harness.routed-length@{one.id}"
    rows: list[Row] = [
        (name, f"length of the way of lead {one.id}", route.length_mm, extra, slopes, ())]
    if one.length_mm is not None:
        given = length_input(one)
        inputs.append(given)
        long = one.length_mm + sum(flying for _, flying in ports)
        turned = {address: -along for address, along in slopes.items()} | {given.address: 1.0}
        rows.append((f"harness.routed-spare@{one.id}", f"length of lead {one.id} to spare over its way",
                     long - route.length_mm, extra, turned, (name,)))  # fmt: skip
    return rows, inputs


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
