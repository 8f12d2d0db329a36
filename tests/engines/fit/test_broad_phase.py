from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hardstand.engines.fit.body import Body, aabb
from hardstand.engines.fit.broad_phase import near_pairs
from hardstand.engines.fit.separation import separation
from hardstand.engines.fit.shapes import box, capsule, cylinder, polytope
from hardstand.engines.fit.stack import spans, stack


def _scattered(seed: int, count: int) -> list[Body]:
    rng = np.random.default_rng(seed)
    bodies = []
    for k in range(count):
        place, turn = rng.uniform(-150.0, 150.0, 3), float(rng.uniform(0.0, 360.0))
        if k % 2:
            bodies.append(box(place, rng.uniform(5.0, 80.0, 3), turn, (20.0, 0.0)))
        else:
            bodies.append(cylinder(place, float(rng.uniform(3.0, 40.0)), 50.0, turn, (0.0, 30.0)))
    return bodies


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(0, 14), st.floats(0.0, 60.0))
def test_no_near_pair_is_missed(seed: int, count: int, reach: float) -> None:
    """Every pair nearer than the reach is among the answer, each once, in order."""
    bodies = _scattered(seed, count)
    first, second = near_pairs(bodies, reach)
    found = list(zip(first.tolist(), second.tolist(), strict=True))
    everyone = list(combinations(range(count), 2))
    apart = separation([bodies[i] for i, _ in everyone], [bodies[j] for _, j in everyone])
    near = {p for p, d in zip(everyone, apart.distance_mm, strict=True) if d < reach}
    assert near <= set(found) <= set(everyone)
    assert found == sorted(set(found))


def test_far_pairs_are_left_out() -> None:
    """In a loose row only neighbours are reported, and diagonal distance counts."""
    row = [box((40.0 * k, 0.0, 0.0), (10.0, 10.0, 10.0)) for k in range(100)]
    first, second = near_pairs(row, 30.0)
    assert (second - first).tolist() == [1] * 99
    corner = [row[0], box((20.0, 20.0, 0.0), (10.0, 10.0, 10.0))]
    assert len(near_pairs(corner, 14.1)[0]) == 0
    assert len(near_pairs(corner, 14.2)[0]) == 1


@pytest.mark.parametrize("reach", [-1.0, float("nan")])
def test_impossible_reach_is_refused(reach: float) -> None:
    """A negative reach, or none at all, raises ValueError."""
    with pytest.raises(ValueError, match="reach"):
        near_pairs([], reach)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(0, 8), st.floats(0.0, 9.0))
def test_spans_of_a_stack_are_those_of_its_bodies(seed: int, count: int, margin: float) -> None:
    """Boxes, cylinders and corner sets together, turned, tilted, with margins: as each body alone."""
    rng = np.random.default_rng(seed)
    corners = rng.uniform(-150.0, 150.0, (count + 3, 3))
    bodies = [*_scattered(seed, count), polytope(corners, margin), capsule(corners[0], corners[1], margin)]
    low, high = spans(stack(bodies))
    for k, body in enumerate(bodies):
        assert np.allclose((low[k], high[k]), aabb(body), rtol=0.0, atol=1e-9)
