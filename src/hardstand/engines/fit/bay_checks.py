"""Whether items and their plugs lie within the skin of the bay they are in."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import numpy as np

from hardstand.engines.fit.bay_shape import BayShape
from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.model import Check
from hardstand.engines.fit.piece import Piece
from hardstand.engines.fit.stack import Index
from hardstand.engines.kept import Kept
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


def homes(
    shapes: Sequence[BayShape], centre_mm: Floats, kept: Kept | None = None
) -> list[BayShape | None]:
    """The bay that holds each point (N, 3): where bays overlap the one it lies deepest in."""
    kept = kept or Kept()
    points = [one.tobytes() for one in centre_mm]
    best: list[BayShape | None] = [None] * len(centre_mm)
    most = np.zeros(len(centre_mm))
    for shape in shapes:
        within = np.flatnonzero(shape.covers(centre_mm[:, 0]))
        bay = shape.content()
        depth = kept.rows(
            f"depth in {shape.id}",
            [(points[k], bay) for k in within.tolist()],
            partial(_depths, shape, centre_mm[within]),
        )
        for k, value in zip(within.tolist(), depth[:, 0].tolist(), strict=True):
            if value > most[k]:
                best[k], most[k] = shape, value
    return best


def _depths(shape: BayShape, point_mm: Floats, places: Index) -> Floats:
    return shape.depth(point_mm[places]).distance_mm[:, None]


def bay_checks(
    found: Collected,
    pieces: Sequence[Piece],
    content: Sequence[bytes],
    shape: BayShape,
    kept: Kept | None = None,
) -> None:
    """Add the least distance within a bay of each subject among some pieces.

    `content` tells whether a piece is one that `kept` holds.
    """
    if not pieces:
        return
    kept, bay = kept or Kept(), shape.content()
    rows = kept.rows(
        f"bay {shape.id}",
        [(one, bay) for one in content],
        lambda places: _nearest_to_skin([pieces[k] for k in places.tolist()], shape),
    )
    nearest: dict[str, int] = {}
    for k in np.flatnonzero(np.isfinite(rows[:, 0])).tolist():
        least = nearest.setdefault(pieces[k].subject, k)
        if rows[k, 0] < rows[least, 0]:
            nearest[pieces[k].subject] = k
    seen = {
        subject: (pieces[k], rows[k].tobytes(), shape.walls) for subject, k in nearest.items()
    }
    made = kept.each(f"checks {shape.id}", seen, lambda one: _made(one[0], one[1], shape))
    for subject, k in nearest.items():
        check, label, slopes = made[subject]
        found.add(check, float(rows[k, 0]), label, slopes)


def _made(piece: Piece, row: bytes, shape: BayShape) -> tuple[Check, str, dict[Input, float]]:
    """The check of a piece by its row of `_nearest_to_skin`, its label, and its slopes."""
    numbers = np.frombuffer(row)
    point, slope, by_wall = np.split(numbers[1:9], (3, 6))
    section = int(numbers[9])
    walls = zip(shape.walls[section : section + 2], by_wall.tolist(), strict=True)
    slopes = _slopes(piece, point, slope) | {one: by for one, by in walls if by != 0.0}
    label = f"distance within the skin, {piece.owner.name}"
    return _check(piece, shape, float(point[0])), label, slopes


def _nearest_to_skin(pieces: Sequence[Piece], shape: BayShape) -> Floats:
    """For each piece its point nearest the skin, among those between the bay's ends.

    Rows (P, 10): distance (infinite without a point), the point, the distance's slope with it and
    with the two walls, and the number of the section before it.
    """
    parts = _PARTS_CONVEX if shape.convex() else _PARTS
    points = [outer_points(piece.body, shape.stations_mm, parts) for piece in pieces]
    which = np.repeat(np.arange(len(pieces)), [len(one) for one in points])
    everything = np.concatenate(points)
    within = shape.covers(everything[:, 0])
    which, everything = which[within], everything[within]
    depth = shape.depth(everything)
    order = np.lexsort((depth.distance_mm, which))  # stable: of equal ones the first
    least = order[np.flatnonzero(np.diff(which[order], prepend=-1))]
    rows = np.full((len(pieces), 10), np.inf)
    columns = (depth.distance_mm, everything, depth.slope, depth.by_wall, depth.section)
    rows[which[least]] = np.column_stack([one[least] for one in columns])
    return rows


def _check(piece: Piece, shape: BayShape, x_mm: float) -> Check:
    zone = piece.role == "zone"
    slug, limit = ("plug-room", "fit.plug-room") if zone else ("bay-gap", "fit.structure-gap")
    address = f"fit.{slug}@{piece.subject}+{shape.id}"
    return Check(slug, limit, (piece.owner.id, shape.id), address, station_mm=x_mm)


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
    return {
        one.input: value
        for one in piece.follows
        if (value := float(one.centre @ slope - one.half @ reach - one.surface)) != 0.0
    }


def _round(own: Floats) -> Floats:
    return np.array([np.hypot(own[0], own[1]), 0.0, abs(own[2])])
