"""What the vortex lattice gives: lift and moment slopes and the loading they come from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.balance.lattice_mesh import Boxes

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Lattice:
    """Slopes per radian of angle of attack, both halves together.

    `lift_mm2` (surfaces) is lift slope times reference area, `moment_mm3` (surfaces) nose-up moment
    slope about the datum times area and length, so that any reference can be divided out.
    `strip_surface`, `strip_y_mm` and `strip_load_mm` (strips) hold the spanwise loading for a plot:
    section lift slope times local chord. `boxes` and `circulation_mm` (boxes, per radian and
    per unit speed) are what the flow is made of; with `half_model` they and the strips are the
    starboard half only.
    """

    lift_mm2: Array
    moment_mm3: Array
    strip_surface: NDArray[np.int64]
    strip_y_mm: Array
    strip_load_mm: Array
    boxes: Boxes
    circulation_mm: Array
    half_model: bool

    def lift_slope(self, area_mm2: float) -> float:
        """Return the lift slope of all surfaces per radian on a reference area in mm2."""
        return float(self.lift_mm2.sum()) / area_mm2

    def neutral_x_mm(self, weights: Sequence[float] | None = None) -> float:
        """Return the station in mm about which the moment does not change with angle of attack.

        `weights` (surfaces) scale lift and moment of each surface: the tail efficiency.
        """
        weight = np.ones_like(self.lift_mm2) if weights is None else np.asarray(weights, float)
        return -float(weight @ self.moment_mm3) / float(weight @ self.lift_mm2)
