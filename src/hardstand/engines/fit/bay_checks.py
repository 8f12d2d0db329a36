"""Whether items and their plugs lie within the skin of the bay they are in."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hardstand.engines.fit.bay_shape import BayShape
from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.model import Check
from hardstand.engines.fit.piece import Piece
from hardstand.engines.fit.stack import Index
from hardstand.figures import Input

_RIM = 24
# Each edge is looked at in so many parts: more where a skin bulges inward between its corners.
_PARTS_CONVEX, _PARTS = 2, 6
_CORNERS = np.array([(x, y, z) for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)], dtype=float)
_EDGES = [
    (i, j) for i in range(8) for j in range(i) if int(np.abs(_CORNERS[i] - _CORNERS[j]).sum()) == 2
]


def outer_points(body: Body, stations_mm: Floats, parts: int) -> Floats:
    """Points (N, 3) of a body's edges, in the aeroplane's axes; each edge in so many parts.

    All its corners, points between them, and where edges pass a station. A cylinder is taken by 24
    lines along it, which miss its true surface by less than 0.9 % of its radius.
    """
    if body.kind == "polytope":
        world = body.centre_mm + body.corners_mm @ body.rotation.T
        starts, ends = world, np.roll(world, 1, axis=0)
    elif body.kind == "cylinder":
        angle = np.arange(_RIM) * 2.0 * np.pi / _RIM
        rim = np.column_stack([np.cos(angle), np.sin(angle), np.ones(_RIM)]) * body.half_mm
        starts = body.centre_mm + rim @ body.rotation.T
        ends = body.centre_mm + (rim * np.array([1.0, 1.0, -1.0])) @ body.rotation.T
    else:
        world = body.centre_mm + (_CORNERS * body.half_mm) @ body.rotation.T
        starts, ends = (world[[edge[k] for edge in _EDGES]] for k in (0, 1))
    steps = np.linspace(0.0, 1.0, parts + 1)[:, None, None]
    points = [(starts + steps * (ends - starts)).reshape(-1, 3)]
    run = ends[:, 0] - starts[:, 0]
    share = (stations_mm[:, None] - starts[:, 0]) / np.where(run == 0.0, np.inf, run)
    passing = (share > 0.0) & (share < 1.0)
    edge = np.nonzero(passing)[1]
    points.append(starts[edge] + share[passing][:, None] * (ends - starts)[edge])
    return np.concatenate(points)


def homes(shapes: Sequence[BayShape], centre_mm: Floats) -> list[BayShape | None]:
    """The bay that holds each point (N, 3): where bays overlap the one it lies deepest in."""
    best: list[BayShape | None] = [None] * len(centre_mm)
    most = np.zeros(len(centre_mm))
    for shape in shapes:
        within = np.flatnonzero(shape.covers(centre_mm[:, 0]))
        depth = shape.depth(centre_mm[within])[0]
        for k, value in zip(within.tolist(), depth.tolist(), strict=True):
            if value > most[k]:
                best[k], most[k] = shape, value
    return best


def bay_checks(found: Collected, pieces: Sequence[Piece], shape: BayShape) -> None:
    """Add the least distance within a bay of each subject among some pieces."""
    parts = _PARTS_CONVEX if shape.convex() else _PARTS
    points = [outer_points(piece.body, shape.stations_mm, parts) for piece in pieces]
    which = np.repeat(np.arange(len(pieces)), [len(one) for one in points])
    everything = np.concatenate([np.zeros((0, 3)), *points])
    within = shape.covers(everything[:, 0])
    which, everything = which[within], everything[within]
    value, slope, u = shape.depth(everything)
    nearest: dict[str, int] = {}
    for k in _first_least(which, value).tolist():
        subject = pieces[which[k]].subject
        if subject not in nearest or value[k] < value[nearest[subject]]:
            nearest[subject] = k
    for piece in pieces:
        k = nearest.pop(piece.subject, -1)
        if k >= 0:
            skin = _skin(shape, float(u[k]))
            slopes = _slopes(pieces[which[k]], everything[k], slope[k]) | {skin: 1.0}
            check = _check(piece, shape, float(everything[k, 0]))
            label = f"distance within the skin, {piece.owner.name}"
            found.add(check, float(value[k]), label, slopes)


def _first_least(which: Index, value: Floats) -> Index:
    """Of each run of equal `which` (N,), the index of its least value, the first of equal ones."""
    order = np.lexsort((value, which))
    return order[np.flatnonzero(np.diff(which[order], prepend=-1))]


def _skin(shape: BayShape, u_mm: float) -> Input:
    address = f"bay.{shape.id}.inside_mm"
    return Input(address, 0.0, "mm", u_mm, "declared", f"bay.{shape.id}", "sections")


def _check(piece: Piece, shape: BayShape, x_mm: float) -> Check:
    zone = piece.role == "zone"
    slug, limit = ("plug-room", "fit.plug-room") if zone else ("bay-gap", "fit.structure-gap")
    address = f"fit.{slug}@{piece.subject}+{shape.id}"
    return Check(slug, limit, (piece.owner.id, shape.id), address, (f"{x_mm:.0f}",))


def _slopes(piece: Piece, point_mm: Floats, slope: Floats) -> dict[Input, float]:
    """How the depth of a point of a piece follows the piece's inputs.

    On a box the point keeps its share of each half size; on anything round it is the surface that
    moves out.
    """
    body = piece.body
    own = body.rotation.T @ slope
    local = body.rotation.T @ (point_mm - body.centre_mm)
    if body.kind == "box":
        share = np.divide(local, body.half_mm, out=np.zeros(3), where=body.half_mm > 0.0)
        reach = -own * share
    else:
        reach = _round(own)
    slopes = {
        one.input: float(one.centre @ slope - one.half @ reach - one.surface)
        for one in piece.follows
    }
    return {one: value for one, value in slopes.items() if value != 0.0}


def _round(own: Floats) -> Floats:
    return np.array([np.hypot(own[0], own[1]), 0.0, abs(own[2])])
