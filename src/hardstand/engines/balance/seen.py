"""A weigh-in as rows that can be set against the build-up of its state."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hardstand.asbuilt.value import WeighIn as Weighed
from hardstand.engines.balance.model import Floats
from hardstand.figures import Input


@dataclass(frozen=True, eq=False)
class Seen:
    """R rows that a weigh-in measured of mass, x, y (numbered 0, 1, 2 in `rows`) of its state.

    What was measured depends on the rest of the build-up: measured = at_built + by_built @ (built -
    built at first), `built` being mass, x, y, z of the state and by_built (R, 4); a tilted
    aeroplane's x follows the height of its CG, a stand's the mass. `readings` (Q) are what was read
    and by_reading (R, Q) how the measured values follow them.
    """

    weighed: Weighed
    row: int
    rows: tuple[int, ...]
    at_built: Floats
    first_built: Floats
    by_built: Floats
    readings: tuple[Input, ...]
    by_reading: Floats

    def against(self, values: Floats, slope: Floats) -> tuple[Floats, Floats]:
        """Residual (R,), measured less built, and the slopes (R, M) of built less measured.

        values (4,) and slope (4, M) of the weighed state as the build-up now has them.
        """
        measured = self.at_built + self.by_built @ (values - self.first_built)
        chosen = list(self.rows)
        return measured - values[chosen], slope[chosen] - self.by_built @ slope

    @property
    def covariance(self) -> Floats:
        """Covariance (R, R) of the measured values from the readings alone."""
        spread = self.by_reading * np.array([one.u for one in self.readings])
        return np.asarray(spread @ spread.T, dtype=np.float64)

    def measured(self, row: int) -> tuple[float, float] | None:
        """Value and u of mass, x or y (0, 1, 2) as measured, or None where it was not."""
        if row not in self.rows:
            return None
        at = self.rows.index(row)
        return float(self.at_built[at]), float(np.sqrt(self.covariance[at, at]))
