"""Node: what must come out, be reached and be seen."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.asbuilt.value import BaySection
from hardstand.engines.fit.bay_checks import homes
from hardstand.engines.fit.bay_shape import bay_shapes
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.item_frame import ItemFrame, item_frame
from hardstand.engines.fit.model import Access, Gap
from hardstand.engines.fit.pack_checks import pack_checks
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
    shapes = bay_shapes(slices.sections)
    packs: list[tuple[ItemFrame, list[BaySection]]] = []
    for item in sorted(slices.items, key=lambda one: one.id):
        frame = item_frame(item, tops.get(item.on or ""))
        if item.kind == "pack" or item.part.slides_out is not None:
            shape = homes(shapes, np.array([item.centre_mm]))[0]
            bay = shape.id if shape is not None else ""
            packs.append((frame, [one for one in slices.sections if one.bay == bay]))
        if item.part.needs_reach:
            reach_check(found, gaps, frame, slices.hatches)
        if item.part.needs_view:
            view_check(found, gaps, frame, slices.hatches, solids)
    gaps += pack_checks(found, packs, slices.hatches, solids)
    return Access(found.figures(), tuple(found.checks), tuple(gaps))
