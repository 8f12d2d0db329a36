"""Value of many 3 x 3 matrix games: the best mix of rows against the worst column.

In the search for depth the rows are points of a solid and the columns the corners of a triangle of
directions; the value is then the best lower bound that the three points give over the triangle.
"""

from __future__ import annotations

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.simplex import cross

_FIRST, _SECOND = np.array([0, 0, 1]), np.array([1, 2, 2])


def game_value(value: Floats) -> Floats:
    """Value (T,) of the games `value` (T, 3, 3), rows maximising, exact but for rounding.

    Pure rows, mixes of two that even out two columns, and the mix that evens out all three are the
    only candidates; each is a valid lower bound by itself.

    >>> game_value(np.array([[[0.0, -1.0, 1.0], [1.0, 0.0, -1.0], [-1.0, 1.0, 0.0]]])).round(12)
    array([0.])

    Source: J. von Neumann, "Zur Theorie der Gesellschaftsspiele", 1928 (named from memory).
    """
    best = value.min(axis=2).max(axis=1)
    base = value[:, _SECOND]
    lead = value[:, _FIRST] - base
    # Axis 1: which two rows are mixed; axis 2: which two columns the mix evens out.
    slope = lead[:, :, _FIRST] - lead[:, :, _SECOND]
    share = (base[:, :, _SECOND] - base[:, :, _FIRST]) / np.where(slope == 0.0, 1.0, slope)
    share = np.clip(share, 0.0, 1.0)
    mixed = base[:, :, None, :] + share[:, :, :, None] * lead[:, :, None, :]
    best = np.maximum(best, mixed.min(axis=3).max(axis=(1, 2)))
    # The mix that evens out all columns solves weights @ value = equal; by Cramer's rule.
    first, second = value[:, :, 0] - value[:, :, 1], value[:, :, 0] - value[:, :, 2]
    mix = cross(first, second)
    total = mix.sum(axis=1)
    mix = np.clip(mix / np.where(total == 0.0, 1.0, total)[:, None], 0.0, None)
    total = mix.sum(axis=1)
    mix[total <= 0.0] = 1.0 / 3.0
    mix /= mix.sum(axis=1)[:, None]
    return np.asarray(np.maximum(best, np.einsum("tk,tkj->tj", mix, value).min(axis=1)))
