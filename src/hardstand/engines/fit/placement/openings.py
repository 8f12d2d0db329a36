"""Packs under their hatch, faces to be seen within their opening, and what aerials ask for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.asbuilt.value import AsBuilt
from hardstand.description.places import Hatch, Tray
from hardstand.engines.fit.aerials import BLINDING, CONTROLLERS, ENGINES, aerial_piece
from hardstand.engines.fit.hatch_ways import edge_of
from hardstand.engines.fit.hatch_ways import window as opening_of
from hardstand.engines.fit.high_current import HIGH_A
from hardstand.engines.fit.layout.problem import Barrier, Rectangle
from hardstand.engines.fit.pack_ways import stays
from hardstand.engines.fit.placement.barriers import Still, barred, near, spaced
from hardstand.engines.fit.placement.parts import Shape
from hardstand.engines.fit.placement.slices import outside
from hardstand.engines.fit.placement.spread import Spread, spread_of
from hardstand.findings import Limit

_OUT_MM = 1000.0
_STRAIGHT = (None, "top", "bottom")


def opening_barriers(
    shape: Shape,
    tray: Tray,
    window: Rectangle,
    still: Still,
    asbuilt: AsBuilt,
    grow_mm: Mapping[tuple[str, str], float],
) -> list[Barrier]:
    """Where a pack would not come straight out of its hatch, or a face not be wholly seen."""
    item = shape.item
    hatch = next((row for row in asbuilt.hatches if row.id == item.through), None)
    if hatch is None or hatch.opens != "up":
        return []
    pack = item.kind == "pack" and item.part.slides_out in _STRAIGHT
    if not pack and not item.part.needs_view:
        return []
    limit = "fit.pack-opening" if pack else "fit.view"
    more = grow_mm.get((item.id, hatch.id), 0.0)
    found = [
        Barrier(hatch.id, tray.id, 0, room)
        for room in outside(_inside(shape, hatch, asbuilt.limits[limit], more), window)
    ]
    if pack:
        least = asbuilt.limits["fit.pack-slides-out"].low or 0.0
        owner = shape.parts[0].piece.owner
        for k in near(shape.parts[0], tray, window, still, _OUT_MM):
            other = still.pieces[k]
            if stays(other, owner, hatch) and other.owner.id != tray.id:
                apart = spaced(least, shape.parts[0].spread.and_of(still.spread[k]))
                box = (0, shape.parts[0])
                found += barred(other, tray, box, shape, window, apart, _OUT_MM)
    return found


def _inside(shape: Shape, hatch: Hatch, limit: Limit, more_mm: float) -> Any:
    """The plan of an opening within which the item's rectangle has to stay."""
    known = _known(shape, hatch)
    spare = max(0.0, (limit.low or 0.0) + more_mm + known - shape.growth_mm)
    inside = opening_of(hatch)
    assert inside is not None  # it opens upward
    return inside.buffer(-spare, join_style="mitre")


def _known(shape: Shape, hatch: Hatch) -> float:
    """Expanded uncertainty of the distance of an item to a hatch's edge, in a corner to two of them."""
    own = shape.parts[0].spread
    return own.and_of(own).and_of(Spread(2.0 * edge_of(hatch).u, 0.0)).plan_mm


def within_reach(
    shape: Shape, hatches: Sequence[Hatch], limits: Mapping[str, Limit]
) -> tuple[float, float, float, float] | None:
    """Where the middle of what must be reached has to be: low x, high x, low y, high y."""
    item = shape.item
    hatch = next((row for row in hatches if row.id == item.through), None)
    if not item.part.needs_reach or hatch is None or hatch.opens not in ("up", "down"):
        return None
    inside = opening_of(hatch)
    assert inside is not None  # seen from above its outline is known
    known = _known(shape, hatch)
    low_x, low_y, high_x, high_y = inside.buffer(-(limits["fit.reach"].low or 0.0) - known).bounds
    return low_x, high_x, low_y, high_y


def aerial_barriers(
    shape: Shape, tray: Tray, window: Rectangle, asbuilt: AsBuilt
) -> list[Barrier]:
    """Where an item would stand too near to an aerial of another: by kind, metal, high current."""
    item, limits = shape.item, asbuilt.limits
    owner = shape.parts[0].piece.owner
    high = any(one.used and (one.port.current_a or 0.0) >= HIGH_A for one in item.ports)
    asked = [
        name
        for name, holds in (
            ("fit.aerial-engine", item.kind in ENGINES),
            ("fit.aerial-controller", item.kind in CONTROLLERS),
            ("fit.aerial-carbon", owner.metal or item.part.material in BLINDING),
            ("fit.aerial-lead", high),
        )
        if holds
    ]
    least = max((limits[name].low or 0.0 for name in asked), default=None)
    found: list[Barrier] = []
    for row in asbuilt.antennas if least is not None else ():
        if row.item == item.id:
            continue
        piece = aerial_piece(row, row.item)
        apart = spaced(least or 0.0, shape.parts[0].spread.and_of(spread_of(piece)))
        found += barred(piece, tray, (0, shape.parts[0]), shape, window, apart)
    return found
