"""Keeping items apart in a constraint model, and out of what the trays forbid."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from hardstand.engines.fit.layout.footprint import Part
from hardstand.engines.fit.layout.movers import Formulation, chosen
from hardstand.engines.fit.layout.problem import Rectangle
from hardstand.engines.fit.layout.raster import as_rectangles
from hardstand.engines.fit.layout.stances import barred, grounds

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

    Interval = cp_model.IntervalVar

_Pair = tuple["Interval", "Interval"]


def _no_overlap(made: Formulation, moving: list[_Pair], still: list[Rectangle]) -> None:
    """Intervals and obstacles that may not overlap; nothing to say about fewer than two."""
    if not moving or len(moving) + len(still) < 2:
        return
    new = made.model.new_fixed_size_interval_var
    fixed = [
        (new(one.x0_mm, one.x1_mm - one.x0_mm, ""), new(one.y0_mm, one.y1_mm - one.y0_mm, ""))
        for one in still
    ]
    every = [*moving, *fixed]
    made.model.add_no_overlap_2d([pair[0] for pair in every], [pair[1] for pair in every])


@dataclass(frozen=True)
class _Piece:
    """Part number `part` of item `i`: its heights, and its intervals or its fixed rectangle."""

    i: int
    part: int
    shape: Part
    pair: _Pair | None
    still: Rectangle | None


def _pieces(made: Formulation, gap_mm: int) -> list[_Piece]:
    """All parts of all items; gap_mm is added to boxes toward greater x and y."""
    found = []
    for i, choices in enumerate(made.board.stances):
        for part in range(len(choices[0].shape.parts)):
            shapes = [one.shape.parts[part] for one in choices]
            more = 0 if shapes[0].plug else gap_mm
            if i in made.held:
                a, x, y = made.held[i]
                room, x = shapes[a].room, x + made.offsets_mm[choices[a].tray]
                still = Rectangle(
                    x + room.x0_mm, x + room.x1_mm + more, y + room.y0_mm, y + room.y1_mm + more
                )
                found.append(_Piece(i, part, shapes[0], None, still))
            else:
                found.append(_Piece(i, part, shapes[0], _intervals(made, i, shapes, more), None))
    return found


def _intervals(made: Formulation, i: int, shapes: list[Part], more: int) -> _Pair:
    """The intervals of one part along x and y, its size and offset as the stance has them."""
    mover, model, pair = made.movers[i], made.model, []
    for variable, sides in (
        (mover.x, [(one.room.x0_mm, one.room.x1_mm) for one in shapes]),
        (mover.y, [(one.room.y0_mm, one.room.y1_mm) for one in shapes]),
    ):
        low = chosen(mover, [side[0] for side in sides])
        sizes = [side[1] - side[0] + more for side in sides]
        if len(set(sizes)) == 1 and isinstance(low, int):
            pair.append(model.new_fixed_size_interval_var(variable + low, sizes[0], ""))
            continue
        start = model.new_int_var(-100_000, 100_000, "")
        end = model.new_int_var(-100_000, 100_000, "")
        model.add(start == variable + low)
        model.add(end == start + chosen(mover, sizes))
        size = model.new_int_var(min(sizes), max(sizes), "")
        model.add(size == chosen(mover, sizes))
        pair.append(model.new_interval_var(start, size, end, ""))
    return pair[0], pair[1]


def keep_apart(made: Formulation) -> None:
    """Keep items apart from one another and from what trays forbid, at every level of height."""
    problem = made.board.problem
    if problem.gap_mm:
        boxes = [one for one in _pieces(made, problem.gap_mm) if not one.shape.plug]
        _group(made, boxes, [])
    pieces = _pieces(made, 0)
    for one in pieces:
        if one.pair is not None:
            _no_overlap(made, [one.pair], _disjoint(_own_walls(made, one)))
    moving = {id(one) for one in pieces if one.pair}
    levels = {0} | {one.shape.bottom_mm for one in pieces}
    levels |= {keep.bottom_mm for tray in problem.trays for keep in tray.keep_outs}
    overhang = any(tray.plugs_overhang for tray in problem.trays)
    said: set[tuple[frozenset[int], tuple[Rectangle, ...]]] = set()
    for level in sorted(levels):
        here = [one for one in pieces if one.shape.bottom_mm <= level < one.shape.top_mm]
        boxes = [one for one in here if not one.shape.plug]
        plugs = [one for one in here if one.shape.plug]
        groups: list[tuple[list[_Piece], bool | None]] = [(boxes, False)]
        if problem.plug_rooms_shared:
            groups += [([plug, *(one for one in boxes if one.i != plug.i)], True) for plug in plugs]
        elif overhang:
            groups = [(here, None), (boxes, False), (plugs, True)]
        else:
            groups = [(here, False)]
        for members, plug in groups:
            walls = () if plug is None else _walls(made, level, plug)
            key = (frozenset(id(one) for one in members), walls)
            if members and any(id(one) in moving for one in members) and key not in said:
                said.add(key)
                _group(made, members, list(walls))


def _group(made: Formulation, members: list[_Piece], walls: list[Rectangle]) -> None:
    """Members may not overlap; obstacles that overlap one another are made one."""
    still = [one.still for one in members if one.still is not None]
    moving = [one.pair for one in members if one.pair is not None]
    _no_overlap(made, moving, _disjoint([*still, *walls]) if still else walls)


def _disjoint(rooms: list[Rectangle]) -> list[Rectangle]:
    """Rectangles that cover the same cells and do not overlap."""
    if not rooms:
        return []
    xs = sorted({x for one in rooms for x in (one.x0_mm, one.x1_mm)})
    ys = sorted({y for one in rooms for y in (one.y0_mm, one.y1_mm)})
    cells = np.zeros((len(xs) - 1, len(ys) - 1), dtype=bool)
    for one in rooms:
        cells[
            xs.index(one.x0_mm) : xs.index(one.x1_mm), ys.index(one.y0_mm) : ys.index(one.y1_mm)
        ] = True
    return [
        Rectangle(xs[one.x0_mm], xs[one.x1_mm], ys[one.y0_mm], ys[one.y1_mm])
        for one in as_rectangles(cells, (0, 0))
    ]


def _own_walls(made: Formulation, piece: _Piece) -> list[Rectangle]:
    """What is barred to one part of one item, as rectangles on the sheet."""
    problem = made.board.problem
    return [
        Rectangle(room.x0_mm + offset, room.x1_mm + offset, room.y0_mm, room.y1_mm)
        for tray, offset in zip(problem.trays, made.offsets_mm, strict=True)
        for room in barred(problem.items[piece.i], tray.id, piece.part)
    ]


def _walls(made: Formulation, level: float, plug: bool) -> tuple[Rectangle, ...]:
    """What the trays forbid at a level of height, as rectangles on the sheet."""
    problem = made.board.problem
    reach = max((room.depth_mm for item in problem.items for room in item.plug_rooms), default=0)
    probe = Part(Rectangle(0, 1, 0, 1), level, level + 1e-6, plug)
    found: list[Rectangle] = []
    for on, offset in zip(grounds(problem.trays, reach), made.offsets_mm, strict=True):
        found += as_rectangles(on.blocked(probe), (on.x_mm + offset, on.y_mm))
    return tuple(found)
