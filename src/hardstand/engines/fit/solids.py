"""Node: everything aboard as convex pieces."""

from __future__ import annotations

from typing import Any

from hardstand.asbuilt.value import PlacedItem
from hardstand.engines.fit.follow_table import follow_table
from hardstand.engines.fit.item_frame import ItemFrame, item_frame
from hardstand.engines.fit.item_solids import item_pieces, owner_of
from hardstand.engines.fit.keep_out_solids import keep_out_pieces
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.engines.fit.plug_zones import zone_pieces
from hardstand.engines.fit.stack import spans, stack
from hardstand.engines.fit.tray_solids import hole_pieces, tray_pieces
from hardstand.engines.kept import Kept


def pieces_of(placed: tuple[PlacedItem, float | None]) -> tuple[ItemFrame, list[Piece]]:
    """The frame of an item on a tray with its top at some height, its solids and plug zones."""
    frame = item_frame(*placed)
    owner = owner_of(frame.item)
    return frame, [*item_pieces(frame, owner), *zone_pieces(frame, owner)]


def solids(slices: Any, _: Any, kept: Kept | None = None) -> Solids:
    """All pieces, by table and id, so that the order of rows in the file changes nothing.

    slices: items, trays, holes, keep_outs.
    """
    kept = kept or Kept()
    trays = sorted(slices.trays, key=lambda row: row.id)
    by_id = {tray.id: tray for tray in trays}
    placed = {
        item.id: (item, by_id[item.on].top_z_mm if item.on is not None else None)
        for item in sorted(slices.items, key=lambda item: item.id)
    }
    made = kept.each("items", placed, pieces_of)
    frames = {one: frame for one, (frame, _) in made.items()}
    mobile = [piece for _, pieces in made.values() for piece in pieces]
    found = list(mobile)
    reach = spans(stack([piece.body for piece in mobile]))
    keep_outs = {row.id: row for row in sorted(slices.keep_outs, key=lambda row: row.id)}
    for pieces in kept.each("keep-outs", keep_outs, keep_out_pieces).values():
        found += pieces
    holes = sorted(slices.holes, key=lambda row: row.id)
    for tray in trays:
        found += tray_pieces(tray, holes, mobile, reach, kept)
    cut = {hole.id: (hole, by_id[hole.tray]) for hole in holes}
    for pieces in kept.each("holes", cut, lambda one: hole_pieces(*one)).values():
        found += pieces
    names = {piece.owner.id: piece.owner.name for piece in reversed(found)}
    bodies = stack([piece.body for piece in found])
    return Solids(tuple(found), names, frames, bodies, *spans(bodies), follow_table(found))
