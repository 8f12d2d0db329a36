from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.model import MassTable
from hardstand.engines.balance.moved import moved
from hardstand.engines.balance.totals import inertia_slope, totals
from tests.aeroplanes import assessed

TABLE: MassTable = assessed().results["balance.masses"]


def step_of(address: str, by: float) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """A step of one input alone."""
    return np.array([by * (one.address == address) for one in TABLE.inputs])


ADDRESSES = [one.address for one in TABLE.inputs]


@pytest.mark.parametrize("address", ADDRESSES)
def test_every_slope_is_that_of_a_small_step(address: str) -> None:
    """Mass, CG and inertia follow every single input as their slopes say."""
    column = ADDRESSES.index(address)
    values, slope, _ = totals(TABLE)
    by = 0.5
    ends = [totals(moved(TABLE, step_of(address, sign * by))) for sign in (-1.0, 1.0)]
    difference = (ends[1][0] - ends[0][0]) / (2.0 * by)
    np.testing.assert_allclose(slope[..., column], difference, rtol=1e-4, atol=1e-9)
    inertia = inertia_slope(TABLE, values[:, 1:])[..., column]
    tensors = (ends[1][2] - ends[0][2]) / (2.0 * by)
    entries = [(0, 0, 1.0), (1, 1, 1.0), (2, 2, 1.0), (0, 2, -1.0)]
    for entry, (row, other, sign) in enumerate(entries):
        np.testing.assert_allclose(
            inertia[:, entry], sign * tensors[:, row, other], rtol=2e-3, atol=1e-9
        )
