"""One convex solid: a core (box, round cylinder or hull of corners) and a rounding margin.

The margin grows the core on all sides. A point is a box without size, a segment a box with one
length; with a margin they are a ball and a capsule.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
# Beyond it (or far below a micrometre) the arithmetic cannot keep what it promises.
_LARGEST_MM = 1e6

Kind = Literal["box", "cylinder", "polytope"]


@dataclass(frozen=True, eq=False)
class Body:
    """One convex solid, in millimetres. Make it with the constructors in `shapes`.

    `centre_mm` (3,) and `rotation` (3, 3) carry the body's own axes into the aeroplane's. `half_mm`
    (3,) holds half sizes: of a box along its own x, y, z; of a cylinder radius, radius, half length
    (its axis is its own z). `corners_mm` (V, 3) are a polytope's corners in its own axes, seen from
    the centre; other kinds have none. `margin_mm` is the rounding added all round the core.
    """

    kind: Kind
    centre_mm: Floats
    rotation: Floats
    half_mm: Floats
    corners_mm: Floats
    margin_mm: float = 0.0

    def moved(self, by_mm: ArrayLike, rotation: ArrayLike | None = None) -> Body:
        """The body turned about the origin by `rotation` (3, 3), then shifted by `by_mm` (3,).

        >>> from hardstand.engines.fit.shapes import box
        >>> box((10.0, 0.0, 0.0), (2.0, 2.0, 2.0)).moved((0.0, 5.0, 0.0)).centre_mm.tolist()
        [10.0, 5.0, 0.0]
        """
        turn = np.eye(3) if rotation is None else np.asarray(rotation, dtype=float)
        centre = turn @ self.centre_mm + np.asarray(by_mm, dtype=float)
        return Body(
            self.kind, centre, turn @ self.rotation, self.half_mm, self.corners_mm, self.margin_mm
        )


def aabb(body: Body) -> tuple[Floats, Floats]:
    """Lowest and highest x, y, z (3,) that the solid reaches, margin included.

    >>> from hardstand.engines.fit.shapes import cylinder
    >>> [corner.round(9).tolist() for corner in aabb(cylinder((0.0, 0.0, 0.0), 3.0, 20.0))]
    [[-3.0, -3.0, -10.0], [3.0, 3.0, 10.0]]
    """
    if body.kind == "polytope":
        world = body.centre_mm + body.corners_mm @ body.rotation.T
        return world.min(axis=0) - body.margin_mm, world.max(axis=0) + body.margin_mm
    if body.kind == "cylinder":
        axis = body.rotation[:, 2]
        across = np.hypot(body.rotation[:, 0], body.rotation[:, 1])
        reach = body.half_mm[2] * np.abs(axis) + body.half_mm[0] * across
    else:
        reach = np.abs(body.rotation) @ body.half_mm
    return body.centre_mm - reach - body.margin_mm, body.centre_mm + reach + body.margin_mm


def checked_body(
    kind: Kind,
    centre_mm: ArrayLike,
    rotation: Floats,
    half_mm: Floats,
    corners_mm: ArrayLike,
    margin_mm: float,
) -> Body:
    """A body from numbers that have been looked at; fields as in `Body`.

    Sizes under a millionth of a micrometre count as nought. Raises ValueError if a number is not
    finite or beyond a kilometre, has a wrong shape, or a size is negative.

    >>> checked_body("box", (0, 0, 0), np.eye(3), np.ones(3), (), 0.5).margin_mm
    0.5
    """
    centre = np.asarray(centre_mm, dtype=float)
    corners = np.asarray(corners_mm, dtype=float).reshape(-1, 3)
    if centre.shape != (3,) or half_mm.shape != (3,):
        raise ValueError("centre and size need three numbers each")
    numbers = (centre, rotation.ravel(), half_mm, corners.ravel(), (margin_mm,))
    largest = float(np.abs(np.concatenate(numbers)).max())
    if not isfinite(largest):
        raise ValueError("centre, size, turn, tilt and margin must be finite")
    if largest > _LARGEST_MM:
        raise ValueError("centre, size and margin must be within a kilometre")
    if half_mm.min() < 0.0 or margin_mm < 0.0:
        raise ValueError("sizes and margin must not be negative")
    half = np.where(half_mm < 1e-9, 0.0, half_mm)
    return Body(kind, centre, rotation, half, corners, float(margin_mm))
