from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.separation import Separations, separation
from hardstand.engines.fit.shapes import box, capsule, cylinder, polytope, rotation_matrix
from hardstand.engines.fit.stack import stack

ORIGIN = (0.0, 0.0, 0.0)
PLACE = st.tuples(*[st.floats(-150.0, 150.0)] * 3)
SIZE = st.floats(1.0, 300.0)
ANGLE = st.one_of(st.sampled_from([0.0, 45.0, 90.0, 180.0]), st.floats(0.0, 360.0))
TILT = st.tuples(ANGLE, ANGLE)
BODY = st.one_of(
    st.builds(box, PLACE, st.tuples(SIZE, SIZE, SIZE), ANGLE, TILT),
    st.builds(cylinder, PLACE, SIZE, SIZE, ANGLE, TILT),
    st.builds(capsule, PLACE, PLACE, st.floats(0.0, 50.0)),
    st.builds(polytope, st.lists(PLACE, min_size=1, max_size=8)),
)
# Twice the certificate: what two honest answers to one question may differ by.
SAME_MM = 2e-4


def _one(a: Body, b: Body) -> Separations:
    found = separation([a], [b])
    assert found.converged.all()
    return found


def _distance(a: Body, b: Body) -> float:
    return float(_one(a, b).distance_mm[0])


def _room_along(a: Body, b: Body, normal: Floats) -> float:
    """Room between two bodies along a direction, from their definitions alone."""
    return -_reach(a, normal) - _reach(b, -normal)


def _reach(body: Body, direction: Floats) -> float:
    own = body.rotation.T @ direction
    if body.kind == "polytope":
        core = float((body.corners_mm @ own).max())
    elif body.kind == "cylinder":
        core = float(body.half_mm[0] * np.hypot(own[0], own[1]) + body.half_mm[2] * abs(own[2]))
    else:
        core = float(body.half_mm @ np.abs(own))
    return core + body.margin_mm + float(body.centre_mm @ direction)


@settings(max_examples=50, deadline=None)
@given(BODY, BODY)
def test_answer_proves_itself(a: Body, b: Body) -> None:
    """The normal is a unit vector that shows the distance, and the points lie in their bodies."""
    found = _one(a, b)
    distance, normal = float(found.distance_mm[0]), found.normal[0]
    assert np.linalg.norm(normal) == pytest.approx(1.0, abs=1e-12)
    assert _room_along(a, b, normal) == pytest.approx(distance, abs=1e-4)
    for body, point in ((a, found.point_a[0]), (b, found.point_b[0])):
        assert _distance(body, capsule(point, point, 0.0)) <= 1e-3
    assert found.point_b[0] - found.point_a[0] == pytest.approx(distance * normal, abs=1e-9)


@settings(max_examples=50, deadline=None)
@given(BODY, BODY)
def test_symmetric(a: Body, b: Body) -> None:
    """Which of the two is named first does not matter."""
    assert _distance(a, b) == pytest.approx(_distance(b, a), abs=SAME_MM)


@settings(max_examples=50, deadline=None)
@given(BODY, BODY, PLACE, ANGLE, TILT)
def test_same_wherever_the_two_stand(
    a: Body, b: Body, by: tuple[float, float, float], turn: float, tilt: tuple[float, float]
) -> None:
    """Moving and turning both together changes nothing but the axes of the answer."""
    rotation = rotation_matrix(turn, tilt)
    moved = _distance(a.moved(by, rotation), b.moved(by, rotation))
    assert moved == pytest.approx(_distance(a, b), abs=SAME_MM)


@settings(max_examples=50, deadline=None)
@given(BODY, BODY)
def test_moving_along_the_normal_brings_contact(a: Body, b: Body) -> None:
    """The second body moved back by the signed distance along the normal just touches."""
    found = _one(a, b)
    touching = b.moved(-found.distance_mm[0] * found.normal[0])
    assert _distance(a, touching) == pytest.approx(0.0, abs=SAME_MM)


@settings(max_examples=50, deadline=None)
@given(BODY, BODY, PLACE)
def test_distance_changes_no_faster_than_the_move(
    a: Body, b: Body, by: tuple[float, float, float]
) -> None:
    """A shift by so many mm changes the signed distance by at most as many."""
    change = abs(_distance(a, b.moved(by)) - _distance(a, b))
    assert change <= np.linalg.norm(by) + SAME_MM


@settings(max_examples=50, deadline=None)
@given(BODY, BODY, st.floats(0.0, 40.0))
def test_margin_takes_its_own_thickness(a: Body, b: Body, margin: float) -> None:
    """Growing a body by a margin lowers the signed distance by just that."""
    grown = Body(a.kind, a.centre_mm, a.rotation, a.half_mm, a.corners_mm, a.margin_mm + margin)
    assert _distance(grown, b) == pytest.approx(_distance(a, b) - margin, abs=SAME_MM)


def _difference_depth(a: Floats, b: Floats) -> float:
    hull = ConvexHull((a[:, None] - b[None]).reshape(-1, 3))
    return float(hull.equations[:, 3].max())


def test_depth_of_corner_sets_against_hull_of_differences() -> None:
    """Depth is the origin's distance to the nearest face of the hull of all differences."""
    rng = np.random.default_rng(11)
    first = rng.normal(size=(150, 7, 3)) * 60.0
    second = rng.normal(size=(150, 5, 3)) * 40.0 + rng.normal(size=(150, 1, 3)) * 25.0
    expected = np.array([_difference_depth(a, b) for a, b in zip(first, second, strict=True)])
    found = separation([polytope(a) for a in first], [polytope(b) for b in second])
    inside = expected < 0.0
    assert inside.sum() > 100
    assert found.converged.all()
    assert found.distance_mm[inside] == pytest.approx(expected[inside], abs=5e-5)
    assert (found.distance_mm[~inside] >= expected[~inside] - 1e-9).all()


def test_box_as_box_and_as_corners() -> None:
    """The exact way for boxes and the search for corner sets agree on the same solids."""
    rng = np.random.default_rng(12)
    signs = np.array(np.meshgrid([-1, 1], [-1, 1], [-1, 1])).reshape(3, -1).T
    boxes = [
        box(rng.uniform(-80, 80, 3), rng.uniform(1, 200, 3), rng.uniform(0, 360), (k, 2.0 * k))
        for k in range(200)
    ]
    corners = [polytope((signs * b.half_mm) @ b.rotation.T + b.centre_mm) for b in boxes]
    exact = separation(boxes[:100], boxes[100:])
    searched = separation(corners[:100], corners[100:])
    assert (exact.distance_mm < 0.0).sum() > 20
    assert searched.distance_mm == pytest.approx(exact.distance_mm, abs=5e-5)


_CASES: dict[str, tuple[Callable[[], Body], Callable[[], Body], float]] = {
    "faces in touch": (
        lambda: box(ORIGIN, (60, 40, 30)),
        lambda: box((50, 3, 2), (40, 40, 30)),
        0.0,
    ),
    "faces 1 µm apart": (
        lambda: box(ORIGIN, (60, 40, 30)),
        lambda: box((50.001, 3, 2), (40, 40, 30)),
        0.001,
    ),
    "one box twice": (lambda: box(ORIGIN, (60, 40, 30)), lambda: box(ORIGIN, (60, 40, 30)), -30.0),
    "box inside box": (
        lambda: box(ORIGIN, (60, 40, 30)),
        lambda: box((5, 0, 0), (10, 4, 2)),
        -16.0,
    ),
    "long and thin, in touch": (
        lambda: box(ORIGIN, (2000, 1, 1)),
        lambda: box((0, 0, 1), (2000, 1, 1), 0.01),
        0.0,
    ),
    "cylinder on box": (
        lambda: cylinder(ORIGIN, 50, 200),
        lambda: box((0, 0, 150), (90, 90, 100)),
        0.0,
    ),
    "cylinder beside box": (
        lambda: cylinder(ORIGIN, 50, 200),
        lambda: box((103, 0, 0), (100, 90, 90)),
        3.0,
    ),
    "one cylinder twice": (
        lambda: cylinder(ORIGIN, 1, 2000),
        lambda: cylinder(ORIGIN, 1, 2000),
        -2.0,
    ),
    "pipe in pipe": (
        lambda: cylinder(ORIGIN, 10, 100),
        lambda: cylinder((0, 0, 20), 8, 500),
        -18.0,
    ),
    "cylinders crossed at the middle": (
        lambda: cylinder(ORIGIN, 100, 2000),
        lambda: cylinder(ORIGIN, 100, 2000, 0, (90, 0)),
        -200.0,
    ),
    "cylinders side by side": (
        lambda: cylinder(ORIGIN, 50, 200),
        lambda: cylinder((100, 0, 40), 50, 200),
        0.0,
    ),
    "rims in touch": (
        lambda: cylinder(ORIGIN, 50, 200),
        lambda: cylinder((100, 0, 200), 50, 200),
        0.0,
    ),
    "rims apart, 3-4-5": (
        lambda: cylinder(ORIGIN, 50, 200),
        lambda: cylinder((103, 0, 204), 50, 200),
        5.0,
    ),
    "ball in ball": (lambda: capsule(ORIGIN, ORIGIN, 5), lambda: capsule(ORIGIN, ORIGIN, 7), -12.0),
    "capsules in line": (
        lambda: capsule(ORIGIN, (10, 0, 0), 5),
        lambda: capsule((5, 0, 0), (20, 0, 0), 5),
        -10.0,
    ),
    "point in touch with point": (
        lambda: polytope([ORIGIN]),
        lambda: polytope([ORIGIN]),
        0.0,
    ),
    "point in cylinder": (
        lambda: cylinder(ORIGIN, 50, 200),
        lambda: polytope([(30, 0, 0)]),
        -20.0,
    ),
    "far from the datum": (
        lambda: box((2500, 0, 0), (60, 40, 30)),
        lambda: cylinder((2600, 0, 0), 12, 40),
        58.0,
    ),
    "1 mm against 2 m": (
        lambda: cylinder(ORIGIN, 0.5, 1),
        lambda: box((0, 0, 1000.7), (2000, 2000, 2000)),
        0.2,
    ),
}


@pytest.mark.parametrize("name", _CASES)
def test_awkward_places(name: str) -> None:
    """Touching, parallel, nested and very unequal bodies have the distance that a ruler gives."""
    a, b, expected = _CASES[name]
    assert _distance(a(), b()) == pytest.approx(expected, abs=2e-5)
    assert _distance(b(), a()) == pytest.approx(expected, abs=2e-5)


def test_normal_is_the_slope_of_the_distance() -> None:
    """Moving the second body changes the distance as its share along the normal, both signs."""
    rng = np.random.default_rng(5)
    first = [
        cylinder(ORIGIN, rng.uniform(20, 90), rng.uniform(20, 90), 0.0, (20.0, 0.0))
        for _ in range(300)
    ]
    second = [
        box(rng.uniform(-120, 120, 3), rng.uniform(20, 160, 3), rng.uniform(0, 360), (k, -k))
        for k in range(300)
    ]
    found, step = separation(first, second), 1e-3
    slope = np.empty((300, 3))
    for axis, unit in enumerate(np.eye(3) * step):
        ahead = separation(first, [body.moved(unit) for body in second]).distance_mm
        behind = separation(first, [body.moved(-unit) for body in second]).distance_mm
        slope[:, axis] = (ahead - behind) / (2.0 * step)
    inside = found.distance_mm < 0.0
    assert 50 < inside.sum() < 250
    error = np.linalg.norm(slope - found.normal, axis=1)
    # Where two ways out are equally short the slope has a corner: a few pairs may straddle one.
    assert np.quantile(error, 0.98) < 2e-3


def test_many_at_once_equal_one_by_one() -> None:
    """A pair's answer does not depend on its neighbours in the batch, nor on the kind beside it."""
    bodies = [
        box(ORIGIN, (60, 40, 30), 20.0),
        cylinder((40, 10, 0), 15, 60, 0.0, (0.0, 90.0)),
        capsule((0, 0, 40), (90, 0, 60), 6.0),
        polytope([(0, 0, 0), (50, 0, 0), (0, 50, 0), (10, 10, 70)], 2.0),
    ]
    first = [a for a in bodies for _ in bodies]
    second = [b.moved((0.0, 70.0, 5.0)) for _ in bodies for b in bodies]
    together = separation(stack(first), stack(second))
    alone = [_distance(a, b) for a, b in zip(first, second, strict=True)]
    assert together.distance_mm == pytest.approx(np.array(alone), abs=1e-9)


def test_no_pairs_and_uneven_lists() -> None:
    """No pairs give empty arrays; lists of different length raise ValueError."""
    assert separation([], []).distance_mm.shape == (0,)
    assert separation([], []).normal.shape == (0, 3)
    with pytest.raises(ValueError, match="as many of each"):
        separation([box(ORIGIN, (1, 1, 1))], [])
