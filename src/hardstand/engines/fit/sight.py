"""Whether what must be reached lies under an opening, and what must be seen is seen through one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from hardstand.description.places import Hatch
from hardstand.engines.fit.body import Floats, checked_body
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.hatch_ways import WAYS, across, edge_of, window
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.item_solids import owner_of
from hardstand.engines.fit.model import Check, Gap
from hardstand.engines.fit.nearest import nearest
from hardstand.engines.fit.pairing import related
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.engines.fit.plug_zones import FACES
from hardstand.engines.fit.rectangles import plane_slopes, slopes_within, spare_within
from hardstand.engines.fit.tray_checks import extent_mm
from hardstand.engines.kept import Kept
from hardstand.figures import Input

if TYPE_CHECKING:
    from shapely import Polygon

SIGHT_MM = 300.0


def reach_check(
    found: Collected, gaps: list[Gap], frame: ItemFrame, hatches: Sequence[Hatch]
) -> None:
    """Add how far the middle of an item lies within the opening it is reached through."""
    best = _best_opening(frame, hatches, whole=False)
    if best is None:
        gaps.append(_no_opening(frame, "reach", "reached"))
        return
    hatch, value, slopes = best
    item = frame.item
    check = Check(
        "reach",
        "fit.reach",
        (item.id, hatch.id),
        f"fit.reach@{item.id}",
        station_mm=item.centre_mm[0],
    )
    found.add(check, value, f"middle within the opening, {item.name}", slopes)


def view_checks(
    found: Collected,
    gaps: list[Gap],
    frames: Sequence[ItemFrame],
    hatches: Sequence[Hatch],
    solids: Solids,
    kept: Kept | None = None,
) -> None:
    """Add how far each face to be seen lies within an opening, and how far items stay off its view."""
    columns: list[Piece] = []
    for frame in frames:
        item = frame.item
        best = _best_opening(frame, hatches, whole=True)
        if best is None:
            gaps.append(_no_opening(frame, "view", "seen"))
            continue
        hatch, value, slopes = best
        check = Check(
            "view",
            "fit.view",
            (item.id, hatch.id),
            f"fit.view-opening@{item.id}",
            station_mm=item.centre_mm[0],
        )
        found.add(check, value, f"face within the opening, {item.name}", slopes)
        columns.append(_line_of_sight(frame, hatch))
    _covered(found, columns, solids, kept)


def _no_opening(frame: ItemFrame, slug: str, what: str) -> Gap:
    return Gap(
        slug,
        (frame.item.id,),
        f"{frame.item.name} must be {what}, but no opening is described that it could be {what} "
        "through: describe the [[hatch]] and name it in through.",
    )


def _best_opening(
    frame: ItemFrame, hatches: Sequence[Hatch], *, whole: bool
) -> tuple[Hatch, float, dict[Input, float]] | None:
    """The opening in which an item, or the middle of it, lies deepest: the named one where named."""
    item = frame.item
    named = [row for row in hatches if row.id == item.through] if item.through else hatches
    best: tuple[float, Hatch, Polygon, Floats] | None = None
    for hatch in sorted(named, key=lambda row: row.id):
        opening = window(hatch)
        if opening is None:
            continue
        axes = list(across(hatch))
        middle = np.array(item.centre_mm)[axes]
        half = (extent_mm(frame) / 2.0)[axes] if whole else np.full(2, 1e-6)
        rectangle = np.concatenate([middle - half, middle + half])
        value = float(spare_within(opening, rectangle[None])[0])
        if best is None or value > best[0]:
            best = (value, hatch, opening, rectangle)
    if best is None:
        return None
    value, hatch, opening, rectangle = best
    sides = slopes_within(opening, rectangle[None])[1][0]
    if not whole:
        sides[2:] = 0.0
    return hatch, value, plane_slopes(frame, across(hatch), sides) | {edge_of(hatch): 1.0}


def _line_of_sight(frame: ItemFrame, hatch: Hatch) -> Piece:
    """The straight way from the face to the eye, over the whole face, out as the hatch opens."""
    item = frame.item
    way = WAYS[hatch.opens]
    axis, sense = FACES[item.part.view_face or "top"][:2]
    face = frame.centre(np.eye(3)[axis] * sense * item.size_mm[axis] / 2.0)
    half = np.array(item.size_mm) / 2.0
    half[axis] = 0.0
    grown = half + np.abs(frame.rotation.T @ way) * SIGHT_MM / 2.0
    body = checked_body("box", face + way * SIGHT_MM / 2.0, frame.rotation, grown, (), 0.0)
    follows = frame.follows(np.zeros((3, 3)), np.eye(3) / 2.0)
    return Piece(body, "sweep", owner_of(item), item.id, follows)


def _covered(found: Collected, columns: Sequence[Piece], solids: Solids, kept: Kept | None) -> None:
    """Add the least distance of other items from each line of sight.

    What is taken off in service does not hide: only items do.
    """
    items = [solids.pieces[k] for k in solids.of_role("item")]
    groups = [
        ([column], [one for one in items if not related(one.owner, column.owner)])
        for column in columns
    ]
    for column, one in zip(columns, nearest(groups, kept, "views"), strict=True):
        if one is not None:
            item_id = column.owner.id
            about, at = (item_id, one.owner.id), one.station_mm
            check = Check("view", "fit.view", about, f"fit.view@{item_id}", station_mm=at)
            label = f"nearest item to the line of sight, {column.owner.name}"
            found.add(check, one.distance_mm, label, one.slopes)
