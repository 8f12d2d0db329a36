"""The last word on bodies in touch, overlapping or nearly so: a finer normal, and where they touch."""

from __future__ import annotations

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.closest import closest
from hardstand.engines.fit.support import Pairs

# How far apart the bodies are moved to be looked at.
_ROOM_MM = 10.0
_ROUNDS = 25


def settled(cores: Pairs, normal: Floats) -> tuple[Floats, Floats, Floats]:
    """Normal (N, 3), signed distance (N,) and first body's point (N, 3) of cores near or in touch.

    Points that nearly coincide tell little of the direction between them. Moved out along the
    normal to a fair distance, the bodies show the points that face one another, and round bodies a
    slightly better normal, which is taken where it shows more room between the two.

    `normal` (N, 3) is a first direction, from the first body to the second. Two upright
    cylinders that overlap by 1 mm:

    >>> from hardstand.engines.fit.shapes import cylinder
    >>> from hardstand.engines.fit.stack import stack
    >>> from hardstand.engines.fit.support import pairs
    >>> a, b = cylinder((0.0, 0.0, 0.0), 9.0, 40.0), cylinder((0.0, 17.0, 0.0), 9.0, 40.0)
    >>> guess = np.array([[0.02, 0.9998, 0.0]])
    >>> normal, distance_mm, point = settled(pairs(stack([a]), stack([b])), guess)
    >>> normal.round(4).tolist(), distance_mm.round(6).tolist()
    ([[0.0, 1.0, 0.0]], [-1.0])
    """
    normal, point_a = normal.copy(), np.zeros_like(normal)
    # Taken from zero, not negated, which would print a touch as -0.
    room_mm = 0.0 - cores.overlap_along(normal)
    rows = np.arange(len(cores))
    for _ in range(_ROUNDS):
        part = cores.take(rows)
        near = closest(part.shifted((_ROOM_MM - room_mm[rows])[:, None] * normal[rows]))
        across = near.point_b - near.point_a
        better = across / np.linalg.norm(across, axis=1)[:, None]
        better, better_mm = _farther_along(part, normal[rows], better)
        point_a[rows] = near.point_a
        gain = better_mm > room_mm[rows] + 1e-11 * (1.0 + np.abs(room_mm[rows]))
        rows = rows[gain]
        normal[rows], room_mm[rows] = better[gain], better_mm[gain]
        if not len(rows):
            break
    return normal, room_mm, point_a


def _farther_along(cores: Pairs, old: Floats, new: Floats) -> tuple[Floats, Floats]:
    """The direction (N, 3) with most room on from `old` through `new`, and that room (N,).

    The steps of settling shrink by a steady factor; going on the same way saves most of them.
    """
    best, best_mm = new.copy(), 0.0 - cores.overlap_along(new)
    for share in (0.4, 1.0, 2.5):
        ahead = new + share * (new - old)
        ahead /= np.linalg.norm(ahead, axis=1)[:, None]
        ahead_mm = 0.0 - cores.overlap_along(ahead)
        better = ahead_mm > best_mm
        best[better], best_mm[better] = ahead[better], ahead_mm[better]
    return best, best_mm
