"""What a wire may carry, its insulation and its mass."""

from __future__ import annotations

import pytest

from hardstand.standards.wire import outside_diameter_mm
from hardstand.standards.wire_current import BUNDLE_A, bundle_current_a, free_air_current_a
from hardstand.standards.wire_insulation import (
    INSULATIONS,
    insulated_diameter_mm,
    strands_diameter_mm,
    wire_g_per_m,
)
from hardstand.standards.wire_resistance import conductor_area_mm2, gauge_mohm_per_m


@pytest.mark.parametrize("awg", BUNDLE_A)
def test_a_bundle_carries_less_than_a_wire_by_itself(awg: int) -> None:
    """The bundle's current is below that which warms one wire in still air as much."""
    bare_mm = outside_diameter_mm(awg)
    alone = free_air_current_a(gauge_mohm_per_m(awg, 105.0), bare_mm, 35.0)
    assert 1.0 < alone / bundle_current_a(awg, 105.0) < 4.0


def test_a_wire_that_cannot_warm_carries_nothing() -> None:
    """A rating at the bundle's own surroundings is refused; between the columns it lies between."""
    with pytest.raises(ValueError, match="70"):
        bundle_current_a(20, 70.0)
    assert 4.0 < bundle_current_a(20, 150.0) < 9.0
    assert bundle_current_a(20, 80.0) < 4.0
    assert bundle_current_a(20, 260.0) == 9.0


@pytest.mark.parametrize("name", INSULATIONS)
@pytest.mark.parametrize("awg", [12, 16, 20, 24, 28])
def test_insulation_adds_width_and_mass(name: str, awg: int) -> None:
    """Every insulation makes a wire thicker and heavier than its copper; more copper, more of both."""
    area_mm2 = conductor_area_mm2(awg)
    insulation = INSULATIONS[name]
    assert insulated_diameter_mm(area_mm2, insulation) > strands_diameter_mm(area_mm2) + 0.3
    assert wire_g_per_m(area_mm2, insulation) > 8.89 * area_mm2
    assert wire_g_per_m(2.0 * area_mm2, insulation) > 1.4 * wire_g_per_m(area_mm2, insulation)


@pytest.mark.parametrize("awg", [14, 18, 22, 26])
def test_the_usual_insulation_is_that_of_the_gauge(awg: int) -> None:
    """By area or by gauge, the usual lead has the same outside."""
    assert insulated_diameter_mm(conductor_area_mm2(awg)) == pytest.approx(outside_diameter_mm(awg))
