"""Every way an item may stand: on which tray, at which turn, and where its corner may be then."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.footprint import Footprint, Part, footprint
from hardstand.engines.fit.layout.problem import Item, Place, Problem, Rectangle, Tray
from hardstand.engines.fit.layout.raster import (
    Cells,
    as_rectangles,
    cells_inside,
    counted,
    windows_free,
)

Ints = NDArray[np.int64]
# Whether plugs overhang, which keep-outs are met, and what is barred to one part alone.
_Key = tuple[bool, tuple[bool, ...], tuple[Rectangle, ...]]
_KEPT = 64


@dataclass(frozen=True, eq=False)
class Ground:
    """A tray as cells: `outside` its outline, cell 0, 0 at (x_mm, y_mm)."""

    tray: Tray
    outside: Cells
    x_mm: int
    y_mm: int
    sums: dict[_Key, NDArray[np.int32]] = field(default_factory=dict, repr=False)

    def blocked(self, part: Part) -> Cells:
        """The cells that a part of that height and kind may not enter."""
        return self._blocked(*self._key(part))

    def free(self, part: Part, own: tuple[Rectangle, ...] = ()) -> Cells:
        """Where the part's own corner may be, by cell; `own`: rooms barred to this part alone."""
        at = part.room
        key = (*self._key(part), own)
        if key not in self.sums:
            if len(self.sums) >= _KEPT:
                self.sums.clear()
            cells = self._blocked(*key[:2])
            for room in own:
                self._bar(cells, room)
            self.sums[key] = counted(cells)
        return windows_free(self.sums[key], at.x1_mm - at.x0_mm, at.y1_mm - at.y0_mm)

    def _key(self, part: Part) -> tuple[bool, tuple[bool, ...]]:
        met = tuple(
            keep_out.bottom_mm < part.top_mm and part.bottom_mm < keep_out.top_mm
            for keep_out in self.tray.keep_outs
        )
        return part.plug and self.tray.plugs_overhang, met

    def _blocked(self, overhangs: bool, met: tuple[bool, ...]) -> Cells:
        cells = np.zeros_like(self.outside) if overhangs else self.outside.copy()
        for keep_out, meets in zip(self.tray.keep_outs, met, strict=True):
            if meets:
                self._bar(cells, keep_out.room)
        return cells

    def _bar(self, cells: Cells, room: Rectangle) -> None:
        cells[
            max(0, room.x0_mm - self.x_mm) : max(0, room.x1_mm - self.x_mm),
            max(0, room.y0_mm - self.y_mm) : max(0, room.y1_mm - self.y_mm),
        ] = True


@dataclass(frozen=True, eq=False)
class Stance:
    """One tray and turn of an item: free[i, j] tells whether its corner may be at (x + i, y + j).

    `number` is the tray's; twice_z: twice the tray's top; edges_x_mm, edges_y_mm: the corner's
    coordinates at which `free` changes, where an otherwise best place is held up.
    """

    tray: int
    turn: int
    shape: Footprint
    cost: int
    twice_z: int
    free: Cells
    x_mm: int
    y_mm: int
    edges_x_mm: Ints
    edges_y_mm: Ints

    def allows(self, x_mm: int, y_mm: int) -> bool:
        """Whether the corner may be there."""
        i, j = x_mm - self.x_mm, y_mm - self.y_mm
        n, m = self.free.shape
        return 0 <= i < n and 0 <= j < m and bool(self.free[i, j])

    @cached_property
    def holes(self) -> tuple[Rectangle, ...]:
        """Rectangles of corners that are not free, within reach."""
        return tuple(as_rectangles(~self.free, (self.x_mm, self.y_mm)))

    @property
    def last_x_mm(self) -> int:
        """The greatest x of the corner."""
        return self.x_mm + int(self.free.shape[0]) - 1

    @property
    def last_y_mm(self) -> int:
        """The greatest y of the corner."""
        return self.y_mm + int(self.free.shape[1]) - 1


def ground(tray: Tray, margin_mm: int) -> Ground:
    """A tray's cells with margin_mm of room around for what may overhang."""
    points = np.array(tray.outline_mm, dtype=np.float64)
    low = np.floor(points.min(axis=0)).astype(int) - margin_mm
    high = np.ceil(points.max(axis=0)).astype(int) + margin_mm
    shape = (int(high[0] - low[0]), int(high[1] - low[1]))
    origin = (int(low[0]), int(low[1]))
    return Ground(tray, ~cells_inside(tray.outline_mm, origin, shape), *origin)


def stances(problem: Problem, item: Item, grounds: tuple[Ground, ...]) -> tuple[Stance, ...]:
    """The stances in which an item has at least one place by itself; a fixed item has one."""
    if item.fixed is not None:
        return (_fixed(problem, item),)
    numbers = {tray.id: k for k, tray in enumerate(problem.trays)}
    found = []
    for place in item.places:
        for turn in item.turns:
            made = _stance(item, place, turn, numbers[place.tray], grounds[numbers[place.tray]])
            if made is not None:
                found.append(made)
    return tuple(found)


def _stance(item: Item, place: Place, turn: int, number: int, on: Ground) -> Stance | None:
    """An item on one tray at one turn, None where it has no place by itself."""
    shape = footprint(item, turn)
    room = on.tray.headroom_mm
    if room is not None and any(part.top_mm > room for part in shape.parts):
        return None
    n, m = on.outside.shape
    free = np.ones((n, m), dtype=bool)
    for which, part in enumerate(shape.parts):
        at = part.room
        allowed = on.free(part, barred(item, place.tray, which))
        shifted = np.zeros((n, m), dtype=bool)
        # The corner at cell (i, j) puts the part's own corner at (i + x0, j + y0).
        i0, j0 = max(0, -at.x0_mm), max(0, -at.y0_mm)
        i1 = min(n, allowed.shape[0] - at.x0_mm)
        j1 = min(m, allowed.shape[1] - at.y0_mm)
        if i1 > i0 and j1 > j0:
            shifted[i0:i1, j0:j1] = allowed[
                i0 + at.x0_mm : i1 + at.x0_mm, j0 + at.y0_mm : j1 + at.y0_mm
            ]
        free &= shifted
    for axis, (span, size, origin) in enumerate(
        ((place.x_mm, shape.length_mm, on.x_mm), (place.y_mm, shape.width_mm, on.y_mm))
    ):
        if span is not None:
            twice = 2 * (origin + np.arange(free.shape[axis])) + size
            within = (twice >= 2 * span[0]) & (twice <= 2 * span[1])
            free &= within[:, None] if axis == 0 else within[None, :]
    none = np.zeros(0, dtype=np.int64)
    twice_z = round(2 * on.tray.top_z_mm)
    whole = Stance(number, turn, shape, place.cost, twice_z, free, on.x_mm, on.y_mm, none, none)
    return cropped(whole, free)


def barred(item: Item, tray: str, part: int) -> tuple[Rectangle, ...]:
    """The rooms over a tray that a part of an item may not enter, beside those barred to all."""
    return tuple(one.room for one in item.barriers if one.tray == tray and one.part == part)


def cropped(stance: Stance, free: Cells) -> Stance | None:
    """A stance with other free positions, without empty margins; None where none is left."""
    rows, columns = np.flatnonzero(free.any(axis=1)), np.flatnonzero(free.any(axis=0))
    if rows.size == 0:
        return None
    free = free[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    x, y = stance.x_mm + int(rows[0]), stance.y_mm + int(columns[0])
    return replace(
        stance,
        free=free,
        x_mm=x,
        y_mm=y,
        edges_x_mm=x + _edges(free),
        edges_y_mm=y + _edges(free.T),
    )


def carved(stance: Stance, standing_mm: tuple[int, int], rooms: Ints) -> Stance | None:
    """A stance without the positions that collide with an item standing there."""
    free = stance.free.copy()
    for x0, x1, y0, y1 in rooms.tolist():
        rows = [standing_mm[0] + x + d - stance.x_mm for x, d in ((x0, 1), (x1, 0))]
        columns = [standing_mm[1] + y + d - stance.y_mm for y, d in ((y0, 1), (y1, 0))]
        free[max(0, rows[0]) : max(0, rows[1]), max(0, columns[0]) : max(0, columns[1])] = False
    return cropped(stance, free)


def _edges(free: Cells) -> Ints:
    """First and last line and those beside which a line differs."""
    changed = (free[1:] != free[:-1]).any(axis=1)
    both = np.concatenate(([True], changed)) | np.concatenate((changed, [True]))
    return np.flatnonzero(both).astype(np.int64)


def _fixed(problem: Problem, item: Item) -> Stance:
    spot = item.fixed
    assert spot is not None
    number = next(k for k, tray in enumerate(problem.trays) if tray.id == spot.tray)
    twice_z = round(2 * problem.trays[number].top_z_mm)
    only = np.ones((1, 1), dtype=bool)
    cost = next((place.cost for place in item.places if place.tray == spot.tray), 0)
    shape = footprint(item, spot.turn)
    x, y = np.array([spot.x_mm]), np.array([spot.y_mm])
    return Stance(number, spot.turn % 4, shape, cost, twice_z, only, spot.x_mm, spot.y_mm, x, y)


@lru_cache(maxsize=8)
def grounds(trays: tuple[Tray, ...], margin_mm: int) -> tuple[Ground, ...]:
    """The cells of all trays."""
    return tuple(ground(tray, margin_mm) for tray in trays)
