"""Whether packs can be taken out through their hatches with everything else in place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.asbuilt.value import BaySection
from hardstand.description.places import Hatch
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.hatch_ways import WAYS, across, edge_of, way_out_mm, window
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.item_solids import owner_of
from hardstand.engines.fit.model import Check, Gap
from hardstand.engines.fit.nearest import nearest
from hardstand.engines.fit.pack_ways import Around, slide_mm, swept
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.engines.fit.rectangles import plane_slopes, slopes_within
from hardstand.engines.fit.tray_checks import extent_mm
from hardstand.engines.kept import Kept


@dataclass(frozen=True, eq=False)
class _Way:
    """A pack's way out: what its box sweeps, and what stays in place around it."""

    frame: ItemFrame
    hatch: Hatch
    sweeps: list[Piece]
    others: list[Piece]


def pack_checks(
    found: Collected,
    packs: Sequence[tuple[ItemFrame, Sequence[BaySection]]],
    hatches: Sequence[Hatch],
    solids: Solids,
    kept: Kept | None = None,
) -> list[Gap]:
    """Add the room along each pack's way out and in its hatch; return what is missing for that.

    Each pack comes with the sections of the bay it lies in.
    """
    gaps: list[Gap] = []
    ways: list[_Way] = []
    around = Around(solids.pieces)
    for frame, sections in packs:
        hatch = next((row for row in hatches if row.id == frame.item.through), None)
        opening = None if hatch is None else window(hatch)
        if hatch is None or opening is None:
            gaps.append(_missing(frame, hatch))
            continue
        slide = slide_mm(frame, hatch, opening)
        half = extent_mm(frame) / 2.0
        low, high = frame.item.centre_mm + slide - half, frame.item.centre_mm + slide + half
        out = WAYS[hatch.opens] * way_out_mm(hatch, low, high, sections)
        owner = owner_of(frame.item)
        others = around.of(owner, hatch)
        ways.append(_Way(frame, hatch, swept(frame, owner, (slide, out)), others))
        axes = list(across(hatch))
        plan = np.concatenate([low[axes], high[axes]])
        address, about = f"fit.pack-opening@{frame.item.id}", (frame.item.id, hatch.id)
        x_mm = float(low[0] + high[0]) / 2.0
        spare, by_side = slopes_within(opening, plan[None])
        found.add(
            Check("pack-opening", "fit.pack-opening", about, address, station_mm=x_mm),
            float(spare[0]),
            f"room in the hatch, {frame.item.name}",
            plane_slopes(frame, across(hatch), by_side[0]) | {edge_of(hatch): 1.0},
        )
    _add_ways(found, ways, kept)
    return gaps


def _missing(frame: ItemFrame, hatch: Hatch | None) -> Gap:
    if hatch is not None:
        text = f"How high {hatch.name or hatch.id} is cut is not stated: give bottom_mm and top_mm."
    else:
        text = (
            f"No hatch is named for {frame.item.name}, so whether it comes out is not known: "
            "describe the [[hatch]] and name it in through."
        )
    return Gap("pack-slides-out", (frame.item.id,), text)


def _add_ways(found: Collected, ways: Sequence[_Way], kept: Kept | None) -> None:
    """Add the least distance from what each box sweeps to anything that stays where it is."""
    groups = [(way.sweeps, way.others) for way in ways]
    for way, one in zip(ways, nearest(groups, kept, "ways out"), strict=True):
        if one is None:
            continue
        item = way.frame.item
        found.add(
            Check(
                "pack-slides-out",
                "fit.pack-slides-out",
                (item.id, one.owner.id),
                f"fit.pack-slides-out@{item.id}",
                (way.hatch.name or way.hatch.id,),
                one.station_mm,
            ),
            one.distance_mm,
            f"room on the way out, {item.name}",
            one.slopes,
        )
