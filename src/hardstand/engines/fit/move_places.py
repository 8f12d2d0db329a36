"""Where an item may be moved to: whole millimetres, nearest first, on its tray and in its bay."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.places import Tray
from hardstand.engines.fit.bay_checks import outer_points
from hardstand.engines.fit.bay_shape import BayShape
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.piece import Piece
from hardstand.engines.fit.rectangles import footprint_mm
from hardstand.engines.fit.stack import Bools
from hardstand.engines.fit.tray_checks import extent_mm

FARTHEST_MM = 40
_FINE_MM = 16  # beyond it every other millimetre, where both axes are free


def moves_of(item: PlacedItem) -> Floats:
    """Moves (C, 3) that the description allows, nearest first; none where the item is fixed.

    They are whole millimetres; beyond 16 mm every other one, where both axes are free.

    An item with a range along an axis moves within it and along no other; one on a tray without any
    range moves all over it; one off a tray without a range is fixed.
    """
    ranges = (item.movable_x_mm, item.movable_y_mm)
    if item.on is None and ranges == (None, None):
        return np.zeros((0, 3))
    free = ranges == (None, None)
    span = np.arange(-FARTHEST_MM, FARTHEST_MM + 1, dtype=np.float64)
    axes = []
    for k, given in enumerate(ranges):
        at = item.centre_mm[k] + span
        if given is not None:
            axes.append(span[(at >= given[0]) & (at <= given[1])])
        else:
            axes.append(span if free else np.zeros(1))
    x, y = (one.ravel() for one in np.meshgrid(*axes, indexing="ij"))
    away = np.hypot(x, y)
    coarse = (x % 2.0 == 0.0) & (y % 2.0 == 0.0)
    one_way = any(len(axis) == 1 for axis in axes)
    kept = (away > 0.0) & (away <= FARTHEST_MM) & ((away <= _FINE_MM) | coarse | one_way)
    order = np.lexsort((y[kept], x[kept], away[kept].round(6)))
    moves = np.column_stack([x[kept], y[kept], np.zeros(int(kept.sum()))])
    return np.asarray(moves[order])


def on_tray(frame: ItemFrame, tray: Tray, moves_mm: Floats, spare_mm: float) -> Bools:
    """Whether (C,) the base stays on its tray with so much to spare."""
    import shapely
    from shapely import Polygon

    base = footprint_mm(frame.item.centre_mm, extent_mm(frame))
    grow = np.array([-spare_mm, -spare_mm, spare_mm, spare_mm])
    plan = base + grow + np.hstack([moves_mm[:, :2], moves_mm[:, :2]])
    outline: Any = Polygon(tray.outline_mm)
    shapely.prepare(outline)
    return np.asarray(shapely.covers(outline, shapely.box(*plan.T)), dtype=bool)


def spare_in_bay(
    pieces: Sequence[Piece], shape: BayShape, moves_mm: Floats, gap_mm: float, u_mm: float
) -> Floats:
    """How much (C,) the solids stay within the skin beyond `gap_mm` and U, and the plugs beyond U.

    Not below zero: the move is allowed. A move raises it by no more than its own length.
    """
    spare = np.full(len(moves_mm), np.inf)
    for piece in pieces:
        least = (gap_mm if piece.role == "item" else 0.0) + 2.0 * u_mm
        points = outer_points(piece.body, shape.stations_mm, 2)
        moved = (points[None] + moves_mm[:, None]).reshape(-1, 3)
        depth = np.where(shape.covers(moved[:, 0]), shape.depth(moved).distance_mm, np.inf)
        spare = np.minimum(spare, depth.reshape(len(moves_mm), -1).min(axis=1) - least)
    return spare
