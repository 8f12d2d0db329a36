"""Node: items within what holds them: tray, height above it, bay."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.fit.bay_checks import bay_checks, homes
from hardstand.engines.fit.bay_shape import bay_shapes
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.model import Contained
from hardstand.engines.fit.piece import Solids
from hardstand.engines.fit.tray_checks import (
    bases_within,
    edge_check,
    height_check,
    zone_height_check,
)
from hardstand.engines.kept import Kept


def containment(slices: Any, earlier: Any, kept: Kept | None = None) -> Contained:
    """Base on the tray, top under its free height, box and plugs within the bay's skin.

    An item belongs to the bay that its middle lies in; one in none (in a wing, say) is named.
    slices: trays, sections.
    """
    solids: Solids = earlier["fit.solids"]
    found = Collected("exact outlines in plan; skin straight between stations")
    trays = {tray.id: tray for tray in slices.trays}
    on_trays = [one for one in solids.frames.values() if one.item.on is not None]
    spares: dict[str, tuple[float, Floats]] = {}
    for tray in trays.values():
        standing = [frame for frame in on_trays if frame.item.on == tray.id]
        for frame, *spare in zip(standing, *bases_within(standing, tray), strict=True):
            spares[frame.item.id] = (float(spare[0]), spare[1])
    for frame in on_trays:
        tray = trays[str(frame.item.on)]
        edge_check(found, frame, tray, *spares[frame.item.id])
        height_check(found, frame, tray)
    mobile, content = solids.of_role("item", "zone"), solids.bodies.contents()
    for piece in (solids.pieces[k] for k in mobile):
        if piece.role == "zone" and piece.owner.on is not None:
            zone_height_check(found, piece, trays[piece.owner.on])
    shapes = bay_shapes(slices.sections)
    centres = np.array([one.item.centre_mm for one in solids.frames.values()]).reshape(-1, 3)
    bays = dict(zip(solids.frames, homes(shapes, centres, kept), strict=True))
    for shape in shapes:
        inside = [k for k in mobile if bays[solids.pieces[k].owner.id] is shape]
        pieces = [solids.pieces[k] for k in inside]
        bay_checks(found, pieces, [content[k] for k in inside], shape, kept)
    outside = tuple(one for one, shape in bays.items() if shape is None) if shapes else ()
    return Contained(found.figures(), tuple(found.checks), outside)
