"""How far a piece may be from where the description has it, as one expanded uncertainty."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from hardstand.engines.fit.piece import Piece


@dataclass(frozen=True, slots=True)
class Spread:
    """Expanded uncertainty (2u, mm) of a surface: in plan, along the worse axis, and in height."""

    plan_mm: float
    height_mm: float

    def and_of(self, other: Spread) -> Spread:
        """That of the distance of two surfaces.

        >>> Spread(3.0, 0.0).and_of(Spread(4.0, 0.5))
        Spread(plan_mm=5.0, height_mm=0.5)
        """
        return Spread(
            math.hypot(self.plan_mm, other.plan_mm), math.hypot(self.height_mm, other.height_mm)
        )


def spread_of(*pieces: Piece) -> Spread:
    """How far the surface of a piece may be off, to first order, inputs independent.

    Of several: of the worst one.
    """
    worst = np.zeros(3)
    for piece in pieces:
        square = np.zeros(3)
        for one in piece.follows:
            by_half = np.abs(piece.body.rotation) @ np.abs(one.half)
            square += (one.input.u * (np.abs(one.centre) + by_half + abs(one.surface))) ** 2
        worst = np.maximum(worst, 2.0 * np.sqrt(square))
    return Spread(float(worst[:2].max()), float(worst[2]))
