"""Depth of overlapping cores of any kind, by dividing the sphere of directions, with a proof.

The depth is the least overlap over all directions. It has many local minima, so descent alone is
not safe. Here the sphere is cut into triangles. In a triangle the overlap is at least that of any
mix of the support points found at its three corners, and the best mix is the value of a 3 x 3
matrix game; a triangle that cannot beat the best direction known is dropped, the others are cut in
four. What has been dropped proves the answer from below; the best direction bounds it from above.

The plane through a triangle's three support points suggests a direction too: where the way out is
through a face or along an edge, that is the very normal, so few cuts are needed.
"""

from __future__ import annotations

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.matrix_game import game_value
from hardstand.engines.fit.simplex import cross
from hardstand.engines.fit.stack import Index
from hardstand.engines.fit.support import Pairs

# A triangle is dropped when it cannot beat the best by more than this.
_GAIN_MM = 2e-5
_LEVELS = 28
# Most triangles of one pair at one level; a pair beyond it stops there and reports a larger gap.
_MOST_TRIANGLES = 20_000
_SIGNS = ((1, 1, 1), (1, 1, -1), (1, -1, 1), (1, -1, -1), (-1, 1, 1), (-1, 1, -1), (-1, -1, 1))
_OCTANTS = np.array([np.diag(sign) for sign in (*_SIGNS, (-1, -1, -1))], dtype=float)


class _Search:
    """Best direction and depth of each pair, and the least bound among what was dropped."""

    def __init__(self, pairs: Pairs, direction: Floats, depth_mm: Floats) -> None:
        self.pairs = pairs
        self.direction, self.depth_mm = direction.copy(), depth_mm.copy()
        self.lower_mm = depth_mm.copy()

    def evaluate(self, rows: Index, direction: Floats) -> Floats:
        """Support points (T, 3) of the differences; remembers every improvement."""
        point_a, point_b = self.pairs.take(rows).support(direction)
        point = point_a - point_b
        overlap = np.einsum("ti,ti->t", point, direction)
        # Worst first, so that of several improvements of one pair the best is written last.
        order = np.argsort(-overlap)
        order = order[overlap[order] < self.depth_mm[rows[order]]]
        self.direction[rows[order]] = direction[order]
        self.depth_mm[rows[order]] = overlap[order]
        return point


def search_depth(
    pairs: Pairs, direction: Floats, depth_mm: Floats
) -> tuple[Floats, Floats, Floats]:
    """Unit direction (N, 3), depth (N,) and its proved lower bound (N,), in mm.

    `direction` and `depth_mm` are a first guess (see `depth_axes.best_axis`). The bound lies within
    2e-5 mm of the depth unless a pair needs more than 20,000 triangles at once.

    >>> from hardstand.engines.fit.depth_axes import best_axis
    >>> from hardstand.engines.fit.shapes import cylinder
    >>> from hardstand.engines.fit.stack import stack
    >>> from hardstand.engines.fit.support import pairs
    >>> a, b = cylinder((0.0, 0.0, 0.0), 10.0, 90.0), cylinder((9.0, 12.0, 5.0), 8.0, 90.0)
    >>> pair = pairs(stack([a]), stack([b]))
    >>> direction, depth, lower = search_depth(pair, *best_axis(pair))
    >>> direction[0].round(2).tolist(), depth.round(4).tolist()
    ([0.6, 0.8, 0.0], [3.0])
    """
    search = _Search(pairs, direction, depth_mm)
    rows = np.repeat(np.arange(len(pairs)), len(_OCTANTS))
    corners = np.tile(_OCTANTS, (len(pairs), 1, 1))
    points = np.stack([search.evaluate(rows, corners[:, k]) for k in range(3)], axis=1)
    for level in range(_LEVELS):
        value = np.einsum("tki,tji->tkj", points, corners)
        bound = game_value(value)
        # Below zero the bound weakens towards the middle of the triangle, at most twice.
        bound = np.where(bound < 0.0, 2.0 * bound, bound)
        open_rows = bound < search.depth_mm[rows] - _GAIN_MM
        _suggest(search, rows[open_rows], points[open_rows])
        still = bound < search.depth_mm[rows] - _GAIN_MM
        crowded = np.bincount(rows[still], minlength=len(pairs)) > _MOST_TRIANGLES
        still &= ~crowded[rows]
        if level == _LEVELS - 1:
            still[:] = False
        np.minimum.at(search.lower_mm, rows[~still], bound[~still])
        rows, corners, points = _cut(search, rows[still], corners[still], points[still])
        if not len(rows):
            break
    return search.direction, search.depth_mm, np.minimum(search.lower_mm, search.depth_mm)


def _suggest(search: _Search, rows: Index, points: Floats) -> None:
    """Try the normal of the plane through each triangle's three support points."""
    normal = cross(points[:, 1] - points[:, 0], points[:, 2] - points[:, 0])
    length = np.linalg.norm(normal, axis=1)
    usable = length > 0.0
    normal = normal[usable] / length[usable][:, None]
    height = np.einsum("ti,ti->t", normal, points[usable, 0])
    normal[height < 0.0] *= -1.0
    promising = np.abs(height) < search.depth_mm[rows[usable]]
    search.evaluate(rows[usable][promising], normal[promising])


def _cut(
    search: _Search, rows: Index, corners: Floats, points: Floats
) -> tuple[Index, Floats, Floats]:
    """Each triangle as four, with the support points at the middles of its sides."""
    middles, found = [], []
    for i, j in ((0, 1), (1, 2), (2, 0)):
        middle = corners[:, i] + corners[:, j]
        middle /= np.linalg.norm(middle, axis=1)[:, None]
        middles.append(middle)
        found.append(search.evaluate(rows, middle))
    parts = ((0, 3, 5), (3, 1, 4), (5, 4, 2), (3, 4, 5))
    all_corners = np.concatenate([corners, np.stack(middles, axis=1)], axis=1)
    all_points = np.concatenate([points, np.stack(found, axis=1)], axis=1)
    return (
        np.tile(rows, len(parts)),
        np.concatenate([all_corners[:, part] for part in parts]),
        np.concatenate([all_points[:, part] for part in parts]),
    )
