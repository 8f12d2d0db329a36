"""The liquid in one tank at several fills: what it weighs, where, with what inertia."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
KG_PER_G = 1e-3
M2_PER_MM2 = 1e-6


@dataclass(frozen=True, eq=False)
class Liquid:
    """The liquid in one tank at F fills.

    Attributes: volume_ml (F,); level_mm (F,), the surface's height from the aeroplane's origin
    along the upward direction; centroid_mm (F, 3) and spread_mm_mm (F, 3, 3), as in
    `VolumeIntegrals`, in the aeroplane's axes.
    """

    volume_ml: Floats
    level_mm: Floats
    centroid_mm: Floats
    spread_mm_mm: Floats

    def mass_g(self, density_g_per_ml: float) -> Floats:
        """Return the mass (F,), g, for a density in g per ml."""
        return self.volume_ml * density_g_per_ml

    def inertia_kgm2(self, density_g_per_ml: float) -> Floats:
        """Return the inertia tensor about the liquid's own centroid (F, 3, 3), kg m2.

        The liquid counts as frozen in place. Off the diagonal stand the products with a minus.
        """
        trace = np.trace(self.spread_mm_mm, axis1=-2, axis2=-1)
        tensor = trace[:, None, None] * np.eye(3) - self.spread_mm_mm
        mass_kg = self.mass_g(density_g_per_ml)[:, None, None] * KG_PER_G
        return np.asarray(mass_kg * tensor * M2_PER_MM2, dtype=np.float64)
