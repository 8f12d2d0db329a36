"""What stays where it is, as rectangles that the parts of an item may not enter."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from hardstand.description.places import Tray
from hardstand.engines.fit.body import aabb
from hardstand.engines.fit.layout.problem import Barrier, Rectangle
from hardstand.engines.fit.pairing import LIMIT_OF, rule_of
from hardstand.engines.fit.piece import Piece
from hardstand.engines.fit.placement.parts import Part, Shape
from hardstand.engines.fit.placement.slices import rectangles, shadow
from hardstand.engines.fit.placement.spread import Spread, spread_of
from hardstand.findings import Limit

_STEPS = 4
REACH_MM = 120.0  # more than the largest limit on a distance asks for


@dataclass(frozen=True, eq=False)
class Still:
    """The pieces that stay: with how far each reaches (P, 3) and how well its surface is known."""

    pieces: tuple[Piece, ...]
    low_mm: np.ndarray[tuple[int, int], np.dtype[np.float64]]
    high_mm: np.ndarray[tuple[int, int], np.dtype[np.float64]]
    spread: tuple[Spread, ...]


def still_of(pieces: Sequence[Piece]) -> Still:
    """Pieces made ready to be asked many times."""
    reach = [aabb(piece.body) for piece in pieces]
    low = np.array([one[0] for one in reach]).reshape(-1, 3)
    high = np.array([one[1] for one in reach]).reshape(-1, 3)
    return Still(tuple(pieces), low, high, tuple(spread_of(piece) for piece in pieces))


def barriers_of(
    shape: Shape,
    tray: Tray,
    window: Rectangle,
    still: Still,
    limits: Mapping[str, Limit],
    grow_mm: Mapping[tuple[str, str], float],
) -> list[Barrier]:
    """The barriers of an item on a tray, from each rule of distance that holds for it there.

    window: the plan, on the grid, within which the item can be. grow_mm: more distance by item and
    what stays.
    """
    found: list[Barrier] = []
    for number, part in enumerate(shape.parts):
        owner = replace(part.piece.owner, on=tray.id)
        mine = replace(part.piece, owner=owner)
        for k in near(part, tray, window, still):
            other = still.pieces[k]
            slug = rule_of(mine, other)
            if slug is None:
                continue
            low = limits[LIMIT_OF[slug]].low or 0.0
            low += grow_mm.get((shape.item.id, other.owner.id), 0.0)
            apart = spaced(low, part.spread.and_of(still.spread[k]))
            high = tray.top_z_mm + part.top_mm + apart.height_mm
            low = tray.top_z_mm + part.bottom_mm - apart.height_mm
            if still.low_mm[k, 2] < high and still.high_mm[k, 2] > low:
                found += barred(other, tray, (number, part), shape, window, apart)
    return list(dict.fromkeys(found))


def barred(
    other: Piece,
    tray: Tray,
    numbered: tuple[int, Part],
    shape: Shape,
    window: Rectangle,
    apart: Spread,
    up_to_mm: float | None = None,
) -> Iterator[Barrier]:
    """Where a part of some number would come nearer to another piece than asked for.

    apart: in plan and in height; between the two it is taken in steps, outside of the ellipse.
    up_to_mm: how high the part reaches above the tray, where that is more than itself.
    """
    number, part = numbered
    low, high = tray.top_z_mm + part.bottom_mm, tray.top_z_mm + (up_to_mm or part.top_mm)
    steps = _STEPS if other.body.kind == "polytope" else 1
    said = None
    for k in range(steps):
        up = apart.height_mm * math.sin(math.pi / 2.0 * (k + 1) / steps)
        out = apart.plan_mm * math.cos(math.pi / 2.0 * k / steps)
        area = shadow(other.body, low - up, high + up, max(0.0, out - shape.growth_mm))
        if area is None or (said is not None and said.covers(area)):
            continue
        said = area
        for room in rectangles(area, window):
            yield Barrier(other.owner.id, tray.id, number, room)


def spaced(least_mm: float, known: Spread) -> Spread:
    """What to ask for in plan and height so that a limit is kept beyond the uncertainty."""
    return Spread(least_mm + known.plan_mm, least_mm + known.height_mm)


def near(
    part: Part, tray: Tray, window: Rectangle, still: Still, up_mm: float = REACH_MM
) -> list[int]:
    """The pieces that could come nearer to a part than any limit asks for.

    up_mm: how far above it something may be that still counts.
    """
    reach = REACH_MM
    low = np.array([window.x0_mm, window.y0_mm, tray.top_z_mm + part.bottom_mm]) - reach
    high = np.array([window.x1_mm, window.y1_mm, tray.top_z_mm + part.top_mm]) + reach
    high[2] += up_mm - reach
    near = (still.low_mm <= high).all(axis=1) & (still.high_mm >= low).all(axis=1)
    return [int(k) for k in np.flatnonzero(near)]
