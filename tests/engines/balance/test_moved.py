from __future__ import annotations

import numpy as np

from hardstand.engines.balance.model import MassTable
from hardstand.engines.balance.moved import moved, only_states
from hardstand.engines.balance.totals import totals
from tests.aeroplanes import SMALL, assessed, swapped

TABLE: MassTable = assessed().results["balance.masses"]


def step_of(address: str, by: float) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """A step of one input alone."""
    return np.array([by * (one.address == address) for one in TABLE.inputs])


def test_moving_an_input_is_entering_it_otherwise() -> None:
    """A mass, a place and a density moved give what the description with them gives."""
    for address, by, old, new in (
        ("mass.nose.mass_g", 55.0, "mass_g = 1000", "mass_g = 1055"),
        ("mass.tail.at_mm.z", 7.0, "at_mm = [1600, 0, 40]", "at_mm = [1600, 0, 47]"),
        ("fuel.density_kg_m3", 16.0, "density_kg_m3 = 800", "density_kg_m3 = 816"),
        ("leg.nose-leg.up_mm.x", 9.0, "up_mm = [580", "up_mm = [589"),
    ):
        other: MassTable = assessed(swapped(SMALL, old, new)).results["balance.masses"]
        (values, _, inertia), (wanted, _, tensor) = (
            totals(moved(TABLE, step_of(address, by))),
            totals(other),
        )
        np.testing.assert_allclose(values, wanted, rtol=1e-9, atol=1e-9)
        np.testing.assert_allclose(inertia, tensor, rtol=1e-9, atol=1e-9)


def test_states_can_be_picked_and_repeated() -> None:
    """Rows in the order given, with their links."""
    values, slope, inertia = totals(TABLE)
    few = totals(only_states(TABLE, [2, 0, 2]))
    for whole, some in zip((values, slope, inertia), few, strict=True):
        np.testing.assert_array_equal(some, whole[[2, 0, 2]])
    assert only_states(TABLE, [1]).state_ids == ("full",)
