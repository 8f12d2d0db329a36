"""Whether a pack can be taken out through its hatch with everything else in place."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.description.places import Hatch
from hardstand.engines.fit.body import Body, Floats, aabb, checked_body
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.follow_table import follow_table
from hardstand.engines.fit.hatch_ways import WAYS, across, edge_of, way_out_mm, window
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.item_solids import owner_of
from hardstand.engines.fit.measured_pairs import measured
from hardstand.engines.fit.model import Check, Gap
from hardstand.engines.fit.pairing import related
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.engines.fit.plug_zones import FACES
from hardstand.engines.fit.rectangles import slopes_within, spare_within
from hardstand.engines.fit.tray_checks import extent_mm
from hardstand.figures import Input

_FARTHEST_MM = 600
_SQUARE = 0.5  # cosine under which a slide counts as across the hatch's way


def pack_checks(
    found: Collected, gaps: list[Gap], frame: ItemFrame, solids: Solids, slices: Any
) -> None:
    """Add the room along a pack's way out and the room in its hatch; a gap where none is named."""
    item = frame.item
    hatch = next((row for row in slices.hatches if row.id == item.through), None)
    if hatch is None:
        gaps.append(
            Gap(
                "pack-slides-out",
                (item.id,),
                f"No hatch is named for {item.name}, so whether it comes out is not known: describe "
                "the [[hatch]] and name it in through.",
            )
        )
        return
    opening = window(hatch)
    if opening is None:
        text = f"How high {hatch.name or hatch.id} is cut is not stated: give bottom_mm and top_mm."
        gaps.append(Gap("pack-slides-out", (item.id,), text))
        return
    slide = _slide(frame, hatch, opening)
    half = extent_mm(frame) / 2.0
    low, high = item.centre_mm + slide - half, item.centre_mm + slide + half
    out = WAYS[hatch.opens] * way_out_mm(hatch, low, high, slices.sections)
    _room_on_the_way(found, frame, solids, (slide, out), hatch)
    axes = across(hatch)
    rectangle = np.array([low[axes[0]], low[axes[1]], high[axes[0]], high[axes[1]]])
    slopes = plane_slopes(frame, axes, slopes_within(opening, rectangle)) | {edge_of(hatch): 1.0}
    found.add(
        Check(
            "pack-opening", "fit.pack-opening", (item.id, hatch.id), f"fit.pack-opening@{item.id}"
        ),
        float(spare_within(opening, rectangle[None])[0]),
        f"room in the hatch, {item.name}",
        slopes,
    )


def plane_slopes(frame: ItemFrame, axes: tuple[int, int], by_side: Floats) -> dict[Input, float]:
    """Slopes by an item's inputs from those of its rectangle in a plane of two axes (4,)."""
    chosen = list(axes)
    slopes = {one: float(way[chosen] @ by_side[:2]) for one, way in frame.places}
    grows = np.abs(frame.rotation[chosen]) / 2.0
    for k, one in enumerate(frame.sizes):
        lift = frame.lift[k] * by_side[1] if axes[1] == 2 else 0.0
        slopes[one] = float(by_side[2:] @ grows[:, k]) + float(lift)
    return {one: slope for one, slope in slopes.items() if slope != 0.0}


def _slide(frame: ItemFrame, hatch: Hatch, opening: Any) -> Floats:
    """How far (3,) a pack slides before it stands in the opening, in whole mm.

    It slides the way its part says, unless that is the hatch's own way or against it: then, as
    where nothing is said, it goes straight out.
    """
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
    spare = spare_within(opening, np.hstack([middle - half, middle + half]))
    inside = np.flatnonzero(spare >= 0.0)
    return np.asarray(steps[inside[0] if len(inside) else int(spare.argmax())])


def _room_on_the_way(
    found: Collected,
    frame: ItemFrame,
    solids: Solids,
    legs: tuple[Floats, Floats],
    hatch: Hatch,
) -> None:
    """Add the least distance from what the box sweeps to anything that stays where it is."""
    item, owner = frame.item, owner_of(frame.item)
    grows = frame.follows(np.zeros((3, 3)), np.eye(3) / 2.0)
    sweeps = [
        Piece(body, "sweep", owner, item.id, grows)
        for body in _swept(frame, legs)
        if body is not None
    ]
    others = [piece for piece in solids.pieces if _stays(piece, owner, hatch, item.on)]
    pieces = [*sweeps, *others]
    pairs = [
        (i, len(sweeps) + j)
        for i in range(len(sweeps))
        for j in range(len(others))
        if _near(sweeps[i].body, others[j].body)
    ]
    if not pairs:
        return
    a, b = (np.array(side, dtype=np.intp) for side in zip(*pairs, strict=True))
    gaps = measured([piece.body for piece in pieces], a, b)
    k = int(gaps.distance_mm.argmin())
    table = follow_table(pieces)
    slope = table.slopes(a[k : k + 1], b[k : k + 1], gaps.normal[k : k + 1])[0]
    other = pieces[b[k]].owner
    found.add(
        Check(
            "pack-slides-out",
            "fit.pack-slides-out",
            (item.id, other.id),
            f"fit.pack-slides-out@{item.id}",
            (hatch.name or hatch.id,),
        ),
        float(gaps.distance_mm[k]),
        f"room on the way out, {item.name}",
        {table.inputs[c]: float(slope[c]) for c in np.flatnonzero(slope)},
    )


def _swept(frame: ItemFrame, legs: tuple[Floats, Floats]) -> list[Body | None]:
    """The box drawn out along each leg of the way; where it does not lie along the box, its hull."""
    start = np.array(frame.item.centre_mm)
    found: list[Body | None] = []
    for leg in legs:
        length = float(np.linalg.norm(leg))
        half = np.array(frame.item.size_mm) / 2.0
        grown = half + np.abs(frame.rotation.T @ leg) / 2.0
        found.append(
            checked_body("box", start + leg / 2.0, frame.rotation, grown, (), 0.0)
            if length > 0.0
            else None
        )
        start = start + leg
    return found


def _stays(piece: Piece, owner: Any, hatch: Hatch, on: str | None) -> bool:
    """What is not taken off to open the hatch. A pack slides over its own tray, unless down."""
    if piece.role == "tray" and piece.owner.id == on:
        return hatch.opens == "down"
    solid = piece.role in ("item", "keep_out", "tray")
    taken_off = piece.role == "keep_out" and piece.owner.removable
    return solid and not taken_off and not related(piece.owner, owner)


def _near(one: Body, other: Body, reach_mm: float = 100.0) -> bool:
    (low, high), (other_low, other_high) = aabb(one), aabb(other)
    return bool((low - reach_mm < other_high).all() and (other_low - reach_mm < high).all())
