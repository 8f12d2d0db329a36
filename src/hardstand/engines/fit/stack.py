"""Many bodies as arrays, so that thousands are worked on at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.body import Body, Floats

Bools = NDArray[np.bool_]
Index = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Stack:
    """N bodies as arrays; fields as in `Body`, with N in front, and `is_round` (N,) for cylinders.

    `corners_mm` is (N, V, 3), V the largest number of corners; rows are filled up with a corner of
    the same body (zeros for bodies that have none, which then add nothing).
    """

    centre_mm: Floats
    rotation: Floats
    half_mm: Floats
    is_round: Bools
    corners_mm: Floats
    margin_mm: Floats

    def __len__(self) -> int:
        return len(self.centre_mm)

    def take(self, index: Index) -> Stack:
        """The bodies at `index`, in that order."""
        return Stack(
            self.centre_mm[index],
            self.rotation[index],
            self.half_mm[index],
            self.is_round[index],
            self.corners_mm[index],
            self.margin_mm[index],
        )

    def contents(self) -> list[bytes]:
        """Each body's numbers as bytes: equal where two bodies are the same."""
        count = len(self)
        shape = (self.is_round, self.margin_mm, self.half_mm, self.corners_mm)
        place = (self.centre_mm, self.rotation)
        if not count:
            return []
        columns = [
            one.reshape(count, -1).astype(np.float64) for one in (*place, *shape) if one.size
        ]
        return [row.tobytes() for row in np.ascontiguousarray(np.hstack(columns))]


def stack(bodies: Sequence[Body]) -> Stack:
    """Bodies as one `Stack`.

    >>> from hardstand.engines.fit.shapes import box
    >>> len(stack([box((0.0, 0.0, 0.0), (1.0, 1.0, 1.0))] * 3))
    3
    """
    most = max((len(body.corners_mm) for body in bodies), default=0)
    corners = np.zeros((len(bodies), most, 3))
    for row, body in enumerate(bodies):
        count = len(body.corners_mm)
        if count:
            corners[row, :count] = body.corners_mm
            corners[row, count:] = body.corners_mm[0]
    return Stack(
        np.array([body.centre_mm for body in bodies], dtype=float).reshape(-1, 3),
        np.array([body.rotation for body in bodies], dtype=float).reshape(-1, 3, 3),
        np.array([body.half_mm for body in bodies], dtype=float).reshape(-1, 3),
        np.array([body.kind == "cylinder" for body in bodies], dtype=bool),
        corners,
        np.array([body.margin_mm for body in bodies], dtype=float),
    )


def spans(bodies: Stack) -> tuple[Floats, Floats]:
    """How far bodies reach along the axes, margin included: lowest and highest corners (N, 3).

    >>> from hardstand.engines.fit.shapes import box, cylinder
    >>> two = stack([box((1.0, 0.0, 0.0), (2.0, 2.0, 2.0)), cylinder((0.0, 0.0, 0.0), 3.0, 20.0)])
    >>> [ends.tolist() for ends in spans(two)]
    [[[0.0, -1.0, -1.0], [-3.0, -3.0, -10.0]], [[2.0, 1.0, 1.0], [3.0, 3.0, 10.0]]]
    """
    turn, half, margin = bodies.rotation, bodies.half_mm, bodies.margin_mm[:, None]
    across = np.hypot(turn[:, :, 0], turn[:, :, 1])
    round_mm = half[:, 2:] * np.abs(turn[:, :, 2]) + half[:, :1] * across
    square_mm = np.einsum("nij,nj->ni", np.abs(turn), half)
    reach = np.where(bodies.is_round[:, None], round_mm, square_mm)
    low, high = -reach, reach
    if bodies.corners_mm.shape[1]:
        rows = np.flatnonzero(bodies.corners_mm.any(axis=(1, 2)))
        corners = np.einsum("nij,nvj->nvi", turn[rows], bodies.corners_mm[rows])
        low[rows], high[rows] = corners.min(axis=1), corners.max(axis=1)
    return bodies.centre_mm + low - margin, bodies.centre_mm + high + margin
