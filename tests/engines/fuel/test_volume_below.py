from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fuel.level import up_direction
from hardstand.engines.fuel.solids import box, cylinder
from hardstand.engines.fuel.volume_below import volume_below_ml
from hardstand.engines.fuel.volume_integrals import integrals_below


@given(st.floats(-90.0, 90.0), st.floats(-60.0, 60.0), st.booleans())
def test_the_volume_alone_is_that_of_the_whole_integration(
    pitch_deg: float, roll_deg: float, round_tank: bool
) -> None:
    """Two ways through the same body, in any attitude, from under it to over it, agree."""
    solid = cylinder(80.0, 120.0, sides=12) if round_tank else box([120.0, 80.0, 60.0])
    solid = solid.moved([1310.0, -78.0, 25.0])
    up = up_direction(pitch_deg, roll_deg)
    height = solid.triangles_mm.reshape(-1, 3) @ up
    levels = np.linspace(height.min() - 1.0, height.max() + 1.0, 17)
    whole = integrals_below(solid, up, levels).volume_ml
    assert volume_below_ml(solid, up, levels) == pytest.approx(whole, abs=1e-8)
