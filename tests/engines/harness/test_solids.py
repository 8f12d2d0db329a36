"""Which runs go through which boxes: by their points, and near ones alone against all."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.harness.fans import Box, Exit, fan, meeting, reach_to
from hardstand.engines.harness.lane_points import Lanes
from hardstand.engines.harness.lane_runs import REACH_MM, LaneRuns
from hardstand.engines.harness.nearby import pairs_within
from hardstand.engines.harness.solids import Floats, crossed


@given(st.tuples(*[st.floats(-20.0, 20.0)] * 6))
def test_a_segment_goes_through_a_box_where_its_points_do(ends: tuple[float, ...]) -> None:
    """A point well inside means crossed; not crossed means that no point lies inside."""
    a, b = np.array([ends[:3]]), np.array([ends[3:]])
    low, high = np.array([[-5.0, -5.0, -5.0]]), np.array([[5.0, 5.0, 5.0]])
    points = a + (b - a) * np.linspace(0.0, 1.0, 201)[:, None]
    deepest = (5.0 - np.abs(points).max(axis=1)).max()
    if deepest > 1e-6:
        assert crossed(a, b, low, high)[0, 0]
    if deepest < -0.2:
        assert not crossed(a, b, low, high)[0, 0]


def lattice(random: np.random.Generator, count: int) -> Floats:
    """Places of which many share a coordinate, so that runs lie along faces and boxes meet in edges."""
    return np.asarray(random.integers(-12, 13, (count, 3)) * 25.0)


@pytest.mark.parametrize("seed", range(20))
def test_pairs_are_those_that_another_library_finds(seed: int) -> None:
    """The same pairs as from scipy's tree, with points just as far apart as the reach among them."""
    tree = pytest.importorskip("scipy.spatial", reason="scipy is not installed").cKDTree
    points = lattice(np.random.default_rng(seed), 150)
    expected = {tuple(sorted(one)) for one in tree(points).query_pairs(REACH_MM)}
    found = pairs_within(points, REACH_MM)
    assert len(found) == len(expected) > 100
    assert {tuple(one) for one in found.tolist()} == expected


@pytest.mark.parametrize("seed", range(20))
def test_runs_near_a_box_are_all_that_go_through_it(seed: int) -> None:
    """Lanes and fans looked at beside a box alone give what all against all give."""
    random = np.random.default_rng(seed)
    lanes = Lanes()
    for x, y, z in lattice(random, 120).tolist():
        lanes.add(x, y, z, "")
    lanes.run([int(one) for one in random.permutation(120)[:40]])  # long ones among them
    runs = LaneRuns(lanes, [])
    corners = lattice(random, 60).reshape(2, 30, 3) + random.integers(0, 2, (2, 30, 3)) * 3.0
    low, high = corners.min(axis=0), corners.max(axis=0)
    every = crossed(runs.points[runs.a], runs.points[runs.b], low, high)
    assert every.any()
    assert not every.all()
    boxes = [Box(f"b{k}", tuple(low[k].tolist()), tuple(high[k].tolist())) for k in range(30)]
    for k, box in enumerate(boxes):
        assert sorted(runs.through(box.low, box.high)) == np.flatnonzero(every[:, k]).tolist()
    for number, at in enumerate(lattice(random, 10).tolist()):
        reach = reach_to(runs, tuple(at), inside=True)
        away = np.linalg.norm(runs.points - at, axis=1)
        order = np.argsort(away, kind="stable")
        wanted = {int(k) for rank, k in enumerate(order) if rank < 8 or away[k] <= REACH_MM}
        assert set(reach.far.tolist()) == wanted
        own = Exit("e", f"b{number}", tuple(at), True)
        near = [boxes[k] for k in meeting([reach], boxes)[0]]
        others = [k for k in range(30) if k != number]
        there = runs.points[reach.far]
        expected = crossed(there, np.full_like(there, at), low[others], high[others]).any(axis=1)
        assert fan(reach, (own,), near).through.tolist() == expected.tolist()
