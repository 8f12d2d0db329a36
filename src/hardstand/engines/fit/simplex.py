"""The point nearest the origin on simplices of up to four corners, many simplices at once.

Every sub-simplex that holds the newest corner is tried in closed form and the nearest valid foot is
kept. That is more arithmetic than walking the regions of space, but the same for every case, so it
runs over whole arrays, and a wrong branch cannot be taken.
"""

from __future__ import annotations

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.stack import Bools

# Corners 0 to 2 are the kept ones, 3 is the newest. The sub-simplices in order: the newest alone,
# three edges, three triangles (of the corners below and the newest), the whole.
_EDGES = np.array([1, 2, 3])
_TRIANGLES = np.array([4, 5, 6])
_FIRST, _SECOND = np.array([0, 0, 1]), np.array([1, 2, 2])


def cross(first: Floats, second: Floats) -> Floats:
    """Cross products (..., 3) of rows; several times quicker than numpy's own for small rows."""
    x1, y1, z1 = first[..., 0], first[..., 1], first[..., 2]
    x2, y2, z2 = second[..., 0], second[..., 1], second[..., 2]
    return np.stack([y1 * z2 - z1 * y2, z1 * x2 - x1 * z2, x1 * y2 - y1 * x2], axis=-1)


def nearest_weights(corners: Floats, present: Bools) -> Floats:
    """Weights (N, 4) of the point nearest the origin on each simplex.

    `corners` (N, 4, 3), `present` (N, 4) tells which corners exist; the last always does, and the
    nearest point is taken to need it (true for the step of a closest-point search: the newest
    corner lies nearer than everything known before). Weights sum to 1 and are not negative.

    >>> corners = [[4.0, -2.0, 1.0], [4.0, 2.0, 1.0], [0.0, 0.0, 0.0], [-4.0, 0.0, 1.0]]
    >>> nearest_weights(np.array([corners]), np.array([[True, True, False, True]])).tolist()
    [[0.25, 0.25, 0.0, 0.5]]
    """
    weights, sound = _feet(corners)
    sound[:, _EDGES] &= present[:, :3]
    sound[:, _TRIANGLES] &= present[:, _FIRST] & present[:, _SECOND]
    sound[:, 7] &= present[:, 0] & present[:, 1] & present[:, 2]
    sound &= (weights.min(axis=2) >= 0.0) & (weights[:, :, 3] > 0.0)
    feet = np.einsum("nsk,nki->nsi", weights, corners)
    square = np.where(sound, np.einsum("nsi,nsi->ns", feet, feet), np.inf)
    return np.asarray(weights[np.arange(len(weights)), square.argmin(axis=1)])


def _feet(corners: Floats) -> tuple[Floats, Bools]:
    """Weights (N, 8, 4) of the origin's foot on each sub-simplex, and whether (N, 8) it has one.

    The foot is that on the whole line, plane or space of the sub-simplex, so a weight may be
    negative; flat triangles and bodies have none.
    """
    newest = corners[:, 3]
    edges = corners[:, :3] - newest[:, None]
    weights = np.zeros((len(corners), 8, 4))
    sound = np.ones((len(corners), 8), dtype=bool)
    length = np.einsum("nki,nki->nk", edges, edges)
    sound[:, _EDGES] = length > 0.0
    scale = np.where(sound[:, _EDGES], length, 1.0)
    weights[:, _EDGES, _EDGES - 1] = -np.einsum("nki,ni->nk", edges, newest) / scale
    normals = cross(edges[:, _FIRST], edges[:, _SECOND])
    square = np.einsum("nki,nki->nk", normals, normals)
    sound[:, _TRIANGLES] = square > 1e-24 * length[:, _FIRST] * length[:, _SECOND]
    scale = np.where(sound[:, _TRIANGLES], square, 1.0)
    moments = cross(newest[:, None], edges)
    weights[:, _TRIANGLES, _FIRST] = -_rowwise(normals, moments[:, _SECOND]) / scale
    weights[:, _TRIANGLES, _SECOND] = _rowwise(normals, moments[:, _FIRST]) / scale
    volume = np.einsum("ni,ni->n", normals[:, 0], edges[:, 2])
    sound[:, 7] = volume != 0.0
    heights = np.einsum("nki,ni->nk", normals, newest) / np.where(sound[:, 7], volume, 1.0)[:, None]
    weights[:, 7, 0], weights[:, 7, 1] = -heights[:, 2], heights[:, 1]
    weights[:, 7, 2] = -heights[:, 0]
    weights[:, :, 3] = 1.0 - weights[:, :, :3].sum(axis=2)
    return weights, sound


def _rowwise(first: Floats, second: Floats) -> Floats:
    return np.asarray(np.einsum("nki,nki->nk", first, second))
