"""Where the fuel is, by the nodes, against what can be worked out by hand."""

from __future__ import annotations

import numpy as np
import pytest

from hardstand.assessment import assess
from hardstand.engines.fuel.model import Burn, FuelStates
from hardstand.engines.fuel.stage import STAGE
from tests.aeroplanes import SMALL, as_built, swapped, without_rows


def levels(text: str = SMALL) -> FuelStates:
    """The fuel of an aeroplane in its states."""
    found: FuelStates = assess(as_built(text), (STAGE,)).results["fuel.levels"]
    return found


def test_a_level_box_tank_is_where_its_filling_puts_it() -> None:
    """Mass by density, height of the middle by base area, inertia of a solid box of fuel."""
    found = levels()
    assert found.state_ids == ("empty", "full", "low")
    np.testing.assert_allclose(found.mass_g[:, 0], [0.0, 1200.0, 240.0])
    np.testing.assert_allclose(
        found.centroid_mm[1:, 0], [[960.0, 0.0, 20.0], [960.0, 0.0, -4.0]], atol=1e-9
    )
    length, width, height = 0.250, 0.100, 0.060
    ixx = 1.2 * (width**2 + height**2) / 12.0
    iyy = 1.2 * (length**2 + height**2) / 12.0
    np.testing.assert_allclose(found.inertia_kgm2[1, 0].diagonal()[:2], [ixx, iyy])


def test_nose_up_moves_the_fuel_aft_in_part_filled_tanks_only() -> None:
    """A full tank does not care about the attitude; a part-filled one does."""
    text = SMALL.replace('gear = "up"\n', 'gear = "up"\npitch_deg = 6\n')
    level, raised = levels().centroid_mm[:, 0, 0], levels(text).centroid_mm[:, 0, 0]
    assert raised[1] == pytest.approx(level[1], abs=1e-6)
    assert raised[2] > level[2] + 20.0


def test_an_aeroplane_without_tanks_has_no_fuel_and_no_burn() -> None:
    """Arrays without columns, and no run."""
    results = assess(as_built(without_rows(SMALL, "tank")), (STAGE,)).results
    assert results["fuel.levels"].mass_g.shape == (3, 0)
    assert results["fuel.burn"] is None


def test_a_burn_runs_from_full_to_the_reserve_and_on() -> None:
    """Gear up is flown here and gear down is not; the reserve is the file's."""
    text = swapped(SMALL, "density_kg_m3 = 800", "density_kg_m3 = 800\nreserve_pct = 10")
    burn: Burn = assess(as_built(text), (STAGE,)).results["fuel.burn"]
    (run,) = burn.runs
    mass = run.fuel.mass_g[:, 0]
    assert (run.base.id, run.base.gear) == ("full", "up")
    assert mass[0] == pytest.approx(1200.0)
    assert mass[run.flown - 1] == pytest.approx(120.0)
    assert mass[-1] == 0.0
    assert np.all(np.diff(mass) <= 0.0)


def test_the_stage_itself_assesses_nothing_yet() -> None:
    """Fuel lines have no table, and the stage says so rather than passing."""
    found = assess(as_built(), (STAGE,))
    state = next(one for one in found.stages if one.name == "fuel")
    assert state.standing == "not assessed"
