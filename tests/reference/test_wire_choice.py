"""The wire that a handbook's worked examples choose, typed from it.

Source of all: FAA AC 43.13-1B CHG 1, chapter 11. Grade: seen
(https://www.landseaskyspace.com/ac4313/, pages 11-22, 11-26 and 11-27).
"""

from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.power.choice.choose import Warming, chosen, least_mm2
from hardstand.engines.power.choice.sizes import AWG
from hardstand.engines.power.choice.warmth import TIED, conductor_degc, heat_w_per_m
from hardstand.engines.power.defaults import COPPER
from hardstand.standards.wire_current import free_air_current_a
from hardstand.standards.wire_insulation import THIN_WALL, insulated_diameter_mm
from hardstand.standards.wire_resistance import (
    conductor_area_mm2,
    most_mohm_per_m,
    temperature_ratio,
)

MM_PER_FT = 304.8
NONE = np.zeros(1)
COOL = Warming(NONE, np.array([2.0]), NONE, NONE, 20.0, NONE)
# Table 11-7: drop in V, run in ft of conductor, A, wire by the chart; then example No. 1, page 11-26.
RUNS = [(1.0, 107.0, 20.0, 6), (0.5, 90.0, 20.0, 4), (4.0, 88.0, 20.0, 12), (7.0, 100.0, 20.0, 14),
        (1.0, 50.0, 20.0, 8)]  # fmt: skip


@pytest.mark.parametrize("most_v, run_ft, current_a, gauge", RUNS)
def test_the_gauge_for_a_drop_is_that_of_the_chart(
    most_v: float, run_ft: float, current_a: float, gauge: int
) -> None:
    """Table 11-7, page 11-22, and example No. 1, page 11-26: the run is the whole conductor.

    The chart is for tinned wire; copper is taken with twice its uncertainty, as the choice does.
    """
    sure = 1.0 + 2.0 * COPPER.u
    least = least_mm2(np.array([sure * current_a * 0.5 * run_ft * MM_PER_FT]), np.array([most_v]))
    (at,), (binds,) = chosen(AWG, {"drop": least}, COOL, 80.0)
    assert (AWG.sizes[at], binds) == (gauge, "drop")


# Example No. 2, page 11-27: No. 14, rated 200 degrees C in 50; 47 A alone, 0.6 of it where 8 wires in a
# bundle carry 60 % of what they may together; 26 A at 20 000 ft.
RATED_DEGC, AROUND_DEGC, ALONE_A, SHARE, WIRES, CARRIED_A = 200.0, 50.0, 47.0, 0.6, 8, 26.0


def bundle_degc(gauge: int, current_a: float) -> float:
    """Copper of a bundle of 8 tinned wires with thin insulation, as warm as 60 % of them heat it."""
    heat = heat_w_per_m(np.array([current_a]), np.array([most_mohm_per_m(gauge)]), SHARE * WIRES)
    outside_mm = insulated_diameter_mm(conductor_area_mm2(gauge), THIN_WALL)
    return float(conductor_degc(heat, np.array([WIRES * outside_mm**2]), AROUND_DEGC)[0])


def test_the_gauge_for_warmth_in_a_bundle_is_that_of_the_example() -> None:
    """For the 26 A that the example ends at, No. 14 is the smallest that stays below 200 degrees C."""
    fit = [one for one in (24, 22, 20, 18, 16, 14, 12, 10) if bundle_degc(one, CARRIED_A) <= RATED_DEGC]
    assert fit[0] == 14


def test_the_current_of_a_bundle_is_that_of_the_example() -> None:
    """On the ground 0.6 x 47 A; ours allows no more, and at least nine tenths of it."""
    allowed_a = SHARE * ALONE_A
    assert bundle_degc(14, 0.9 * allowed_a) < RATED_DEGC < bundle_degc(14, allowed_a)


def test_a_wire_alone_is_taken_cautiously() -> None:
    """Alone in the air No. 14 carries 47 A in the example; still air by our coefficient allows less."""
    warm = most_mohm_per_m(14) * temperature_ratio(RATED_DEGC)
    outside_mm = insulated_diameter_mm(conductor_area_mm2(14), THIN_WALL)
    alone_a = free_air_current_a(warm, outside_mm, RATED_DEGC - AROUND_DEGC)
    assert 0.6 * ALONE_A < alone_a < ALONE_A


def test_bundle_of_one_is_a_wire_in_still_air() -> None:
    """With the surface of the wire itself the bundle warms as `free_air_current_a` says."""
    warm = most_mohm_per_m(20) * temperature_ratio(90.0)
    current_a = free_air_current_a(warm, 1.7, 40.0)
    heat = heat_w_per_m(np.array([current_a]), np.array([most_mohm_per_m(20)]), 1.0)
    found = conductor_degc(heat, np.array([(1.7 / TIED) ** 2]), 50.0)
    assert found.tolist() == pytest.approx([90.0])
