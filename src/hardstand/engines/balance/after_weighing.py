"""Every state once the weigh-ins have moved the inputs: values, slopes, inertia."""

from __future__ import annotations

import numpy as np

from hardstand.engines.balance.model import Floats, MassTable, Weighings
from hardstand.engines.balance.moved import moved
from hardstand.figures import Input


def counts(weighings: Weighings | None) -> bool:
    """Whether some weigh-in moves the inputs: not all may be unusable or mere bounds.

    >>> counts(None)
    False
    """
    return weighings is not None and bool(weighings.readings)


def table_after(table: MassTable, weighings: Weighings | None) -> MassTable:
    """The mass table as the weigh-ins have it: exact for a large step too."""
    return moved(table, weighings.step) if weighings is not None and counts(weighings) else table


def slope_after(slope: Floats, weighings: Weighings | None) -> Floats:
    """Slopes (..., M) by the build-up's inputs as slopes (..., M + Q) by those and the readings.

    An updated figure follows the parts by s - (s gain) rows and the readings by (s gain)
    by_reading, so that its u is that of the least-squares estimate.
    """
    if weighings is None or not counts(weighings):
        return slope
    by_row = slope @ weighings.gain
    return np.concatenate([slope - by_row @ weighings.rows, by_row @ weighings.by_reading], axis=-1)


def inputs_after(inputs: tuple[Input, ...], weighings: Weighings | None) -> tuple[Input, ...]:
    """The build-up's inputs, then the readings."""
    return (*inputs, *weighings.readings) if weighings is not None else inputs
