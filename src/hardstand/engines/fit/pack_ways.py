"""The way of a pack out through its hatch: the slide, the lift, and what the box sweeps."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import compress
from typing import TYPE_CHECKING, Any

import numpy as np

from hardstand.description.places import Hatch
from hardstand.engines.fit.body import Floats, checked_body
from hardstand.engines.fit.hatch_ways import WAYS, across
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.pairing import related
from hardstand.engines.fit.piece import Owner, Piece
from hardstand.engines.fit.plug_zones import FACES
from hardstand.engines.fit.tray_checks import extent_mm

if TYPE_CHECKING:
    from shapely import Polygon

_FARTHEST_MM = 600
_SQUARE = 0.5  # cosine under which a slide counts as across the hatch's way


def slide_mm(frame: ItemFrame, hatch: Hatch, opening: Polygon) -> Floats:
    """How far (3,) a pack slides before it stands in the opening, in whole mm.

    It slides the way its part says, unless that is the hatch's own way or against it: then, as
    where nothing is said, it goes straight out.
    """
    import shapely

    face = frame.item.part.slides_out
    if face is None:
        return np.zeros(3)
    axis, sense = FACES[face][:2]
    way = sense * frame.rotation[:, axis]
    if abs(float(way @ WAYS[hatch.opens])) > _SQUARE:
        return np.zeros(3)
    steps = np.arange(_FARTHEST_MM + 1)[:, None] * way
    axes = list(across(hatch))
    middle = (np.array(frame.item.centre_mm) + steps)[:, axes]
    half = (extent_mm(frame) / 2.0)[axes]
    boxes: Any = shapely.box(*np.hstack([middle - half, middle + half]).T)
    over = shapely.area(boxes) - shapely.area(shapely.intersection(boxes, opening))
    return np.asarray(steps[int(over.round(6).argmin())])


def swept(frame: ItemFrame, owner: Owner, legs: tuple[Floats, ...]) -> list[Piece]:
    """The box drawn out along each leg (3,) of its way, one piece each; no leg is no piece.

    Where a leg does not lie along the box, the piece is larger than what the box sweeps.
    """
    start = np.array(frame.item.centre_mm)
    half = np.array(frame.item.size_mm) / 2.0
    follows = frame.follows(np.zeros((3, 3)), np.eye(3) / 2.0)
    found = []
    for leg in legs:
        if leg.any():
            grown = half + np.abs(frame.rotation.T @ leg) / 2.0
            body = checked_body("box", start + leg / 2.0, frame.rotation, grown, (), 0.0)
            found.append(Piece(body, "sweep", owner, frame.item.id, follows))
        start = start + leg
    return found


def stays(piece: Piece, owner: Owner, hatch: Hatch) -> bool:
    """Whether a piece stays in place, and so in the way, when the hatch is open.

    A pack slides over its own tray without harm, unless it leaves downward.
    """
    if piece.role == "tray" and piece.owner.id == owner.on:
        return hatch.opens == "down"
    solid = piece.role in ("item", "keep_out", "tray")
    taken_off = piece.role == "keep_out" and piece.owner.removable
    return solid and not taken_off and not related(piece.owner, owner)


class Around:
    """Finds, for one pack after another, which of many pieces stay in place around it, as `stays`."""

    def __init__(self, pieces: Sequence[Piece]) -> None:
        self._pieces = pieces
        self._stays = [
            piece.role in ("item", "tray")
            or (piece.role == "keep_out" and not piece.owner.removable)
            for piece in pieces
        ]
        self._of_id: dict[str, list[int]] = {}
        self._on_id: dict[str, list[int]] = {}
        for k, piece in enumerate(pieces):
            self._of_id.setdefault(piece.owner.id, []).append(k)
            for name in piece.owner.supports:
                self._on_id.setdefault(name, []).append(k)

    def of(self, owner: Owner, hatch: Hatch) -> list[Piece]:
        """Those that stay when a pack of this owner leaves through a hatch, in their order."""
        kept = self._stays.copy()
        others = {name for name in (owner.id, owner.on, *owner.supports) if name is not None}
        concerned = [k for name in others for k in self._of_id.get(name, ())]
        for k in (*concerned, *self._on_id.get(owner.id, ())):
            kept[k] = stays(self._pieces[k], owner, hatch)
        return list(compress(self._pieces, kept))
