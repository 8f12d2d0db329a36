"""What a relaxed solution does that a layout may not: overlaps, holes, half millimetres."""

from __future__ import annotations

from dataclasses import dataclass, field

from hardstand.engines.fit.layout.board import Board
from hardstand.engines.fit.layout.footprint import Part
from hardstand.engines.fit.layout.problem import Rectangle
from hardstand.engines.fit.layout.relaxation import Place

_SLACK_MM = 1e-4


@dataclass(frozen=True, slots=True)
class Overlap:
    """Part of item i and part of item j overlap on a tray; `depth_mm` at the shallowest side."""

    i: int
    part: int
    j: int
    other: int
    tray: int
    depth_mm: float = field(default=0.0, compare=False)


@dataclass(frozen=True, slots=True)
class InHole:
    """The corner of item i in stance a is where it may not be; `depth_mm` to the nearest side."""

    i: int
    a: int
    hole: Rectangle
    depth_mm: float = field(default=0.0, compare=False)


@dataclass(frozen=True, slots=True)
class BetweenMillimetres:
    """The corner of item i is off the grid."""

    i: int


Conflict = Overlap | InHole | BetweenMillimetres


def conflicts(board: Board, places: list[Place]) -> list[Conflict]:
    """The conflicts of a relaxed solution; of each two items the deepest. Off-grid ones last."""
    found: list[Conflict] = []
    for i, (a, x, y) in enumerate(places):
        hole = _hole(board, i, a, x, y)
        if hole is not None:
            found.append(hole)
        for j in range(i):
            deepest = _deepest(board, (j, places[j]), (i, places[i]))
            if deepest is not None:
                found.append(deepest)
    if not found:
        for i, (_, x, y) in enumerate(places):
            if max(abs(x - round(x)), abs(y - round(y))) > _SLACK_MM:
                found.append(BetweenMillimetres(i))
    return found


def _hole(board: Board, i: int, a: int, x: float, y: float) -> InHole | None:
    one = board.stances[i][a]
    for hole in one.holes:
        depth = min(x - hole.x0_mm + 1, hole.x1_mm - x, y - hole.y0_mm + 1, hole.y1_mm - y)
        if depth > _SLACK_MM:
            return InHole(i, a, hole, depth)
    return None


def _deepest(board: Board, one: tuple[int, Place], other: tuple[int, Place]) -> Overlap | None:
    (i, (a, x, y)), (j, (b, u, v)) = one, other
    near, far = board.stances[i][a], board.stances[j][b]
    if near.tray != far.tray:
        return None
    worst, found = _SLACK_MM, None
    for p, part in enumerate(near.shape.parts):
        for q, room in enumerate(far.shape.parts):
            if (part.plug and room.plug and board.problem.plug_rooms_shared) or not _meet(
                part, room
            ):
                continue
            gap = 0 if part.plug or room.plug else board.problem.gap_mm
            depth = min(
                min(x + part.room.x1_mm, u + room.room.x1_mm)
                - max(x + part.room.x0_mm, u + room.room.x0_mm),
                min(y + part.room.y1_mm, v + room.room.y1_mm)
                - max(y + part.room.y0_mm, v + room.room.y0_mm),
            )
            if depth + gap > worst:
                worst, found = depth + gap, Overlap(i, p, j, q, near.tray, depth + gap)
    return found


def _meet(a: Part, b: Part) -> bool:
    return a.bottom_mm < b.top_mm and b.bottom_mm < a.top_mm
