"""Trays as plates, and their openings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from hardstand.description.places import Hole, Tray
from hardstand.engines.fit.body import Body, Floats, checked_body
from hardstand.engines.fit.outlines import columns
from hardstand.engines.fit.piece import Follow, Owner, Piece
from hardstand.engines.kept import Kept
from hardstand.figures import Input
from hardstand.standards import tolerances

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

COLUMN_MM = 1000.0  # an opening kept free is a column: the way off it is always sideways
_QUARTER = 8  # segments of a quarter circle: a round opening comes out 0.5 % small, never large


def edge_input(tray: Tray) -> Input:
    """How well the edges of a tray and of its openings are known, as an input of value 0."""
    address = f"tray.{tray.id}.outline_mm"
    default = tolerances.EDGE
    u_from = f"class default: {default.name}"
    return Input(address, 0.0, "mm", default.fixed / 2.0, "declared", address, u_from)


def top_input(tray: Tray) -> Input:
    """The height of a tray's top."""
    address = f"tray.{tray.id}.top_z_mm"
    tol = tolerances.TRAY.fixed if tray.tol_mm is None else tray.tol_mm
    return Input(address, tray.top_z_mm, "mm", tol / 2.0, "declared", address, "tray")


def opening(hole: Hole) -> Polygon:
    """An opening in plan; arcs are cut short, so it is never larger than the true one."""
    from shapely import LineString, Point, Polygon

    if hole.outline_mm is not None:
        return Polygon(hole.outline_mm)
    if hole.at_mm is not None and hole.diameter_mm is not None:
        return Point(hole.at_mm).buffer(hole.diameter_mm / 2.0, quad_segs=_QUARTER)
    assert hole.from_mm is not None  # checked when the description was read
    assert hole.to_mm is not None
    assert hole.width_mm is not None
    return LineString([hole.from_mm, hole.to_mm]).buffer(hole.width_mm / 2.0, quad_segs=_QUARTER)


def hole_pieces(hole: Hole, tray: Tray) -> list[Piece]:
    """An opening that must stay free as columns through the tray; none where it need not."""
    if not hole.keep_open:
        return []
    owner = Owner(hole.id, hole.id, "hole", hole.purpose, on=tray.id)
    follow = Follow(edge_input(tray), np.zeros(3), np.zeros(3), 1.0)
    bodies = (
        columns(opening(hole), tray.top_z_mm - COLUMN_MM, tray.top_z_mm + COLUMN_MM)
        if hole.outline_mm is not None
        else [_round_column(hole, tray)]
    )
    return [Piece(body, "hole", owner, hole.id, (follow,)) for body in bodies]


def _round_column(hole: Hole, tray: Tray) -> Body:
    """A round or round-ended opening as an upright sheet with rounding: its true shape in plan."""
    start = np.array(hole.from_mm if hole.at_mm is None else hole.at_mm, dtype=float)
    end = np.array(hole.to_mm if hole.at_mm is None else hole.at_mm, dtype=float)
    width = float(hole.width_mm if hole.at_mm is None else hole.diameter_mm or 0.0)  # type: ignore[arg-type]
    length = float(np.linalg.norm(end - start))
    x, y = (end - start) / length if length > 0.0 else (1.0, 0.0)
    turn = np.array([[x, -y, 0.0], [y, x, 0.0], [0.0, 0.0, 1.0]])
    half = np.array([length / 2.0, 0.0, COLUMN_MM])
    centre = (*((start + end) / 2.0), tray.top_z_mm)
    return checked_body("box", centre, turn, half, (), width / 2.0)


def tray_pieces(
    tray: Tray,
    holes: Sequence[Hole],
    others: Sequence[Piece],
    spans: tuple[Floats, Floats],
    kept: Kept | None = None,
) -> list[Piece]:
    """A tray's plate. Openings are cut out where another piece comes near enough to use them.

    `spans` are the lowest and highest corners (P, 3) of the others.
    """
    kept = kept or Kept()
    bottom, top = tray.top_z_mm - tray.thickness_mm, tray.top_z_mm
    low, high = spans
    level = np.flatnonzero((low[:, 2] < top) & (high[:, 2] > bottom)).tolist()
    passing = [k for k in level if others[k].owner.on != tray.id]
    own = {hole.id: (hole,) for hole in holes if hole.tray == tray.id} if passing else {}
    bounds = kept.each(f"bounds {tray.id}", own, lambda one: opening(*one).bounds)
    used = [name for name in own if _meets(bounds[name], low[passing], high[passing])]
    content = (tray, [own[name][0] for name in used])
    return kept.each(f"plate {tray.id}", {tray.id: content}, lambda rows: _plate(*rows))[tray.id]


def _plate(tray: Tray, holes: Sequence[Hole]) -> list[Piece]:
    """A tray's plate with some of its openings cut out."""
    import shapely
    from shapely import Polygon

    plate: BaseGeometry = Polygon(tray.outline_mm)
    for hole in holes:
        plate = plate.difference(opening(hole))
    owner = Owner(tray.id, tray.name or tray.id, "tray", "tray")
    follows = (
        Follow(top_input(tray), np.array([0.0, 0.0, 1.0]), np.zeros(3)),
        Follow(edge_input(tray), np.zeros(3), np.array([1.0, 0.0, 0.0])),
    )
    parts = [one for one in shapely.get_parts(plate) if one.area > 0.0]
    return [
        Piece(body, "tray", owner, tray.id, follows)
        for part in parts
        for body in columns(part, tray.top_z_mm - tray.thickness_mm, tray.top_z_mm)
    ]


def _meets(bounds: tuple[float, float, float, float], low: Floats, high: Floats) -> bool:
    """Whether any span in plan, from `low` to `high` (K, 3), comes over these bounds."""
    x = (low[:, 0] < bounds[2]) & (high[:, 0] > bounds[0])
    y = (low[:, 1] < bounds[3]) & (high[:, 1] > bounds[1])
    return bool((x & y).any())
