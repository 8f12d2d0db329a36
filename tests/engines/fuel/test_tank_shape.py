from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from hardstand.engines.fuel.tank_shape import gauges, tank_inside
from hardstand.engines.fuel.volume_integrals import integrals
from tests.aeroplanes import as_built

TANK = as_built().tanks[0]


@pytest.mark.parametrize("cylinder", [False, True])
@pytest.mark.parametrize("turn_deg", [0.0, 90.0, 180.0])
@pytest.mark.parametrize("capacity_ml", [1e-6, 400.0, 1500.0])
def test_full_is_the_stated_capacity(cylinder: bool, turn_deg: float, capacity_ml: float) -> None:
    """Whatever the shape, it holds what the builder filled in, in the proportions stated."""
    capacity = replace(TANK.capacity, value=capacity_ml)
    tank = replace(TANK, cylinder=cylinder, turn_deg=turn_deg, capacity=capacity)
    solid = tank_inside(tank)
    assert integrals(solid).volume_ml[0] == pytest.approx(capacity_ml, rel=1e-9)
    size = np.ptp(solid.triangles_mm.reshape(-1, 3), axis=0)
    along, across = (1, 0) if turn_deg == 90.0 else (0, 1)
    assert size[along] / size[across] == pytest.approx(2.5, rel=2e-3)


def test_tanks_of_one_shape_share_their_dipsticks() -> None:
    """Left and right tank are engraved once, one of another capacity by itself."""
    other = replace(TANK, capacity=replace(TANK.capacity, value=700.0))
    found = gauges([TANK, replace(TANK, id="right"), other], [0.0, 4.0, 0.0])
    assert found[0] is found[1]
    assert found[0] is not found[2]
    assert sorted(found[0]) == [0.0, 4.0]
