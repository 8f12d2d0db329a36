"""How two footprints may not stand to each other: open rectangles of their displacement."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.footprint import Footprint

Ints = NDArray[np.int64]


def collisions(first: Footprint, second: Footprint, gap_mm: int, shared: bool) -> Ints:
    """Displacements, second corner less first, at which two items on one tray collide (n, 4).

    Each row is (x0, x1, y0, y1) in mm: a displacement strictly inside one of them collides. Boxes
    keep gap_mm; a plug room keeps clear of boxes, and of plug rooms unless they are `shared`; what
    differs in height passes above. Rows that lie inside another are left out.

    >>> from hardstand.engines.fit.layout.footprint import footprint
    >>> from hardstand.engines.fit.layout.problem import Item, PlugRoom
    >>> box = footprint(Item("a", (30, 20, 10), ()), 0)
    >>> plugged = footprint(Item("b", (30, 20, 10), (), (PlugRoom("back", 25),)), 0)
    >>> collisions(plugged, box, 2, False).tolist()
    [[-32, 32, -22, 22], [0, 55, -20, 20]]
    """
    rows = []
    for a in first.parts:
        for b in second.parts:
            both = a.plug and b.plug
            if (both and shared) or a.bottom_mm >= b.top_mm or b.bottom_mm >= a.top_mm:
                continue
            gap = 0 if a.plug or b.plug else gap_mm
            one, other = a.room, b.room
            rows.append(
                (
                    one.x0_mm - other.x1_mm - gap,
                    one.x1_mm - other.x0_mm + gap,
                    one.y0_mm - other.y1_mm - gap,
                    one.y1_mm - other.y0_mm + gap,
                )
            )
    return _outermost(rows)


def _outermost(rows: list[tuple[int, int, int, int]]) -> Ints:
    """The rows without those that lie inside another; two that join to a rectangle become one."""
    kept = list(dict.fromkeys(rows))
    joined = True
    while joined:
        joined = False
        kept = [
            row for row in kept if not any(_inside(row, other) for other in kept if other != row)
        ]
        for a in kept:
            for b in kept:
                if a[2:] == b[2:] and a[0] < b[0] < a[1] < b[1]:
                    merged = (a[0], b[1], a[2], a[3])
                elif a[:2] == b[:2] and a[2] < b[2] < a[3] < b[3]:
                    merged = (a[0], a[1], a[2], b[3])
                else:
                    continue
                kept = [*(row for row in kept if row not in (a, b)), merged]
                joined = True
                break
            if joined:
                break
    return np.array(kept, dtype=np.int64).reshape(-1, 4)


def _inside(row: tuple[int, int, int, int], other: tuple[int, int, int, int]) -> bool:
    return row[0] >= other[0] and row[1] <= other[1] and row[2] >= other[2] and row[3] <= other[3]
