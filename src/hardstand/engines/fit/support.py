"""The support points of many pairs of cores at once.

The support point of a solid in a direction is the point of it that lies farthest that way. All the
searches of this folder (closest points, depth) know the solids through it alone, so a round
cylinder is round, not a many-sided prism.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.stack import Bools, Index, Stack


@dataclass(frozen=True, eq=False)
class Pairs:
    """N pairs of cores (margins left aside), seen from the first body's centre and axes.

    `rotation` (N, 3, 3) and `offset_mm` (N, 3) place the second body in that frame, which keeps
    numbers small however far from the datum the pair stands.
    """

    half_a: Floats
    round_a: Bools
    corners_a: Floats
    half_b: Floats
    round_b: Bools
    corners_b: Floats
    rotation: Floats
    offset_mm: Floats

    def __len__(self) -> int:
        return len(self.offset_mm)

    def take(self, index: Index | Bools) -> Pairs:
        """The pairs at `index`, in that order."""
        return Pairs(
            self.half_a[index],
            self.round_a[index],
            self.corners_a[index],
            self.half_b[index],
            self.round_b[index],
            self.corners_b[index],
            self.rotation[index],
            self.offset_mm[index],
        )

    def shifted(self, by_mm: Floats) -> Pairs:
        """The same pairs with the second bodies moved by `by_mm` (N, 3)."""
        return Pairs(
            self.half_a,
            self.round_a,
            self.corners_a,
            self.half_b,
            self.round_b,
            self.corners_b,
            self.rotation,
            self.offset_mm + by_mm,
        )

    def support(self, direction: Floats) -> tuple[Floats, Floats]:
        """Points (N, 3) of the first bodies farthest along `direction`, of the second least far.

        `direction` (N, 3) need not be of unit length.
        """
        point_a = _support_own(self.half_a, self.round_a, self.corners_a, direction)
        own = -np.einsum("nji,nj->ni", self.rotation, direction)
        local_b = _support_own(self.half_b, self.round_b, self.corners_b, own)
        point_b = self.offset_mm + np.einsum("nij,nj->ni", self.rotation, local_b)
        return point_a, point_b

    def overlap_along(self, direction: Floats) -> Floats:
        """How far (N,) the first body reaches beyond the second's near side along unit `direction`.

        Negative: the two are that far apart along it. For any direction this bounds the signed
        distance from below by its negative.
        """
        point_a, point_b = self.support(direction)
        return np.asarray(np.einsum("ni,ni->n", point_a - point_b, direction))


def pairs(a: Stack, b: Stack) -> Pairs:
    """The pairs (a[k], b[k]), each in the frame of a[k]."""
    back = np.swapaxes(a.rotation, 1, 2)
    return Pairs(
        a.half_mm,
        a.is_round,
        a.corners_mm,
        b.half_mm,
        b.is_round,
        b.corners_mm,
        _without_dust(back @ b.rotation),
        _without_dust(np.einsum("nij,nj->ni", back, b.centre_mm - a.centre_mm)),
    )


def _without_dust(number: Floats) -> Floats:
    """Nought for what is only rounding (2 m turned by 1e-15 moves by 2e-12 mm).

    Square faces then are square, and no quotient of two such remnants runs out of range.
    """
    return np.where(np.abs(number) < 1e-15, 0.0, number)


def _support_own(half: Floats, is_round: Bools, corners: Floats, direction: Floats) -> Floats:
    """Support points (N, 3) of cores in their own axes."""
    point = np.copysign(half, direction)
    if is_round.any():
        across = np.hypot(direction[:, 0], direction[:, 1])
        # Divided before it is multiplied: a share of the length cannot overflow.
        around = direction[:, :2] / np.where(across > 0.0, across, 1.0)[:, None]
        rim = around * half[:, :1]
        point[:, :2] = np.where(is_round[:, None], rim, point[:, :2])
    if corners.shape[1]:
        along = np.einsum("nvi,ni->nv", corners, direction)
        point = point + corners[np.arange(len(corners)), along.argmax(axis=1)]
    return point
