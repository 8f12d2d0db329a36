"""Cells by chemistry."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.standards.cells import (
    CHARGE,
    CHARGE_FACTORS,
    CHEMISTRIES,
    open_circuit_v,
    temperature_factor,
)


@pytest.mark.parametrize("name", CHEMISTRIES)
def test_curves_rise_and_factors_fall(name: str) -> None:
    """A fuller cell has a higher voltage and never a higher resistance; limits lie in order."""
    kind = CHEMISTRIES[name]
    assert len(kind.open_v) == len(CHARGE) == len(CHARGE_FACTORS)
    assert list(kind.open_v) == sorted(set(kind.open_v))
    assert list(CHARGE_FACTORS) == sorted(CHARGE_FACTORS, reverse=True)
    assert kind.stop_v < kind.cautious_stop_v < kind.nominal_v < kind.full_v


@pytest.mark.parametrize("name", CHEMISTRIES)
@given(low=st.floats(-0.2, 1.2), high=st.floats(-0.2, 1.2))
def test_more_charge_never_lowers_the_voltage(name: str, low: float, high: float) -> None:
    """Over the whole range and beyond its ends, voltage rises with charge."""
    low, high = min(low, high), max(low, high)
    assert open_circuit_v(name, low) <= open_circuit_v(name, high)


@pytest.mark.parametrize("name", CHEMISTRIES)
def test_cold_cells_resist_more(name: str) -> None:
    """Resistance falls as it gets warmer, and its factor is 1 at 25 °C."""
    factors = [temperature_factor(name, degc) for degc in (-10.0, 0.0, 10.0, 25.0, 40.0)]
    assert factors == sorted(factors, reverse=True)
    assert factors[3] == 1.0
