from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.fuel.reshaped import clip, scaled_to_volume
from hardstand.engines.fuel.solids import box, cylinder
from hardstand.engines.fuel.volume_integrals import integrals, integrals_below


@pytest.mark.parametrize("level_mm", [-20.0, 0.0, 13.0, 60.0])
def test_a_clipped_solid_has_the_integrals_of_the_part_below(level_mm: float) -> None:
    """Cutting with a cut face, and integrating below without one, give the same body."""
    solid, up = cylinder(80.0, 120.0, axis=0), np.array([0.48, -0.36, 0.8])
    cut, below = integrals(clip(solid, up, level_mm)), integrals_below(solid, up, [level_mm])
    assert cut.volume_ml == pytest.approx(below.volume_ml, rel=1e-9)
    assert cut.centroid_mm == pytest.approx(below.centroid_mm, abs=1e-8)
    assert cut.spread_mm_mm == pytest.approx(below.spread_mm_mm, abs=1e-6)


def test_clips_follow_one_another() -> None:
    """A cube with two corners cut off along the same edge keeps the volume that geometry gives."""
    cube = box([20.0, 20.0, 20.0])
    for up in ([0.6, 0.0, 0.8], [-0.6, 0.0, 0.8]):
        cube = clip(cube, up, 10.0)
    # Each cut passes x = 10/3 at the top and z = 5 at the side: a triangle of 20/3 by 5.
    assert integrals(cube).volume_ml[0] == pytest.approx((400.0 - 2 * 0.5 * 5 * 20 / 3) * 20 / 1000)


def test_nothing_left_and_no_volume_are_refused() -> None:
    """A plane under the solid and a tank that holds nothing raise."""
    with pytest.raises(ValueError, match="leaves nothing"):
        clip(box([10.0, 10.0, 10.0]), [0.0, 0.0, 1.0], -5.0)
    with pytest.raises(ValueError, match="above 0 ml"):
        scaled_to_volume(box([10.0, 10.0, 10.0]), 0.0)


def test_scaling_keeps_the_centroid() -> None:
    """A scaled tank holds the stated volume about the same middle."""
    whole = integrals(scaled_to_volume(box([330.0, 80.0, 70.0]).moved([1310, -78, 25]), 1650.0))
    assert whole.volume_ml[0] == pytest.approx(1650.0, rel=1e-12)
    assert whole.centroid_mm[0] == pytest.approx([1310.0, -78.0, 25.0], abs=1e-9)
