"""Volume, centroid and spread of a closed solid, whole or below a level.

Each surface triangle and one common apex span a signed tetrahedron, and the sum over the surface
is the solid (divergence theorem). With the apex in the cutting plane the cut face contributes
nothing, so that a part below a level needs no cut face at all. Source: closed forms for a
tetrahedron, checked in the tests against box, cylinder and a mesh library.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hardstand.engines.fuel.solids import Solid

Floats = NDArray[np.float64]
MM3_PER_ML = 1000.0


@dataclass(frozen=True, eq=False)
class VolumeIntegrals:
    """What a body of uniform density needs, for one solid cut at L levels.

    Attributes: volume_ml (L,); centroid_mm (L, 3); spread_mm_mm (L, 3, 3), the mean over the
    volume of the outer product of the offset from the centroid (mm squared, the products positive).
    At zero volume the centroid is the lowest point and the spread 0.
    """

    volume_ml: Floats
    centroid_mm: Floats
    spread_mm_mm: Floats


def _signed_sums(triangles_mm: Floats, weight: Floats) -> tuple[Floats, Floats, Floats]:
    """Sum volume, first and second moments about the origin over (..., T, 3, 3) triangles."""
    a, b, c = triangles_mm[..., 0, :], triangles_mm[..., 1, :], triangles_mm[..., 2, :]
    volume = weight * np.sum(a * np.cross(b, c), axis=-1) / 6.0
    total = a + b + c
    first = np.einsum("...t,...ti->...i", volume, total) / 4.0
    corners = np.concatenate([a, b, c, total], axis=-2)
    weighted = np.concatenate([volume] * 4, axis=-1)[..., None] * corners
    second = np.swapaxes(weighted, -1, -2) @ corners
    return np.sum(volume, axis=-1), first, second / 20.0


def corners_cut(
    triangles_mm: Floats, height_mm: Floats
) -> tuple[NDArray[np.int64], Floats, Floats]:
    """Find what a plane cuts off each triangle.

    Every triangle that is cut has one lone corner on its own side of the plane; the triangle from
    there to the two points where its sides cross the plane is the tip.
    Parameters: triangles_mm (..., T, 3, 3); height_mm (..., T, 3), each corner's height above the
    plane. Returns the number of corners not above the plane (..., T); the tip (..., T, 3, 3); and
    the triangle with the lone corner rolled to the front (..., T, 3, 3).
    For triangles that aren't cut the last two mean nothing.

    >>> triangle, height = np.eye(3)[None], np.array([[-1.0, 1.0, 1.0]])
    >>> count, tip, rolled = corners_cut(triangle, height)
    >>> count.tolist(), tip[0].tolist()
    ([1], [[1.0, 0.0, 0.0], [0.5, 0.5, 0.0], [0.5, 0.0, 0.5]])
    """
    below = height_mm <= 0.0
    count = np.sum(below, axis=-1)
    lone = np.where(count == 1, np.argmax(below, axis=-1), np.argmin(below, axis=-1))
    order = (lone[..., None] + np.arange(3)) % 3
    height = np.take_along_axis(height_mm, order, axis=-1)
    corner = np.take_along_axis(
        np.broadcast_to(triangles_mm, (*height_mm.shape, 3)), order[..., None], axis=-2
    )
    gap = height[..., :1] - height[..., 1:]
    part = np.divide(height[..., :1], gap, out=np.zeros_like(gap), where=gap != 0.0)
    crossing = corner[..., :1, :] + part[..., None] * (corner[..., 1:, :] - corner[..., :1, :])
    return count, np.concatenate([corner[..., :1, :], crossing], axis=-2), corner


def integrals_below(solid: Solid, up: ArrayLike, level_mm: ArrayLike) -> VolumeIntegrals:
    """Integrate the part of a solid that lies below each of several levels.

    Parameters: solid; up (3,), unit vector; level_mm (L,), the height of the plane, measured from
    the origin along `up`. Returns `VolumeIntegrals` over L, exact for flat-faced solids.

    >>> from hardstand.engines.fuel.solids import box
    >>> part = integrals_below(box([10, 20, 30]), [0, 0, 1], [-5.0])
    >>> round(part.volume_ml.item(), 6), part.centroid_mm.round(6).tolist()
    (2.0, [[0.0, 0.0, -10.0]])
    """
    upward = np.asarray(up, dtype=np.float64)
    level = np.atleast_1d(np.asarray(level_mm, dtype=np.float64))
    middle = solid.triangles_mm.mean(axis=(0, 1))
    # The apex: the foot of the solid's middle in each cutting plane keeps the numbers small.
    apex = middle + (level - middle @ upward)[:, None] * upward
    triangles = solid.triangles_mm - apex[:, None, None, :]
    height = (solid.triangles_mm @ upward)[None] - level[:, None, None]
    count, corner, _ = corners_cut(triangles, height)
    whole = _signed_sums(triangles, (count >= 2).astype(np.float64))
    cut = _signed_sums(corner, (count == 1).astype(np.float64) - (count == 2))
    volume, first, second = (one + two for one, two in zip(whole, cut, strict=True))
    lowest = solid.triangles_mm.reshape(-1, 3)
    depth = lowest @ upward
    bottom = lowest[depth <= depth.min() + 1e-9 * max(np.ptp(depth), 1.0)].mean(axis=0)
    filled = volume > 1e-12 * np.ptp(depth) ** 3
    size = np.where(filled, volume, 1.0)
    offset = np.where(filled[:, None], first / size[:, None], bottom - apex)
    spread = second / size[:, None, None] - offset[:, :, None] * offset[:, None, :]
    return VolumeIntegrals(
        np.where(filled, volume, 0.0) / MM3_PER_ML,
        apex + offset,
        np.where(filled[:, None, None], spread, 0.0),
    )


def integrals(solid: Solid) -> VolumeIntegrals:
    """Integrate a whole solid; the arrays have one row.

    >>> from hardstand.engines.fuel.solids import box
    >>> integrals(box([12, 6, 6])).spread_mm_mm[0].diagonal().round(6).tolist()
    [12.0, 3.0, 3.0]
    """
    top_mm = solid.triangles_mm[..., 2].max()
    return integrals_below(solid, [0.0, 0.0, 1.0], [top_mm])
