"""Node: what must come out, be reached and be seen."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.fit.bay_checks import homes
from hardstand.engines.fit.bay_shape import bay_shapes
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.model import Access, Gap
from hardstand.engines.fit.pack_checks import pack_checks
from hardstand.engines.fit.piece import Solids
from hardstand.engines.fit.sight import reach_check, view_checks
from hardstand.engines.kept import Kept


def access(slices: Any, earlier: Any, kept: Kept | None = None) -> Access:
    """Packs out through their hatch, switches within reach, displays in view.

    slices: hatches, sections. Packs are items of kind pack and whatever else slides
    out by its part.
    """
    solids: Solids = earlier["fit.solids"]
    found, gaps = Collected("straight ways out and lines of sight"), list[Gap]()
    frames = list(solids.frames.values())
    for frame in frames:
        if frame.item.part.needs_reach:
            reach_check(found, gaps, frame, slices.hatches)
    displays = [frame for frame in frames if frame.item.part.needs_view]
    view_checks(found, gaps, displays, slices.hatches, solids, kept)
    packs = [
        one for one in frames if one.item.kind == "pack" or one.item.part.slides_out is not None
    ]
    centres = np.array([frame.item.centre_mm for frame in packs]).reshape(-1, 3)
    bays = homes(bay_shapes(slices.sections), centres, kept)
    around = [
        [one for one in slices.sections if bay is not None and one.bay == bay.id] for bay in bays
    ]
    pairs = list(zip(packs, around, strict=True))
    gaps += pack_checks(found, pairs, slices.hatches, solids, kept)
    return Access(found.figures(), tuple(found.checks), tuple(gaps))
