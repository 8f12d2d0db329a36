"""The lanes on which leads run: edges and openings of trays, and the walls of bays.

A lane is a row of points a few centimetres apart. Along each tray one lane runs inside its edge above
and one below; holes and tie slots are points of both, joined through the tray. In a bay six lanes run
along the walls, three a side, and one over the top of each bulkhead or wall. Nothing of this is asked
of a description beyond trays, holes, bays and what stands in them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np

from hardstand.asbuilt.value import BaySection
from hardstand.description.places import Hole, KeepOut, Tray
from hardstand.engines.harness.lane_points import STEP_MM, Lanes, walls
from hardstand.engines.harness.solids import Floats

INSET_MM = 6.0  # of a lead inside a tray's edge; common practice, no source
OFF_MM = 3.0  # middle of a lead off the face that it lies on


def lanes(
    trays: Iterable[Tray], holes: Iterable[Hole], sections: Iterable[BaySection],
    keep_outs: Iterable[KeepOut] = (),
) -> Lanes:  # fmt: skip
    """All lanes of an aeroplane."""
    found = Lanes()
    rows = list(holes)
    for tray in trays:
        _tray(found, tray, [one for one in rows if one.tray == tray.id])
    for row in keep_outs:
        if row.kind == "structure" and row.outline_mm and row.top_mm is not None:
            _over(found, row, row.top_mm + OFF_MM + 1.0)
    bays: dict[str, list[BaySection]] = {}
    for section in sections:
        bays.setdefault(section.bay, []).append(section)
    for bay, own in bays.items():
        walls(found, bay, sorted(own, key=lambda one: one.x_mm))
    return found


def _tray(found: Lanes, tray: Tray, holes: list[Hole]) -> None:
    above = tray.top_z_mm + OFF_MM
    below = tray.top_z_mm - tray.thickness_mm - OFF_MM
    edge = stepped(inset(tray.outline_mm))
    rims = []
    for z, side in ((above, "above"), (below, "below")):
        rims.append([found.add(x, y, z, f"{tray.id} {side}") for x, y in edge])
        found.run(rims[-1], closed=True)
    for x, y in _inside(tray.outline_mm):
        for z, side in ((above, "above"), (below, "below")):
            found.add(x, y, z, f"{tray.id} {side}")
    for hole in holes:
        if hole.purpose in ("leads", "ties"):
            x, y = middle(hole)
            pair = found.add(x, y, above, hole.id), found.add(x, y, below, hole.id)
            found.hole_points[hole.id] = pair
            if hole.purpose == "leads":
                found.pairs.append(pair)
                found.through[pair] = hole.id


def _inside(outline: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Places inside a tray where a tie may be stuck down, a step apart."""
    import shapely

    ring = shapely.Polygon(outline).buffer(-2.0 * INSET_MM)
    if ring.is_empty:
        return []
    low_x, low_y, high_x, high_y = ring.bounds
    x, y = (np.linspace(a, b, max(3, int((b - a) / STEP_MM) + 2))[1:-1]
            for a, b in ((low_x, high_x), (low_y, high_y)))  # fmt: skip
    grid = [(float(one), float(two)) for one in x for two in y]
    return [one for one, here in zip(grid, shapely.contains_xy(ring, *np.array(grid).T), strict=True)
            if here]  # fmt: skip


def _over(found: Lanes, row: KeepOut, z: float) -> None:
    """A lane across the top of a wall or a bulkhead, along the longer way of its outline."""
    corners: Floats = np.array(row.outline_mm, dtype=np.float64)
    low, high = corners.min(axis=0), corners.max(axis=0)
    long = int(np.argmax(high - low))
    count = max(2, int(np.ceil((high - low)[long] / (STEP_MM / 2.0))) + 1)
    at = np.tile((low + high) / 2.0, (count, 1))
    at[:, long] = np.linspace(low[long], high[long], count)
    found.run([found.add(x, y, z, row.id) for x, y in at.tolist()])


def inset(outline: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """An outline drawn in by the inset of a lane; one too small for that shrinks to its middle.

    >>> inset([(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)])[0]
    (6.0, 6.0)
    """
    from shapely import Polygon, buffer
    from shapely.geometry.polygon import orient

    inner = buffer(Polygon(outline), -INSET_MM, join_style="mitre")
    if inner.is_empty or len(getattr(inner, "geoms", (inner,))) != 1:
        at = Polygon(outline).representative_point()
        return [(float(at.x), float(at.y))]
    ring = [(float(x), float(y)) for x, y in orient(inner).exterior.coords[:-1]]
    first = ring.index(min(ring))
    return ring[first:] + ring[:first]


def stepped(ring: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """A closed ring with points no more than a step apart.

    >>> len(stepped([(0.0, 0.0), (90.0, 0.0)]))
    4
    """
    found: list[tuple[float, float]] = []
    for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True):
        count = max(1, int(np.ceil(np.hypot(x1 - x0, y1 - y0) / STEP_MM)))
        found += [(x0 + (x1 - x0) * k / count, y0 + (y1 - y0) * k / count) for k in range(count)]
    return found


def middle(hole: Hole) -> tuple[float, float]:
    """The middle of an opening in plan, mm."""
    if hole.at_mm is not None:
        return hole.at_mm[0], hole.at_mm[1]
    ends = [one for one in (hole.from_mm, hole.to_mm) if one is not None]
    corners = ends if hole.outline_mm is None else hole.outline_mm
    x, y = np.array(corners, dtype=np.float64).mean(axis=0).tolist()
    return x, y
