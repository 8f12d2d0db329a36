"""Whether an item stands wholly on its tray, and under the height that is free above it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.places import Tray
from hardstand.engines.fit.body import Floats, aabb
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.model import Check
from hardstand.engines.fit.piece import Piece
from hardstand.engines.fit.rectangles import (
    footprint_mm,
    plane_slopes,
    slopes_within,
)
from hardstand.engines.fit.tray_solids import edge_input, top_input


def extent_mm(frame: ItemFrame) -> Floats:
    """Extent (3,) of an item's box along x, y, z as it is placed."""
    return np.asarray(np.abs(frame.rotation) @ np.array(frame.item.size_mm))


def bases_within(frames: Sequence[ItemFrame], tray: Tray) -> tuple[Floats, Floats]:
    """The spare (N,) between each item's base and the edge of its tray; its slopes (N, 4).

    The base is the box's extent in plan: exact for quarter turns, larger than true for a tilted
    one. Slopes are as `slopes_within` gives them.
    """
    from shapely import Polygon

    bases = [footprint_mm(frame.item.centre_mm, extent_mm(frame)) for frame in frames]
    return slopes_within(Polygon(tray.outline_mm), np.array(bases).reshape(-1, 4))


def edge_check(
    found: Collected, frame: ItemFrame, tray: Tray, spare_mm: float, by_side: Floats
) -> None:
    """Add the spare between the base of an item and the edge of its tray, from `bases_within`."""
    item = frame.item
    found.add(
        _check("tray-edge", item, tray),
        spare_mm,
        f"base to the edge of its tray, {item.name}",
        plane_slopes(frame, (0, 1), by_side) | {edge_input(tray): 1.0},
    )


def _check(slug: str, item: PlacedItem, tray: Tray) -> Check:
    address = f"fit.{slug}@{item.id}"
    return Check(slug, f"fit.{slug}", (item.id, tray.id), address, station_mm=item.centre_mm[0])


def height_check(found: Collected, frame: ItemFrame, tray: Tray) -> None:
    """Add the spare between an item's top and the height that is free above its tray."""
    if tray.height_mm is None:
        return
    item = frame.item
    high = extent_mm(frame)[2]
    top = item.centre_mm[2] + high / 2.0
    slopes = {one: -float(abs(frame.rotation[2, k])) for k, one in enumerate(frame.sizes)}
    slopes[top_input(tray)] = -1.0
    found.add(
        _check("height", item, tray),
        tray.top_z_mm + tray.height_mm - top,
        f"height left above, {item.name}",
        {one: slope for one, slope in slopes.items() if slope != 0.0},
    )


def zone_height_check(found: Collected, zone: Piece, tray: Tray) -> None:
    """Add the spare between the top of a plug's room and the height that is free above its tray."""
    if tray.height_mm is None:
        return
    top = float(aabb(zone.body)[1][2])
    slopes = {
        one.input: -float(one.centre[2] + np.abs(zone.body.rotation[2]) @ one.half)
        for one in zone.follows
    }
    address = f"fit.plug-height@{zone.subject}+{tray.id}"
    about, x_mm = (zone.owner.id, tray.id), float(zone.body.centre_mm[0])
    found.add(
        Check("plug-room", "fit.plug-room", about, address, station_mm=x_mm),
        tray.top_z_mm + tray.height_mm - top,
        f"height left above the plugs, {zone.owner.name}",
        {one: slope for one, slope in slopes.items() if slope != 0.0},
    )
