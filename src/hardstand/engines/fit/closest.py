"""Closest points of many pairs of convex cores, with a certificate.

The search walks on the difference of the two solids (all a - b), whose point nearest the origin is
the shortest way from one to the other. Each step adds the difference's support point towards the
origin and keeps the nearest foot on the simplex so far; pairs that are done leave the batch. The
plane through the newest support point bounds the distance from below, so each answer carries its
own proof: the true distance lies between `lower_mm` and the length of `gap`.

Source of the idea: E. Gilbert, D. Johnson, S. Keerthi, "A fast procedure for computing the distance
between complex objects in three-dimensional space", 1988 (named from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.simplex import nearest_weights
from hardstand.engines.fit.stack import Bools, Index
from hardstand.engines.fit.support import Pairs

# Relative to the size of the pair; rounding of the coordinates is about 1e-16 of it.
_RELATIVE_GAP = 1e-11
_TOUCHING = 1e-12
_STEPS = 400


@dataclass(frozen=True, eq=False)
class Closest:
    """Closest points of N pairs, in the frame of each first body.

    `point_a`, `point_b` (N, 3) are the witness points; `lower_mm` (N,) the proved lower bound of
    their distance; `overlap` (N,) tells that the cores share a point, or are so
    near touching that no plane between them was found; `steps` (N,) counts the steps.
    """

    point_a: Floats
    point_b: Floats
    lower_mm: Floats
    overlap: Bools
    steps: Index


class _Walk:
    """The state of the pairs still walking: kept corners, and the first body's point of each."""

    def __init__(self, pairs: Pairs, rows: Index) -> None:
        start = pairs.offset_mm.copy()
        start[(start == 0.0).all(axis=1)] = (1.0, 0.0, 0.0)
        point_a, point_b = pairs.support(start)
        count = len(pairs)
        self.pairs, self.rows = pairs, rows
        self.corners, self.on_a = np.zeros((count, 4, 3)), np.zeros((count, 4, 3))
        self.corners[:, 3], self.on_a[:, 3] = point_a - point_b, point_a
        self.weights = np.tile(np.array([0.0, 0.0, 0.0, 1.0]), (count, 1))
        self.lower = np.full(count, -np.inf)

    def foot(self) -> Floats:
        return np.asarray(np.einsum("nk,nki->ni", self.weights, self.corners))

    def keep(self, still: Bools) -> None:
        self.pairs, self.rows = self.pairs.take(still), self.rows[still]
        self.corners, self.on_a = self.corners[still], self.on_a[still]
        self.weights, self.lower = self.weights[still], self.lower[still]

    def size(self) -> Floats:
        return np.asarray(np.abs(self.corners).max(axis=(1, 2)))


def closest(pairs: Pairs) -> Closest:
    """Closest points of each pair; a pair that overlaps is only told to do so.

    >>> from hardstand.engines.fit.shapes import box, cylinder
    >>> from hardstand.engines.fit.stack import stack
    >>> from hardstand.engines.fit.support import pairs
    >>> a, b = box((0.0, 0.0, 0.0), (60.0, 40.0, 30.0)), cylinder((50.0, 0.0, 0.0), 8.0, 30.0)
    >>> found = closest(pairs(stack([a]), stack([b])))
    >>> float((found.point_b - found.point_a)[0, 0]), round(float(found.lower_mm[0]), 9)
    (12.0, 12.0)
    """
    count = len(pairs)
    point_a, point_b = np.zeros((count, 3)), np.zeros((count, 3))
    lower, overlap = np.full(count, -np.inf), np.zeros(count, dtype=bool)
    steps = np.zeros(count, dtype=np.intp)
    walk = _Walk(pairs, np.arange(count))
    for step in range(1, _STEPS + 1):
        if not len(walk.rows):
            break
        foot = walk.foot()
        away = np.linalg.norm(foot, axis=1)
        size = walk.size()
        inside = (walk.weights > 0.0).all(axis=1) | (away <= _TOUCHING * size)
        still = ~inside & _advance(walk, foot, away, _RELATIVE_GAP * size)
        if step == _STEPS:
            still[:] = False
        done = ~still
        rows = walk.rows[done]
        # Without a plane between the two they cannot be told from overlapping ones.
        overlap[rows] = inside[done] | (walk.lower[done] <= 0.0)
        steps[rows], lower[rows] = step, walk.lower[done]
        weights, on_a = walk.weights[done], walk.on_a[done]
        point_a[rows] = np.einsum("nk,nki->ni", weights, on_a)
        point_b[rows] = np.einsum("nk,nki->ni", weights, on_a - walk.corners[done])
        walk.keep(still)
    return Closest(point_a, point_b, lower, overlap, steps)


def _advance(walk: _Walk, foot: Floats, away: Floats, enough: Floats) -> Bools:
    """Add a support point to each simplex; true (N,) where that brought the foot nearer.

    Where it did not, the simplex stays as it was, so the best foot is never lost.
    """
    towards = -foot / np.where(away > 0.0, away, 1.0)[:, None]
    new_a, new_b = walk.pairs.support(towards)
    newest = new_a - new_b
    bound = -np.einsum("ni,ni->n", newest, towards)
    walk.lower = np.maximum(walk.lower, bound)
    # The corners in use move to the front, so that the last place is free for the newest.
    order = np.argsort(walk.weights <= 0.0, axis=1, kind="stable")[:, :3]
    corners, on_a = np.empty_like(walk.corners), np.empty_like(walk.on_a)
    corners[:, :3] = np.take_along_axis(walk.corners, order[:, :, None], axis=1)
    on_a[:, :3] = np.take_along_axis(walk.on_a, order[:, :, None], axis=1)
    corners[:, 3], on_a[:, 3] = newest, new_a
    present = np.ones((len(foot), 4), dtype=bool)
    present[:, :3] = np.take_along_axis(walk.weights, order, axis=1) > 0.0
    weights = nearest_weights(corners, present)
    new_foot = np.einsum("nk,nki->ni", weights, corners)
    nearer = np.einsum("ni,ni->n", new_foot, new_foot) < away * away * (1.0 - 1e-15)
    going = nearer & (away - walk.lower > enough)
    walk.corners[going], walk.on_a[going], walk.weights[going] = (
        corners[going],
        on_a[going],
        weights[going],
    )
    return np.asarray(going)
