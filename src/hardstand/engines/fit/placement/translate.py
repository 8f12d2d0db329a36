"""The aeroplane as a layout problem."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hardstand.asbuilt.value import AsBuilt
from hardstand.description.places import Tray as TrayRow
from hardstand.engines.balance.model import Headline
from hardstand.engines.fit.bay_checks import homes
from hardstand.engines.fit.bay_shape import BayShape, bay_shapes
from hardstand.engines.fit.layout.problem import (
    Barrier,
    Item,
    Layout,
    Place,
    Problem,
    Rectangle,
    Tray,
)
from hardstand.engines.fit.piece import Solids
from hardstand.engines.fit.placement.barriers import Still, barriers_of, still_of
from hardstand.engines.fit.placement.free import Freedom
from hardstand.engines.fit.placement.grid import SHIFT_MM, span
from hardstand.engines.fit.placement.leads import ports_of, pulling
from hardstand.engines.fit.placement.lessons import Lessons
from hardstand.engines.fit.placement.openings import (
    aerial_barriers,
    opening_barriers,
    within_reach,
)
from hardstand.engines.fit.placement.parts import Shape, shapes
from hardstand.engines.fit.placement.skin import beyond_skin
from hardstand.engines.fit.placement.slices import outside, rectangles
from hardstand.engines.fit.placement.spots import present
from hardstand.engines.fit.placement.spread import Spread
from hardstand.engines.fit.placement.wishes import (
    Target,
    apart,
    balances,
    centred,
    links,
    target_of,
)
from hardstand.engines.fit.tray_solids import edge_input


@dataclass(frozen=True)
class Translation:
    """A problem, the layout as described, and what is needed to read an answer.

    `kinds`: of what kind each lead is; `left_out`: leads whose far end has no known place.
    """

    problem: Problem
    start: Layout
    shapes: Mapping[str, Shape]
    kinds: Mapping[str, str]
    left_out: tuple[str, ...]
    target: Target | None


@dataclass(frozen=True, eq=False)
class _Scene:
    """What all items have in common while they are translated."""

    asbuilt: AsBuilt
    still: Still
    bays: Sequence[BayShape]
    lessons: Lessons
    reach_mm: int


def translate(
    asbuilt: AsBuilt,
    solids: Solids,
    head: Headline | None,
    free: Sequence[Freedom],
    lessons: Lessons | None = None,
) -> Translation:
    """The layout problem of some free items, all else staying where it is.

    solids: all pieces aboard, as the clearance checks have them; head: masses and CG; lessons: more
    distance to ask for. Raises KeyError for a free item on a tray that is not described.
    """
    more = lessons or Lessons()
    tops = {tray.id: tray.top_z_mm for tray in asbuilt.trays}
    made = shapes([(one.item, tops[str(one.item.on)]) for one in free])
    staying = [p for p in solids.pieces if p.owner.table != "item" or p.owner.id not in made]
    reach = max((room.depth_mm for one in made.values() for room in one.rooms), default=0)
    scene = _Scene(asbuilt, still_of(staying), bay_shapes(asbuilt.sections), more, reach)
    used = [tray for tray in asbuilt.trays if any(tray.id in one.trays for one in free)]
    target = target_of(asbuilt, head)
    weighed = {one.id: round(one.mass.value) for one in asbuilt.masses if one.table == "item"}
    masses = {one: weighed.get(one, 0) for one in made}
    ports = {one: ports_of(shape) for one, shape in made.items()}
    items = tuple(
        Item(
            one.item.id, (made[one.item.id].length_mm, made[one.item.id].width_mm,
                          made[one.item.id].height_mm),
            _places(one, made[one.item.id], asbuilt), made[one.item.id].rooms, ports[one.item.id],
            one.turns, masses[one.item.id], one.item.kind,
            barriers=_barriers(scene, one, made[one.item.id], used),
        )
        for one in free
    )  # fmt: skip
    pulled = pulling(asbuilt, solids.frames, ports)
    problem = Problem(
        tuple(_tray(scene, tray, made) for tray in used), items,
        (*pulled.leads, *links(made, asbuilt, target, head)), centred(made),
        balances(target, made, masses), apart(made, asbuilt),
        math.ceil(asbuilt.limits["fit.box-gap"].low or 0.0) + more.gap_mm,
    )  # fmt: skip
    return Translation(problem, present(made), made, pulled.kinds, pulled.left_out, target)


def _places(one: Freedom, shape: Shape, asbuilt: AsBuilt) -> tuple[Place, ...]:
    x, y = one.x_mm, one.y_mm
    reach = within_reach(shape, asbuilt.hatches, asbuilt.limits)
    if reach is not None:
        x = (max(reach[0], x[0]), min(reach[1], x[1])) if x else reach[:2]
        y = (max(reach[2], y[0]), min(reach[3], y[1])) if y else reach[2:]
    return tuple(
        Place(tray, span(*x) if x else None, span(*y) if y else None) for tray in one.trays
    )


def _tray(scene: _Scene, tray: TrayRow, made: Mapping[str, Shape]) -> Tray:
    """A tray, its outline drawn in by what its edge is known to beyond what the boxes are grown."""
    from shapely import Polygon

    limits = scene.asbuilt.limits
    edge = 2.0 * edge_input(tray).u
    spare = max(
        (
            (limits["fit.tray-edge"].low or 0.0)
            + one.parts[0].spread.and_of(Spread(edge, 0.0)).plan_mm
            - one.growth_mm
            for one in made.values()
        ),
        default=0.0,
    )
    inner: Any = Polygon(tray.outline_mm).buffer(-max(0.0, spare), join_style="mitre")
    if inner.geom_type != "Polygon":
        inner = max(inner.geoms, key=lambda part: part.area)
    outline = tuple(
        (round(x + SHIFT_MM, 6), round(y + SHIFT_MM, 6)) for x, y in inner.exterior.coords[:-1]
    )
    room = None
    if tray.height_mm is not None:
        known = max(
            (part.spread.height_mm for one in made.values() for part in one.parts), default=0.0
        )
        room = tray.height_mm - (limits["fit.height"].low or 0.0) - known
    return Tray(tray.id, outline, tray.top_z_mm, room, plugs_overhang=True)


def _window(tray: TrayRow, reach_mm: int) -> Rectangle:
    xs, ys = zip(*tray.outline_mm, strict=True)
    more = reach_mm + 2
    return Rectangle(
        math.floor(min(xs)) - more, math.ceil(max(xs)) + more,
        math.floor(min(ys)) - more, math.ceil(max(ys)) + more,
    )  # fmt: skip


def _barriers(
    scene: _Scene, one: Freedom, shape: Shape, trays: Sequence[TrayRow]
) -> tuple[Barrier, ...]:
    found: list[Barrier] = []
    for tray in trays:
        if tray.id in one.trays:
            window = _window(tray, scene.reach_mm)
            limits, grow = scene.asbuilt.limits, scene.lessons.grow_mm
            found += barriers_of(shape, tray, window, scene.still, limits, grow)
            found += _of_edge(scene, shape, tray, window)
            found += _of_bay(scene, shape, tray, window)
            found += opening_barriers(shape, tray, window, scene.still, scene.asbuilt, grow)
            found += aerial_barriers(shape, tray, window, scene.asbuilt)
    return tuple(found)


def _of_edge(
    scene: _Scene, shape: Shape, tray: TrayRow, window: Rectangle
) -> list[Barrier]:
    """The corners of a tray, where two edges are near at once and less is known of the nearer one.

    More room to all edges where that was learned for an item.
    """
    from shapely import Polygon, box

    limit = scene.asbuilt.limits["fit.tray-edge"].low or 0.0
    known = shape.parts[0].spread
    edge = Spread(2.0 * edge_input(tray).u, 0.0)
    apart = limit + known.and_of(known).and_of(edge).plan_mm - shape.growth_mm
    rooms: list[Rectangle] = []
    for x, y in tray.outline_mm if apart > 0.0 else ():
        rooms += rectangles(box(x - apart, y - apart, x + apart, y + apart), window)
    more = scene.lessons.grow_mm.get((shape.item.id, tray.id), 0.0)
    if more:
        inner = Polygon(tray.outline_mm).buffer(-more - shape.growth_mm, join_style="mitre")
        rooms += outside(inner, window)
    return [Barrier(tray.id, tray.id, 0, room) for room in rooms]


def _of_bay(
    scene: _Scene, shape: Shape, tray: TrayRow, window: Rectangle
) -> list[Barrier]:
    """Where the skin of the bay around a tray leaves no room."""
    import numpy as np

    xs, ys = zip(*tray.outline_mm, strict=True)
    middle = ((min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0, tray.top_z_mm)
    bay = homes(scene.bays, np.array([middle]))[0] if scene.bays else None
    if bay is None:
        return []
    wall = max(2.0 * one.u for one in bay.walls)
    found: list[Barrier] = []
    for number, part in enumerate(shape.parts):
        limit = "fit.structure-gap" if number == 0 else "fit.plug-room"
        known = part.spread.and_of(Spread(wall, wall))
        least = scene.asbuilt.limits[limit].low or 0.0
        least += max(known.plan_mm, known.height_mm)
        least += scene.lessons.grow_mm.get((shape.item.id, bay.id), 0.0)
        low, high = tray.top_z_mm + part.bottom_mm, tray.top_z_mm + part.top_mm
        heights = np.linspace(low, high, 2 if bay.convex() else 6).tolist()
        found += [
            Barrier(bay.id, tray.id, number, room)
            for room in beyond_skin(bay, heights, least, window)
        ]
    return found
