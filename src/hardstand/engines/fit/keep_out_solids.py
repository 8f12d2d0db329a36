"""Keep-outs as convex pieces."""

from __future__ import annotations

import numpy as np

from hardstand.description.places import KeepOut
from hardstand.engines.fit.body import Body
from hardstand.engines.fit.outlines import columns, wedges
from hardstand.engines.fit.piece import Follow, Owner, Piece
from hardstand.engines.fit.shapes import box, capsule
from hardstand.figures import Input
from hardstand.standards import tolerances

# Above an underside everything is taken as full up to here, so that the way out is always down.
CEILING_MM = 1000.0


def keep_out_owner(row: KeepOut) -> Owner:
    """What the rules need to know of a keep-out."""
    return Owner(row.id, row.name or row.id, "keep_out", row.kind, removable=row.removable)


def keep_out_pieces(row: KeepOut) -> list[Piece]:
    """The pieces of a keep-out. All of its surface is known to the same tolerance."""
    tol = tolerances.KEEP_OUT.fixed if row.tol_mm is None else row.tol_mm
    address = f"keep_out.{row.id}.tol_mm"
    default = f"class default: {tolerances.KEEP_OUT.name}"
    u_from = default if row.tol_mm is None else "tolerance in the file"
    surface = Input(address, 0.0, "mm", tol / 2.0, "declared", address, u_from)
    follow = Follow(surface, np.zeros(3), np.zeros(3), 1.0)
    owner = keep_out_owner(row)
    return [Piece(body, "keep_out", owner, row.id, (follow,)) for body in _bodies(row)]


def _bodies(row: KeepOut) -> list[Body]:
    if row.shape == "box" and row.at_mm is not None and row.size_mm is not None:
        return [box(row.at_mm, row.size_mm, row.turn_deg)]
    if row.shape == "cylinder" and row.from_mm is not None and row.to_mm is not None:
        # capsule finds the frame along the axis; the ends of a keep-out are flat
        line = capsule(row.from_mm, row.to_mm, 0.0)
        radius = (row.diameter_mm or 0.0) / 2.0
        half = np.array([radius, radius, line.half_mm[2]])
        return [Body("cylinder", line.centre_mm, line.rotation, half, line.corners_mm)]
    if row.shape == "prism" and row.outline_mm is not None:
        from shapely import Polygon

        assert row.bottom_mm is not None  # checked when the description was read
        assert row.top_mm is not None
        return columns(Polygon(row.outline_mm), row.bottom_mm, row.top_mm)
    assert row.profile_mm is not None  # the only shape left is the underside
    assert row.y_mm is not None
    highest = max(z for _, z in row.profile_mm)
    return wedges(row.profile_mm, row.y_mm, highest + CEILING_MM)
