from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fuel.solids import box, cylinder
from hardstand.engines.fuel.volume_integrals import integrals, integrals_below


@given(
    st.floats(-60.0, 60.0),
    st.tuples(st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1)).filter(
        lambda v: sum(x * x for x in v) > 0.01
    ),
)
def test_the_parts_below_and_above_a_plane_make_the_whole(
    level_mm: float, direction: tuple[float, float, float]
) -> None:
    """Volume, first moment and second moment of the two parts add up to those of the solid."""
    solid = cylinder(70.0, 90.0, axis=1, sides=12).moved([20.0, -5.0, 8.0])
    up = np.array(direction) / np.linalg.norm(direction)
    below, above = integrals_below(solid, up, [level_mm]), integrals_below(solid, -up, [-level_mm])
    whole = integrals(solid)
    volume = below.volume_ml + above.volume_ml
    first = np.sum([p.volume_ml[:, None] * p.centroid_mm for p in (below, above)], axis=0)
    assert volume[0] == pytest.approx(whole.volume_ml[0], rel=1e-9)
    assert first[0] == pytest.approx((whole.volume_ml[:, None] * whole.centroid_mm)[0], abs=1e-5)
    offsets = [p.centroid_mm[0] - whole.centroid_mm[0] for p in (below, above)]
    second = sum(
        p.volume_ml[0] * (p.spread_mm_mm[0] + np.outer(d, d))
        for p, d in zip((below, above), offsets, strict=True)
    )
    assert second == pytest.approx(whole.volume_ml[0] * whole.spread_mm_mm[0], rel=1e-7, abs=1e-4)


def test_levels_beyond_the_solid_give_nothing_and_everything() -> None:
    """Below the lowest point there is no volume, at that point; above the highest, all of it."""
    part = integrals_below(box([10.0, 10.0, 10.0]), [0.0, 0.0, 1.0], [-50.0, -5.0, 5.0, 50.0])
    assert part.volume_ml == pytest.approx([0.0, 0.0, 1.0, 1.0], abs=1e-12)
    assert part.centroid_mm[0] == pytest.approx([0.0, 0.0, -5.0])
    assert np.all(part.spread_mm_mm[:2] == 0.0)
    assert part.centroid_mm[3] == pytest.approx([0.0, 0.0, 0.0], abs=1e-9)
