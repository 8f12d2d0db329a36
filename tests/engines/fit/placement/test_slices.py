from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fit.body import Body
from hardstand.engines.fit.layout.problem import Rectangle
from hardstand.engines.fit.placement.slices import outside, rectangles, shadow
from hardstand.engines.fit.shapes import box, cylinder, polytope

WINDOW = Rectangle(-80, 80, -80, 80)
BODIES = (
    box((3.0, -2.0, 5.0), (40.0, 24.0, 10.0), 30.0),
    cylinder((0.0, 4.0, 0.0), 12.0, 60.0, tilt_deg=(0.0, 90.0)),
    polytope([(-30, -10, 4), (-30, 10, 4), (40, -10, 16), (40, 10, 16), (-30, -10, 50),
              (-30, 10, 50), (40, -10, 50), (40, 10, 50)]),
)  # fmt: skip


def inside(body: Body, points: np.ndarray) -> np.ndarray:
    """Whether points (N, 3) lie in the core of a body, by its own axes."""
    own = (points - body.centre_mm) @ body.rotation
    if body.kind == "box":
        return np.asarray((np.abs(own) <= body.half_mm).all(axis=1))
    if body.kind == "cylinder":
        across = np.hypot(own[:, 0], own[:, 1])
        return np.asarray((across <= body.half_mm[0]) & (np.abs(own[:, 2]) <= body.half_mm[2]))
    x, y, z = points.T
    floor = 4.0 + (x + 30.0) * 12.0 / 70.0
    return np.asarray((np.abs(x - 5.0) <= 35.0) & (np.abs(y) <= 10.0) & (z >= floor) & (z <= 50.0))


@given(st.sampled_from(BODIES), st.floats(-20, 20), st.floats(1, 20), st.integers(0, 2**32 - 1))
def test_the_rectangles_hold_all_of_a_solid_between_two_heights(
    body: Body, low: float, height: float, seed: int
) -> None:
    """Any point of the solid at such a height lies in one of the rectangles of its shadow."""
    points = np.random.default_rng(seed).uniform(-60.0, 60.0, (4000, 3))
    points[:, 2] = low + (points[:, 2] + 60.0) / 120.0 * height
    taken = points[inside(body, points)]
    area = shadow(body, low, low + height, 0.0)
    rooms = rectangles(area, WINDOW) if area is not None else []
    for x, y, _ in taken + np.array([0.5, 0.5, 0.0]):
        assert any(r.x0_mm <= x <= r.x1_mm and r.y0_mm <= y <= r.y1_mm for r in rooms)


def test_what_is_outside_an_opening_is_all_but_the_opening() -> None:
    """Inside an L-shaped opening no cell is barred that lies wholly in it, and all others are."""
    from shapely import Polygon

    ell = Polygon([(-10, -10), (10, -10), (10, 0), (0, 0), (0, 10), (-10, 10)])
    rooms = outside(ell, Rectangle(-20, 20, -20, 20))
    free = 40 * 40 - sum((r.x1_mm - r.x0_mm) * (r.y1_mm - r.y0_mm) for r in rooms)
    # 300 mm² in plan; the grid is shifted by half a millimetre, so its rim of cells is lost.
    assert free == 19 * 9 + 9 * 10
