"""Node: what must come out, be reached and be seen."""

from __future__ import annotations

from typing import Any

from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.item_frame import item_frame
from hardstand.engines.fit.model import Access, Gap
from hardstand.engines.fit.pack_ways import pack_checks
from hardstand.engines.fit.piece import Solids
from hardstand.engines.fit.sight import reach_check, view_check


def access(slices: Any, earlier: Any) -> Access:
    """Packs out through their hatch, switches within reach, displays in view.

    slices: items, trays, hatches, sections. Packs are items of kind pack and whatever else slides
    out by its part.
    """
    solids: Solids = earlier["fit.solids"]
    tops = {tray.id: tray.top_z_mm for tray in slices.trays}
    found, gaps = Collected("straight ways out and lines of sight"), list[Gap]()
    for item in sorted(slices.items, key=lambda one: one.id):
        frame = item_frame(item, tops.get(item.on or ""))
        if item.kind == "pack" or item.part.slides_out is not None:
            pack_checks(found, gaps, frame, solids, slices)
        if item.part.needs_reach:
            reach_check(found, gaps, frame, slices.hatches)
        if item.part.needs_view:
            view_check(found, gaps, frame, slices.hatches, solids)
    return Access(found.figures(), tuple(found.checks), tuple(gaps))
