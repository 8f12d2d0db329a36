"""The velocity that horseshoe vortices induce: the kernel of the lattice."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

# A point this close to a vortex line, relative to its distance, takes no velocity from it.
_ON_THE_LINE = 1e-14


def _leg(offset: Array) -> tuple[Array, Array]:
    """Return v and w times 4 pi of a half-infinite vortex running aft along x, strength one.

    `offset` (…, 3) points from its start to the place. The form (1 + x/r)/(y^2 + z^2) keeps its
    digits far downstream, where the usual r (r - x) cancels.
    """
    x, y, z = offset[..., 0], offset[..., 1], offset[..., 2]
    across = y * y + z * z
    ahead = x * x
    reach = np.sqrt(ahead + across)
    clear = across > _ON_THE_LINE * (ahead + across)
    strength = np.where(clear, (1.0 + x / np.where(clear, reach, 1.0)), 0.0)
    strength /= np.where(clear, across, 1.0)
    return -z * strength, y * strength


def _bound(from_start: Array, from_end: Array) -> tuple[Array, Array]:
    """Return v and w times 4 pi of a straight vortex segment of strength one."""
    x1, y1, z1 = (from_start[..., axis] for axis in range(3))
    x2, y2, z2 = (from_end[..., axis] for axis in range(3))
    r1 = np.sqrt(x1 * x1 + y1 * y1 + z1 * z1)
    r2 = np.sqrt(x2 * x2 + y2 * y2 + z2 * z2)
    product = r1 * r2
    below = product * (product + x1 * x2 + y1 * y2 + z1 * z2)
    clear = below > _ON_THE_LINE * product * product
    factor = np.where(clear, (r1 + r2) / np.where(clear, below, 1.0), 0.0)
    return (z1 * x2 - x1 * z2) * factor, (x1 * y2 - y1 * x2) * factor


def crossflow(points: Array, starts: Array, ends: Array) -> tuple[Array, Array]:
    """Return the sideward and upward velocity of horseshoe vortices of strength one.

    Each vortex comes from far downstream parallel to x, runs along its bound segment from start to
    end and leaves downstream again (Biot and Savart). The velocity along x is not computed: a
    panel without twist has a normal without x part.

    Parameters: `points` (n, 3), `starts` and `ends` (m, 3), mm or any one length.

    Returns v and w, each (n, m), per unit strength and in the inverse of that length.

    Example: half way along and a quarter chord behind nothing but a very wide vortex the downwash
    is 1/(2 pi h), two-dimensional flow:

    >>> place = np.array([[0.5, 0.0, 0.0]])
    >>> wide = np.array([[0.0, 1e5, 0.0]])
    >>> v, w = crossflow(place, -wide, wide)
    >>> round(float(w[0, 0] * np.pi), 4)
    -1.0

    Source: J. J. Bertin and M. L. Smith, Aerodynamics for Engineers, vortex-lattice chapter
    (value from memory).
    """
    from_start = points[:, None, :] - starts[None, :, :]
    from_end = points[:, None, :] - ends[None, :, :]
    v_bound, w_bound = _bound(from_start, from_end)
    v_in, w_in = _leg(from_start)
    v_out, w_out = _leg(from_end)
    scale = 1.0 / (4.0 * np.pi)
    return scale * (v_bound + v_out - v_in), scale * (w_bound + w_out - w_in)
