"""Where a name may stand: inside what it names, or outside in rows above, below and to both sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hardstand.views.drawing.boxes import Bools, Box, Floats, crossed, overlap, stacked
from hardstand.views.drawing.inked import Inked
from hardstand.views.drawing.kinds import Medium, Use
from hardstand.views.drawing.label_search import Places
from hardstand.views.drawing.lettering import CAPITAL, DESCENT, width
from hardstand.views.drawing.shapes import Point

ROW, GAP = 15.0, 3.0  # design pixels between rows of names, and what stays free about a name
_ROWS, _SHARES = 11, (0.5, 0.2, 0.8)
_ASIDE = (-18.0, 18.0, -40.0, 40.0, -70.0, 70.0)  # how far a leader may lean, design pixels
_CROSSING, _COVERED = 14.0, 60.0  # what a leader over another thing costs, and a dot that is not seen
_INSTEAD = 400.0  # what it costs to put a number instead of a name: more than a long leader


@dataclass(frozen=True, slots=True)
class Named:
    """A thing to be named: its address, its name, its box on the sheet.

    `hollow` says that the name may stand inside the box, where it has room. `number` is what may
    stand for the name where that has no room; without a name it is the number that is wanted.
    """

    about: str
    name: str
    box: Box
    use: Use = "name"
    hollow: bool = True
    number: str = ""
    by_number: bool = False


@dataclass(frozen=True, slots=True)
class Ground:
    """What the names have to do with: the room for them, things to be kept clear, lines not to sit on.

    The first of `things` are what is named, in that order; the rest are marks and texts, which no name
    may cover even inside what it names, nor may it stand on `leaders`. `over` are boxes that lie above
    a thing in the order of drawing: its dot should not be put there.
    """

    room: Box
    things: Sequence[Box]
    lines: Sequence[tuple[Point, Point]]
    leaders: Sequence[tuple[Point, Point]]
    over: Sequence[Sequence[Box]]


def places_of(
    one: Named, k: int, ground: Ground, things: Floats, ink: Inked, medium: Medium, most: int
) -> Places:
    """At most `most` places for name k of a drawing, the cheapest first, those of its number after.

    things (N, 4) are the boxes that no name may cover, the k-th of them what this one names; ink
    the edges it may not sit on. Cost is the length of the leader, and more where it leans,
    crosses other things, or ends in a dot that is not seen.
    """
    if not one.number:
        return _places(one, one.name, k, ground, things, ink, medium, most)
    numbers = _places(one, one.number, k, ground, things, ink, medium, most if one.by_number else most // 5)
    if one.by_number:
        return replace(numbers, short=np.ones(len(numbers.cost), dtype=np.bool_))
    names = _places(one, one.name, k, ground, things, ink, medium, most - most // 5)
    short = np.arange(len(names.cost) + len(numbers.cost)) >= len(names.cost)
    return Places(np.vstack([names.box, numbers.box]), np.vstack([names.leader, numbers.leader]),
                  np.hstack([names.cost, numbers.cost + _INSTEAD * medium.unit]), short)  # fmt: skip


def _places(
    one: Named, text: str, k: int, ground: Ground, things: Floats, ink: Inked, medium: Medium, most: int
) -> Places:
    unit = medium.unit
    long, size = width(text, one.use, medium), medium.height(one.use)
    covers = stacked(ground.over[k])
    margin = np.array([-1.0, -1.0, 1.0, 1.0]) * GAP * unit
    boxes, leaders, costs = _outside(one, long, size, unit)
    left, top, right, bottom = ground.room
    free: Bools = (boxes[:, 0] >= left) & (boxes[:, 1] >= top)
    free &= (boxes[:, 2] <= right) & (boxes[:, 3] <= bottom)
    free &= ~ink.under(boxes + margin / 2.0)  # a name that touches an edge is hard to read
    boxes, leaders, costs = boxes[free], leaders[free], costs[free]
    free = np.logical_not(overlap(boxes + margin, _near(things, boxes + margin)).any(axis=1))
    boxes, leaders, costs = boxes[free], leaders[free], costs[free]
    kept = _spread(costs, most)
    boxes, leaders, costs = boxes[kept], leaders[kept], costs[kept]
    others = _near(np.delete(things, k, axis=0), leaders)
    costs = costs + _CROSSING * unit * crossed(others, leaders).sum(axis=0)
    dots = np.hstack([leaders[:, :2], leaders[:, :2]]) + margin / 3.0
    costs = costs + _COVERED * unit * overlap(dots, covers).any(axis=1)
    order = np.argsort(costs, kind="stable")
    boxes, leaders, costs = boxes[order], leaders[order], costs[order]
    inside = _inside(one, long, size, unit)
    closed = np.vstack([covers, things[len(ground.over) :]])
    leads = np.array([(*a, *b) for a, b in ground.leaders], dtype=np.float64).reshape(-1, 4)
    if inside is not None and not (overlap(inside, closed).any() or crossed(inside, leads).any()):
        boxes = np.vstack([inside, boxes])
        leaders, costs = np.vstack([np.zeros((1, 4)), leaders]), np.hstack([0.0, costs])
    return Places(boxes, leaders, costs)


def _spread(costs: Floats, most: int) -> NDArray[np.intp]:
    """The places to be looked at: the cheap ones close together, ever fewer among the dear ones.

    The very cheapest alone would all lie in the same spot, and be taken together.
    """
    order = np.argsort(costs, kind="stable")
    if len(order) <= most:
        return order
    share = np.linspace(0.0, 1.0, most) ** 1.5
    return order[np.unique(np.rint(share * (len(order) - 1)).astype(np.intp))]


def _near(boxes: Floats, leaders: Floats) -> Floats:
    """The boxes that some of the leaders, or of other boxes, could cross."""
    if not len(leaders):
        return boxes[:0]
    ends = np.vstack([leaders[:, :2], leaders[:, 2:]])
    around = np.hstack([ends.min(axis=0), ends.max(axis=0)])[None]
    return boxes[overlap(boxes, around)[:, 0]]


def _inside(one: Named, long: float, size: float, unit: float) -> Floats | None:
    """The box (1, 4) of the name in the middle of what it names, None where it has no room there."""
    left, top, right, bottom = one.box
    if not one.hollow or right - left < long + 8.0 * unit or bottom - top < size + 4.0 * unit:
        return None
    x, y = (left + right) / 2.0, (top + bottom) / 2.0 + (CAPITAL - DESCENT) / 2.0 * size
    return stacked([(x - long / 2.0, y - CAPITAL * size, x + long / 2.0, y + DESCENT * size)])


def _outside(one: Named, long: float, size: float, unit: float) -> tuple[Floats, Floats, Floats]:
    """Boxes, leaders (from dot to label) and lengths: up, down and to both sides, row by row."""
    left, top, right, bottom = one.box
    centre, middle = (left + right) / 2.0, (top + bottom) / 2.0
    away = (8.0 + ROW * np.arange(_ROWS)) * unit
    # Over and under: the leader leaves from one of the dots, or leans from the middle.
    dots = np.array([*(left + share * (right - left) for share in _SHARES), *(centre for _ in _ASIDE)])
    feet = dots + np.array([0.0] * len(_SHARES) + [one * unit for one in _ASIDE])
    base = np.concatenate([top - away, bottom + away + CAPITAL * size])
    low, high = (2.0 + 0.4 * DESCENT * size / unit) * unit, CAPITAL * size + 2.0 * unit
    ends = np.concatenate([top - away + low, bottom + away + CAPITAL * size - high])
    # The leader comes to the first or last letter, or to the middle of the name.
    starts = np.array([-3.0 * unit, 3.0 * unit - long, -long / 2.0])
    upright = _combined(feet + starts[:, None], base, long, size, (dots, middle), (feet, ends))
    # Beside: level leaders.
    aside = (10.0 + 2.0 * ROW * np.arange(_ROWS)) * unit
    sides = np.concatenate([left - aside, right + aside])
    begins = np.concatenate([left - aside - 3.0 * unit - long, right + aside + 3.0 * unit])
    heights = np.array([top + share * (bottom - top) for share in _SHARES])
    level = _combined(begins[None], heights + 0.36 * size, long, size, (np.full(1, centre), heights), (sides, heights))
    boxes, leaders = (np.vstack(pair) for pair in zip(upright, level, strict=True))
    reach = np.hypot(leaders[:, 2] - leaders[:, 0], leaders[:, 3] - leaders[:, 1])
    slant = np.minimum(abs(leaders[:, 2] - leaders[:, 0]), abs(leaders[:, 3] - leaders[:, 1]))
    steep = slant <= np.abs(leaders[:, 3] - leaders[:, 1]) * 1.2 + 1e-9
    off_middle = np.abs(leaders[:, 0] - (left + right) / 2.0)
    cost = reach + 0.5 * slant + 0.1 * off_middle
    return boxes[steep], leaders[steep], cost[steep]


def _combined(
    starts: Floats, bases: Floats, long: float, size: float,
    dots: tuple[Floats, Floats | float], ends: tuple[Floats, Floats],
) -> tuple[Floats, Floats]:  # fmt: skip
    """Boxes (N, 4) and leaders (N, 4) of names that start at each of (S, F) places on each of B lines.

    dots are where leaders begin, F or one of x, and B or one of y; ends where they arrive, F of x, B of y.
    """
    shape = (*starts.shape, len(bases))

    def full(values: Floats | float, axis: int) -> Floats:
        array = np.asarray(values, dtype=np.float64)
        along = array[:, None] if axis == 1 and array.ndim else array
        return np.broadcast_to(along, shape).ravel()

    x, y = np.broadcast_to(starts[:, :, None], shape).ravel(), full(bases, 2)
    box = np.column_stack([x, y - CAPITAL * size, x + long, y + DESCENT * size])
    leader = [full(dots[0], 1), full(dots[1], 2), full(ends[0], 1), full(ends[1], 2)]
    return box, np.column_stack(leader)
