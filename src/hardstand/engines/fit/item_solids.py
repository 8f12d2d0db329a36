"""The solids of an item: its box, cylinder or ring, and the part of it that is hot."""

from __future__ import annotations

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.engines.fit.body import Body, Floats, checked_body
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.piece import Owner, Piece

HOT_DEGC = 60.0  # what can be touched for a moment; plastic and cells suffer above (from memory)
WEDGES = 32
# A cylinder's own axis is its z, an item's length its x.
ALONG = np.array([[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
_ROUND = np.array([[0.0, 0.0, 0.5], [0.5, 0.0, 0.0], [0.0, 0.0, 0.0]])
_FUEL = ("tank", "header-tank")
_WET = (*_FUEL, "pump", "valve", "turbine", "duct", "air-tank")
_DRY = ("brake", "retract", "antenna", "other")
ELECTRIC_PORTS = ("power", "signal", "both", "motor")


def owner_of(item: PlacedItem) -> Owner:
    """What the rules need to know of an item.

    Electric is whatever is not there to hold or move fuel, air or gas; retracts, brakes and sundry
    parts count where they have an electrical port. A pump or a valve has fuel in it by its nature, so it
    cannot be kept apart from fuel.
    """
    electrical = any(one.port.kind in ELECTRIC_PORTS for one in item.ports)
    part = item.part
    return Owner(
        item.id,
        item.name,
        "item",
        item.kind,
        item.on,
        frozenset(item.supports),
        electric=item.kind not in _WET and (electrical or item.kind not in _DRY),
        fuel=item.kind in _FUEL,
        metal=part.material == "metal",
        hot=part.hot_degc is not None and part.hot_degc >= HOT_DEGC,
        assumed=item.assumed_size,
        removable=item.removable,
    )


def item_pieces(frame: ItemFrame, owner: Owner) -> list[Piece]:
    """The solid pieces of an item: one for a box or a cylinder, wedges for a ring, its hot length.

    >>> len(ring_corners(20.0, 104.0, 84.0)), ring_corners(20.0, 104.0, 84.0)[0].shape
    (32, (8, 3))
    """
    item = frame.item
    size = np.array(item.size_mm)
    grows = _ROUND if item.part.shape != "box" else np.eye(3) / 2.0
    follows = frame.follows(np.zeros((3, 3)), grows)
    inside = item.part.inside_mm
    if item.part.shape == "ring" and inside is not None:
        turn, centre, none = frame.rotation @ ALONG, item.centre_mm, np.zeros(3)
        bodies = [
            checked_body("polytope", centre, turn, none, corners, 0.0)
            for corners in ring_corners(item.size_mm[0], max(item.size_mm[1:]), inside)
        ]
    else:
        bodies = [_solid(frame, np.zeros(3), size)]
    found = [Piece(body, "item", owner, item.id, follows) for body in bodies]
    if owner.hot:
        start = min(item.part.hot_from_mm or 0.0, size[0])
        hot = _solid(frame, np.array([start / 2.0, 0.0, 0.0]), size - np.array([start, 0.0, 0.0]))
        found.append(Piece(hot, "hot", owner, f"{item.id}.hot", follows))
    return found


def _solid(frame: ItemFrame, offset_mm: Floats, size_mm: Floats) -> Body:
    """The box or cylinder of `size_mm` about a point given in the item's own axes.

    A cylinder whose width and height differ is taken as round with the larger: it errs to the safe
    side.
    """
    centre = frame.centre(offset_mm)
    if frame.item.part.shape == "box":
        return checked_body("box", centre, frame.rotation, size_mm / 2.0, (), 0.0)
    radius = max(size_mm[1], size_mm[2]) / 2.0
    half = np.array([radius, radius, size_mm[0] / 2.0])
    return checked_body("cylinder", centre, frame.rotation @ ALONG, half, (), 0.0)


def ring_corners(length_mm: float, outside_mm: float, inside_mm: float) -> list[Floats]:
    """A ring as 32 convex wedges about its own z: corners (8, 3) of each, in mm.

    The wedges hold the whole ring: their outer edges touch the outside circle from without, their
    inner edges cut across the hole. They reach beyond the ring by less than 0.5 % of either radius
    (0.3 mm at 52 mm), so the error is on the safe side.
    """
    step = 2.0 * np.pi / WEDGES
    outer = outside_mm / 2.0 / np.cos(step / 2.0)
    inner = inside_mm / 2.0
    wedges = []
    for k in range(WEDGES):
        flat = [
            (radius * np.cos(angle), radius * np.sin(angle))
            for angle in (k * step, (k + 1) * step)
            for radius in (inner, outer)
        ]
        wedges.append(
            np.array([(x, y, z) for x, y in flat for z in (-length_mm / 2.0, length_mm / 2.0)])
        )
    return wedges
