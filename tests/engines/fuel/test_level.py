from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fuel.level import liquid_in, up_direction
from hardstand.engines.fuel.solids import box, cylinder
from hardstand.engines.fuel.volume_integrals import integrals_below


@given(
    st.floats(-30.0, 30.0),
    st.floats(-60.0, 60.0),
    st.lists(st.floats(0.0, 1.0), min_size=1, max_size=6),
    st.sampled_from([0, 1, 2]),
)
def test_the_volume_below_the_level_found_is_the_volume_asked_for(
    pitch_deg: float, roll_deg: float, fractions: list[float], axis: int
) -> None:
    """In any attitude, at any fill, the level found encloses the stated volume."""
    solid = cylinder(90.0, 200.0, axis=axis, sides=16).moved([1310.0, -78.0, 25.0])
    up = up_direction(pitch_deg, roll_deg)
    wanted = np.array(fractions) * np.pi * 45.0**2 * 200.0 / 1000.0
    liquid = liquid_in(solid, wanted, up)
    found = integrals_below(solid, up, liquid.level_mm).volume_ml
    assert found == pytest.approx(wanted, abs=1e-6)


def test_a_tilted_wedge_of_fuel_has_the_closed_form() -> None:
    """In a box whose tilted level passes two opposite edges the fuel is a wedge.

    Its centroid is a third of the length and of the height from the deep corner.
    """
    length, height = 300.0, 60.0
    pitch_deg = float(np.degrees(np.arctan2(height, length)))
    volume = 0.5 * length * height * 80.0 / 1000.0
    liquid = liquid_in(box([length, 80.0, height]), [volume], up_direction(pitch_deg))
    # Nose up: the fuel lies aft (x positive) and at the bottom.
    assert liquid.centroid_mm[0] == pytest.approx([length / 6.0, 0.0, -height / 6.0], abs=1e-6)
    assert liquid.level_mm[0] == pytest.approx(0.0, abs=1e-9)
    # Right triangle about its centroid: length squared over 18, product minus-signed over 36.
    spread = liquid.spread_mm_mm[0]
    assert spread[0, 0] == pytest.approx(length**2 / 18.0, rel=1e-9)
    assert spread[2, 2] == pytest.approx(height**2 / 18.0, rel=1e-9)
    assert spread[0, 2] == pytest.approx(length * height / 36.0, rel=1e-9)


def test_up_turns_the_way_the_docstring_says() -> None:
    """Nose up leans the level's normal forward, starboard down to port, a take-off run forward."""
    assert up_direction(0.0, 0.0) == pytest.approx([0.0, 0.0, 1.0])
    assert up_direction(30.0)[0] == pytest.approx(-0.5)
    assert up_direction(0.0, 30.0)[1] == pytest.approx(-0.5)
    assert up_direction(0.0, forward_g=1.0) == pytest.approx([-np.sqrt(0.5), 0.0, np.sqrt(0.5)])
    with pytest.raises(ValueError, match="no level"):
        up_direction(5.0, load_factor=0.0)


def test_fuel_left_behind_by_acceleration_moves_aft() -> None:
    """In a take-off run the fuel's centroid stands aft of where it stands at rest."""
    tank = box([330.0, 80.0, 62.5])
    still, running = (
        liquid_in(tank, [800.0], up_direction(0.0, forward_g=a)).centroid_mm[0, 0]
        for a in (0.0, 0.3)
    )
    assert running > still + 20.0


def test_inertia_of_a_full_box_is_the_closed_form() -> None:
    """A full tank weighs and turns like a solid box: m (b squared + c squared) / 12."""
    liquid = liquid_in(box([300.0, 80.0, 70.0]), [1680.0], up_direction(3.0, 2.0))
    inertia, mass_kg = liquid.inertia_kgm2(0.8)[0], 1.344
    assert liquid.mass_g(0.8)[0] == pytest.approx(1344.0)
    assert np.diag(inertia) == pytest.approx(
        [
            mass_kg * (0.08**2 + 0.07**2) / 12.0,
            mass_kg * (0.3**2 + 0.07**2) / 12.0,
            mass_kg * (0.3**2 + 0.08**2) / 12.0,
        ]
    )
    assert inertia[0, 2] == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("volume_ml", [-1.0, 1001.0, float("nan")])
def test_volumes_outside_the_tank_are_refused(volume_ml: float) -> None:
    """More than it holds, less than nothing and not-a-number raise, naming the capacity."""
    with pytest.raises(ValueError, match=r"0 to 1000\.0 ml"):
        liquid_in(box([100.0, 100.0, 100.0]), [volume_ml], up_direction(0.0))
