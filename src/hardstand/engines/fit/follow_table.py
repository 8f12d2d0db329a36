"""How distances between pieces follow the inputs, for many pairs at once.

By the envelope theorem a signed distance changes with a place only along the normal, and with a
size only through how far the solid reaches along it: what turns the normal counts nothing to first
order.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.piece import Piece
from hardstand.engines.fit.stack import Bools, Index
from hardstand.figures import Input


@dataclass(frozen=True, eq=False)
class FollowTable:
    """P pieces that follow up to K of M inputs.

    column (P, K): index of the input, M where there is none; centre, half (P, K, 3), surface (P, K):
    as in `Follow`; rotation (P, 3, 3); boxes (P,): true for a box, whose faces look along its axes.
    """

    inputs: tuple[Input, ...]
    column: Index
    centre: Floats
    half: Floats
    surface: Floats
    rotation: Floats
    boxes: Bools

    def bound_u(self) -> Floats:
        """The most (P,) that the inputs of each piece can put into any distance, as u in mm."""
        u = np.append([one.u for one in self.inputs], 0.0)[self.column]
        most = np.linalg.norm(self.centre, axis=2) + np.linalg.norm(self.half, axis=2)
        return np.asarray(np.sqrt((((most + self.surface) * u) ** 2).sum(axis=1)))

    def slopes(self, a: Index, b: Index, normal: Floats) -> Floats:
        """Sensitivities (N, M): mm of distance between pieces a[k] and b[k] per unit of each input.

        `normal` (N, 3) is the unit direction from a[k] to b[k] as `separation` gives it.
        """
        slope = np.zeros((len(a), len(self.inputs) + 1))
        rows = np.arange(len(a))[:, None]
        for index, sense in ((a, -1.0), (b, 1.0)):
            moved = np.einsum("nki,ni->nk", self.centre[index], normal)
            reach = np.einsum("nki,ni->nk", self.half[index], self._reach(index, normal))
            np.add.at(
                slope, (rows, self.column[index]), sense * moved - reach - self.surface[index]
            )
        return slope[:, :-1]

    def _reach(self, index: Index, normal: Floats) -> Floats:
        """How much a piece reaches along the normal per mm of each of its half sizes (N, 3)."""
        own = np.abs(np.einsum("nji,nj->ni", self.rotation[index], normal))
        across = np.hypot(own[:, 0], own[:, 1])
        round_ = np.column_stack([across, np.zeros(len(own)), own[:, 2]])
        return np.asarray(np.where(self.boxes[index][:, None], own, round_))


def follow_table(pieces: Sequence[Piece]) -> FollowTable:
    """The table of some pieces; inputs in the order in which the pieces name them first."""
    inputs: dict[str, Input] = {}
    for piece in pieces:
        for one in piece.follows:
            inputs.setdefault(one.input.address, one.input)
    place = {address: k for k, address in enumerate(inputs)}
    most = max((len(piece.follows) for piece in pieces), default=0)
    column = np.full((len(pieces), most), len(inputs), dtype=np.intp)
    centre, half = np.zeros((len(pieces), most, 3)), np.zeros((len(pieces), most, 3))
    surface = np.zeros((len(pieces), most))
    for p, piece in enumerate(pieces):
        for k, one in enumerate(piece.follows):
            column[p, k] = place[one.input.address]
            centre[p, k], half[p, k], surface[p, k] = one.centre, one.half, one.surface
    return FollowTable(
        tuple(inputs.values()),
        column,
        centre,
        half,
        surface,
        np.array([piece.body.rotation for piece in pieces]).reshape(-1, 3, 3),
        np.array([piece.body.kind == "box" for piece in pieces], dtype=bool),
    )
