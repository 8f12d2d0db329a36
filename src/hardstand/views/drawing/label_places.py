"""Where a name may stand: inside what it names, or outside in rows above, below and to both sides."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

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

Spread = NDArray[Any] | float


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
    free &= ~ink.under(boxes)
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
    rows = np.arange(_ROWS)[:, None, None]
    dots: NDArray[Any] = left + np.array(_SHARES)[None, :, None] * (right - left)
    aside = np.array(_ASIDE)[None, None, :] * unit
    middle = (top + bottom) / 2.0
    found = []
    for up in (True, False):
        away = (8.0 + ROW * rows) * unit
        base = top - away if up else bottom + away + CAPITAL * size
        end = base + 2.0 * unit + DESCENT * size * 0.4 if up else base - CAPITAL * size - 2.0 * unit
        # The leader comes to the first or last letter, or to the middle of the name.
        for start in (-3.0 * unit, 3.0 * unit - long, -long / 2.0):
            ways: tuple[tuple[Spread, Spread], ...] = ((dots, 0.0), ((left + right) / 2.0, aside))
            for at, lean in ways:
                foot = at + lean
                found.append(_rows(foot + start, base, long, size, at, middle, foot, end))
    for share in _SHARES:
        y = top + share * (bottom - top)
        away = (10.0 + 2.0 * ROW * np.arange(_ROWS)) * unit
        for side, begin in ((left - away, -3.0 * unit - long), (right + away, 3.0 * unit)):
            centre = (left + right) / 2.0
            found.append(_rows(side + begin, y + 0.36 * size, long, size, centre, y, side, y))
    boxes = np.vstack([box for box, _ in found])
    leaders = np.vstack([leader for _, leader in found])
    reach = np.hypot(leaders[:, 2] - leaders[:, 0], leaders[:, 3] - leaders[:, 1])
    slant = np.minimum(abs(leaders[:, 2] - leaders[:, 0]), abs(leaders[:, 3] - leaders[:, 1]))
    steep = slant <= np.abs(leaders[:, 3] - leaders[:, 1]) * 1.2 + 1e-9
    off_middle = np.abs(leaders[:, 0] - (left + right) / 2.0)
    cost = reach + 0.5 * slant + 0.1 * off_middle
    return boxes[steep], leaders[steep], cost[steep]


def _rows(x: Spread, base: Spread, long: float, size: float, *ends: Spread) -> tuple[Floats, Floats]:
    """Boxes (N, 4) and leaders (N, 4) from arrays that are spread over one another."""
    *spread, _ = np.broadcast_arrays(x, base, *ends, x)
    start, line_y, x0, y0, x1, y1 = (np.ravel(one).astype(np.float64) for one in spread)
    box = np.column_stack([start, line_y - CAPITAL * size, start + long, line_y + DESCENT * size])
    return box, np.column_stack([x0, y0, x1, y1])


