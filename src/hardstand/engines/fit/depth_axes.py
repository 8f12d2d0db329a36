"""Depth along the axes two bodies offer: exact for boxes, a good first guess for the rest.

The difference of two boxes (all a - b) is a solid bounded by faces whose normals are the three
axes of either box or the cross product of one of each. The nearest way out of it leaves through a
face, so the least overlap over these 15 directions, both senses, is the depth, without search.
Segments and points are boxes without width, so the same holds for them.

Source: the separating axis theorem (common practice, no source).
"""

from __future__ import annotations

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.simplex import cross
from hardstand.engines.fit.support import Pairs

# Two directions within this (mm) of one another count as equal; the earlier, a face's own, is kept.
_TIE_MM = 1e-9


def best_axis(pairs: Pairs) -> tuple[Floats, Floats]:
    """Direction (N, 3), unit, out of the first bodies, and overlap (N,) along it in mm.

    >>> from hardstand.engines.fit.shapes import box
    >>> from hardstand.engines.fit.stack import stack
    >>> from hardstand.engines.fit.support import pairs
    >>> a, b = box((0.0, 0.0, 0.0), (60.0, 40.0, 30.0)), box((45.0, 0.0, 0.0), (40.0, 40.0, 30.0))
    >>> direction, depth = best_axis(pairs(stack([a]), stack([b])))
    >>> direction[0].tolist(), depth.tolist()
    ([1.0, 0.0, 0.0], [5.0])
    """
    count = len(pairs)
    best, depth = np.zeros((count, 3)), np.full(count, np.inf)
    for axis in _axes(pairs):
        for direction in (axis, -axis):
            overlap = pairs.overlap_along(direction)
            better = overlap < depth - _TIE_MM
            best[better], depth[better] = direction[better], overlap[better]
    return best, depth


def _axes(pairs: Pairs) -> list[Floats]:
    """Fifteen unit directions (N, 3) for each pair; a vanishing cross product becomes own x."""
    count = len(pairs)
    own = [np.tile(row, (count, 1)) for row in np.eye(3)]
    other = [pairs.rotation[:, :, k] for k in range(3)]
    axes = own + other
    for first in own:
        for second in other:
            product = cross(first, second)
            length = np.linalg.norm(product, axis=1)
            parallel = length < 1e-9
            product[parallel], length[parallel] = own[0][parallel], 1.0
            axes.append(product / length[:, None])
    return axes
