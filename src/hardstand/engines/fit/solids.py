"""Node: everything aboard as convex pieces."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.places import Tray
from hardstand.engines.fit.item_frame import item_frame
from hardstand.engines.fit.item_solids import item_pieces, owner_of
from hardstand.engines.fit.keep_out_solids import keep_out_pieces
from hardstand.engines.fit.piece import Piece, Solids, spans
from hardstand.engines.fit.plug_zones import zone_pieces
from hardstand.engines.fit.tray_solids import hole_pieces, tray_pieces


def pieces_of(item: PlacedItem, trays: Iterable[Tray]) -> list[Piece]:
    """The solid pieces and plug zones of one item."""
    top = next((tray.top_z_mm for tray in trays if tray.id == item.on), None)
    frame, owner = item_frame(item, top), owner_of(item)
    return [*item_pieces(frame, owner), *zone_pieces(frame, owner)]


def solids(slices: Any, _: Any) -> Solids:
    """All pieces, by table and id, so that the order of rows in the file changes nothing.

    slices: items, trays, holes, keep_outs.
    """
    trays = sorted(slices.trays, key=lambda row: row.id)
    by_id = {tray.id: tray for tray in trays}
    items = sorted(slices.items, key=lambda item: item.id)
    found = [piece for item in items for piece in pieces_of(item, trays)]
    mobile, low, high = list(found), *spans(found)
    for row in sorted(slices.keep_outs, key=lambda row: row.id):
        found += keep_out_pieces(row)
    holes = sorted(slices.holes, key=lambda row: row.id)
    for tray in trays:
        found += tray_pieces(tray, holes, mobile, (low, high))
    for hole in holes:
        found += hole_pieces(hole, by_id[hole.tray])
    names = {piece.owner.id: piece.owner.name for piece in reversed(found)}
    return Solids(tuple(found), names, *spans(found))
