from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.fuel.solids import box, cylinder, prism
from hardstand.engines.fuel.volume_integrals import integrals


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_cylinder_volume_is_exact_along_every_axis(axis: int) -> None:
    """The many-sided prism that stands for a cylinder holds exactly pi r squared times length."""
    whole = integrals(cylinder(60.0, 170.0, axis=axis))
    assert whole.volume_ml[0] == pytest.approx(np.pi * 30.0**2 * 170.0 / 1000.0, rel=1e-12)
    assert whole.spread_mm_mm[0, axis, axis] == pytest.approx(170.0**2 / 12.0, rel=1e-12)


@pytest.mark.parametrize("axis", [0, 1, 2])
@pytest.mark.parametrize("turn", [1, -1])
def test_prism_faces_outward_whichever_way_its_outline_runs(axis: int, turn: int) -> None:
    """A triangle's prism has the positive volume and the centroid of its outline, either sense."""
    outline = np.array([[0.0, 0.0], [40.0, 0.0], [0.0, 30.0]])[::turn]
    whole = integrals(prism(outline, 10.0, axis=axis))
    centroid = np.roll([40.0 / 3.0, 10.0, 0.0], axis + 1)
    assert whole.volume_ml[0] == pytest.approx(6.0, rel=1e-12)
    assert whole.centroid_mm[0] == pytest.approx(centroid, abs=1e-9)


def test_shapes_that_enclose_nothing_are_refused() -> None:
    """Sizes of zero, a dented outline and too few corners each raise with their own sentence."""
    with pytest.raises(ValueError, match="three sizes above 0 mm"):
        box([10.0, 0.0, 10.0])
    with pytest.raises(ValueError, match="must be convex"):
        prism([[0, 0], [10, 0], [1, 1], [0, 10]], 5.0)
    with pytest.raises(ValueError, match="must be convex and enclose an area"):
        prism([[0, 0], [10, 0], [20, 0]], 5.0)
    with pytest.raises(ValueError, match="at least three corners"):
        prism([[0, 0], [10, 0]], 5.0)
    with pytest.raises(ValueError, match="length must be above 0"):
        cylinder(10.0, -1.0)
    with pytest.raises(ValueError, match="diameter above 0"):
        cylinder(0.0, 10.0)
