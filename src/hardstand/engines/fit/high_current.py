"""Leads that carry much current, as straight lines from port to port until their routes are known."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from hardstand.description.items import Lead
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.piece import Owner, Piece
from hardstand.engines.fit.plug_zones import port_point_mm
from hardstand.engines.fit.shapes import capsule
from hardstand.engines.kept import Kept

HIGH_A = 5.0  # common practice, no source


def lead_current_a(lead: Lead, frames: Mapping[str, ItemFrame]) -> float | None:
    """What a lead may carry: the smaller of its two ports' currents, None where neither is known."""
    known = []
    for end in (lead.from_, lead.to):
        item_id, _, name = end.partition(".")
        if item_id in frames:
            known += [
                one.port.current_a
                for one in frames[item_id].item.ports
                if one.name == name and one.port.current_a is not None
            ]
    return min(known, default=None)


def lead_pieces(
    leads: Iterable[Lead], frames: Mapping[str, ItemFrame], kept: Kept | None = None
) -> list[Piece]:
    """High-current leads between two placed ports; `supports` of each names its two items.

    The real route is longer than the straight line and may pass nearer or farther.
    """
    frames_of = {
        lead.id: (lead, [frames.get(end.partition(".")[0]) for end in (lead.from_, lead.to)])
        for lead in sorted(leads, key=lambda row: row.id)
    }
    made = (kept or Kept()).each("leads", frames_of, lambda one: _lead_piece(one[0], frames))
    return [piece for piece in made.values() if piece is not None]


def _lead_piece(lead: Lead, frames: Mapping[str, ItemFrame]) -> Piece | None:
    current = lead_current_a(lead, frames)
    if current is None or current < HIGH_A:
        return None
    ends, at = [], set()
    for end in (lead.from_, lead.to):
        item_id, _, name = end.partition(".")
        if item_id not in frames:
            continue
        point = port_point_mm(frames[item_id], name)
        if point is not None:
            ends.append(point)
            at.add(item_id)
    if len(ends) != 2:
        return None
    owner = Owner(lead.id, f"lead {lead.id}", "lead", "lead", supports=frozenset(at))
    return Piece(capsule(ends[0], ends[1], 0.0), "lead", owner, lead.id, ())
