"""Node: everything aboard as convex pieces."""

from __future__ import annotations

from typing import Any

from hardstand.engines.fit.follow_table import follow_table
from hardstand.engines.fit.item_frame import item_frame
from hardstand.engines.fit.item_solids import item_pieces, owner_of
from hardstand.engines.fit.keep_out_solids import keep_out_pieces
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.engines.fit.plug_zones import zone_pieces
from hardstand.engines.fit.stack import spans, stack
from hardstand.engines.fit.tray_solids import hole_pieces, tray_pieces


def solids(slices: Any, _: Any) -> Solids:
    """All pieces, by table and id, so that the order of rows in the file changes nothing.

    slices: items, trays, holes, keep_outs.
    """
    trays = sorted(slices.trays, key=lambda row: row.id)
    by_id = {tray.id: tray for tray in trays}
    frames = {
        item.id: item_frame(item, by_id[item.on].top_z_mm if item.on is not None else None)
        for item in sorted(slices.items, key=lambda item: item.id)
    }
    found: list[Piece] = []
    for frame in frames.values():
        owner = owner_of(frame.item)
        found += [*item_pieces(frame, owner), *zone_pieces(frame, owner)]
    mobile = list(found)
    reach = spans(stack([piece.body for piece in mobile]))
    for row in sorted(slices.keep_outs, key=lambda row: row.id):
        found += keep_out_pieces(row)
    holes = sorted(slices.holes, key=lambda row: row.id)
    for tray in trays:
        found += tray_pieces(tray, holes, mobile, reach)
    for hole in holes:
        found += hole_pieces(hole, by_id[hole.tray])
    names = {piece.owner.id: piece.owner.name for piece in reversed(found)}
    bodies = stack([piece.body for piece in found])
    return Solids(tuple(found), names, frames, bodies, *spans(bodies), follow_table(found))
