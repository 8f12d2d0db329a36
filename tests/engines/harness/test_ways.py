"""Ways against another library's shortest paths, by hand, and kept from one graph to the next."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.harness.lane_graph import LaneGraph
from hardstand.engines.harness.links import Links, by_point, cost
from hardstand.engines.harness.ways import Ways


def graph_of(weights: Mapping[tuple[int, int], float]) -> LaneGraph:
    """A graph with these costs, all of whose points are at one place."""
    a, b = (np.array(side, dtype=np.intp) for side in zip(*weights, strict=True))
    count = 1 + int(max(a.max(), b.max()))
    costs = np.array(list(weights.values()))
    links = Links(a, b, costs, np.zeros(len(a), dtype=bool), *by_point(a, b, count))
    return LaneGraph([(0.0, 0.0, 0.0)] * count, (links,))


@given(st.dictionaries(st.tuples(st.integers(0, 8), st.integers(9, 17)), st.floats(1.0, 500.0),
                       min_size=9, max_size=60))  # fmt: skip
def test_ways_cost_what_another_library_finds(weights: dict[tuple[int, int], float]) -> None:
    """Least costs from a point agree with networkx, and each way adds up to its cost."""
    networkx = pytest.importorskip("networkx", reason="networkx is not installed")
    other = networkx.Graph()
    other.add_weighted_edges_from((*pair, cost) for pair, cost in weights.items())
    start = next(iter(weights))[0]
    graph = graph_of(weights)
    ways = Ways(graph)
    expected = networkx.single_source_dijkstra_path_length(other, start)
    for goal in range(len(graph.places)):
        way = ways.between(start, goal)
        if goal not in expected:
            assert way is None
            continue
        assert way is not None
        assert way.cost == pytest.approx(expected[goal], abs=1e-9)
        steps = zip(way.points, way.points[1:], strict=False)
        assert sum(weights[min(one), max(one)] for one in steps) == pytest.approx(way.cost, abs=1e-9)


def test_an_opening_is_gone_through_from_the_cheaper_side() -> None:
    """By hand: 0 to 3 through the opening 1, 2 costs 1 and 1; from its other side 9 and 9."""
    graph = graph_of({(0, 1): 1.0, (2, 3): 1.0, (0, 2): 9.0, (1, 3): 9.0, (0, 3): 0.5})
    way = Ways(graph).by(0, 3, [(1, 2)])
    assert way is not None
    assert (way.points, way.cost) == ((0, 1, 2, 3), 2.0)


def test_of_two_ways_alike_the_choice_does_not_rest_on_the_order_of_runs() -> None:
    """By hand: a square has two ways round of the same cost; the one by the higher number is taken."""
    runs = {(0, 1): 1.0, (0, 2): 1.0, (1, 3): 1.0, (2, 3): 1.0}
    for order in (runs, dict(reversed(runs.items()))):
        way = Ways(graph_of(order)).between(0, 3)
        assert way is not None
        assert way.points == (0, 2, 3)


def placed(random: np.random.Generator) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Points on a coarse lattice, so that many ways cost the same, and runs between near ones."""
    points = random.integers(0, 4, (24, 3)) * 20.0 + random.integers(0, 2, (24, 3)) * 1e-3
    a, b = np.triu_indices(len(points), 1)
    near = np.linalg.norm(points[a] - points[b], axis=1) < 45.0
    return points, a[near], b[near]


@pytest.mark.parametrize("seed", range(8))
def test_ways_kept_are_those_of_a_fresh_search(seed: int) -> None:
    """Over chains of runs blocked and cleared: the same points and the same cost, to the bit.

    Costs agree with scipy's.
    """
    dijkstra = pytest.importorskip("scipy.sparse.csgraph", reason="scipy is not installed").dijkstra
    random = np.random.default_rng(seed)
    points, a, b = placed(random)
    length = np.linalg.norm(points[a] - points[b], axis=1)
    places = [tuple(one) for one in points.tolist()]
    through = random.random(len(a)) < 0.3
    kept: Ways | None = None
    searched = 0
    for _ in range(12):
        through = through ^ (random.random(len(a)) < 0.01)
        costs = cost(length, 1.25, through)
        graph = LaneGraph(places, (Links(a, b, costs, through, *by_point(a, b, len(points))),))
        fresh = Ways(graph)
        kept = kept or Ways(graph)
        before = kept._found
        kept.renew(graph)
        searched += len(kept._found) < len(before)
        matrix = np.zeros((len(points), len(points)))
        matrix[a, b] = costs
        least = dijkstra(matrix, directed=False)
        for one in range(6):
            for goal in range(18, 24):
                way = kept.between(one, goal)
                assert way == fresh.between(one, goal)
                assert (np.inf if way is None else way.cost) == pytest.approx(least[one, goal], abs=1e-6)
    assert searched  # some were found again, or the test would say nothing
