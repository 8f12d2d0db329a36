"""Signed distance of many pairs of bodies: how far apart, or how deep one is in the other.

Apart, the value is the least distance. Overlapping, it is negative: the shortest shift of the
second body that brings the two to touch. Both are the greatest, over all directions, of the room
between the two along that direction, so one definition covers both and the value has no jump where
bodies come to touch.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.closest import closest
from hardstand.engines.fit.depth_axes import best_axis
from hardstand.engines.fit.depth_search import search_depth
from hardstand.engines.fit.settling import settled
from hardstand.engines.fit.stack import Bools, Index, Stack, stack
from hardstand.engines.fit.support import Pairs, pairs

CONVERGED_MM = 1e-4
# Cores nearer than this are settled after the search.
_TIGHT_MM = 1.0


@dataclass(frozen=True, eq=False)
class Separations:
    """What `separation` finds for N pairs, in the aeroplane's axes.

    `distance_mm` (N,) is positive apart, negative the depth; `normal` (N, 3) the unit direction
    from the first body to the second, along which moving the second raises the distance one for
    one; `point_a`, `point_b` (N, 3) the points that face one another, `point_b - point_a` being
    distance times normal. `gap_mm` (N,) is how far the true value may lie from `distance_mm` by
    the search's own proof; `converged` (N,) that this is under 1e-4 mm. `iterations` (N,) counts
    the steps of the closest-point search.
    """

    distance_mm: Floats
    normal: Floats
    point_a: Floats
    point_b: Floats
    gap_mm: Floats
    converged: Bools
    iterations: Index


def separation(a: Sequence[Body] | Stack, b: Sequence[Body] | Stack) -> Separations:
    """Signed distance between a[k] and b[k] for every k.

    Exact for boxes, segments and points; for cylinders (true circles) and corner sets proved to
    1e-4 mm where `converged`. Where the nearest points or the way out are not unique (parallel
    faces, equal depths) one of them is given. Raises ValueError if the lengths differ.

    >>> from hardstand.engines.fit.shapes import box, capsule
    >>> turned = box((80.0, 0.0, 0.0), (40.0, 40.0, 30.0), turn_deg=45.0)
    >>> found = separation([box((0.0, 0.0, 0.0), (60.0, 40.0, 30.0))], [turned])
    >>> round(float(found.distance_mm[0]), 6), found.normal[0].round(6).tolist()
    (21.715729, [1.0, 0.0, 0.0])
    """
    first = a if isinstance(a, Stack) else stack(a)
    second = b if isinstance(b, Stack) else stack(b)
    if len(first) != len(second):
        raise ValueError(f"{len(first)} bodies against {len(second)}: give as many of each")
    cores = pairs(first, second)
    near = closest(cores)
    across = near.point_b - near.point_a
    core_mm = np.linalg.norm(across, axis=1)
    highest_mm, lowest_mm = core_mm.copy(), near.lower_mm.copy()
    normal = across / np.where(core_mm > 0.0, core_mm, 1.0)[:, None]
    point_a = near.point_a.copy()
    if near.overlap.any():
        normal[near.overlap], highest_mm[near.overlap] = _way_out(cores.take(near.overlap))
    tight = np.flatnonzero(near.overlap | (core_mm < _TIGHT_MM))
    if len(tight):
        normal[tight], core_mm[tight], point_a[tight] = settled(cores.take(tight), normal[tight])
        lowest_mm[tight] = core_mm[tight]
    distance_mm = core_mm - first.margin_mm - second.margin_mm
    point_a = point_a + normal * first.margin_mm[:, None]
    point_a = first.centre_mm + np.einsum("nij,nj->ni", first.rotation, point_a)
    normal = np.einsum("nij,nj->ni", first.rotation, normal)
    point_b = point_a + distance_mm[:, None] * normal
    gap_mm = np.maximum(highest_mm - lowest_mm, 0.0)
    return Separations(
        distance_mm, normal, point_a, point_b, gap_mm, gap_mm < CONVERGED_MM, near.steps
    )


def _way_out(cores: Pairs) -> tuple[Floats, Floats]:
    """Normal (N, 3) of cores that overlap, and what their signed distance (N,) cannot exceed."""
    direction, depth_mm = best_axis(cores)
    lower_mm = depth_mm.copy()
    has_corners = cores.corners_a.any(axis=(1, 2)) | cores.corners_b.any(axis=(1, 2))
    searched = np.flatnonzero(cores.round_a | cores.round_b | has_corners)
    if len(searched):
        direction[searched], _, lower_mm[searched] = search_depth(
            cores.take(searched), direction[searched], depth_mm[searched]
        )
    return direction, -lower_mm
