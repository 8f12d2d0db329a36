"""Signed distances against closed forms and against a general-purpose collision library.

The cases and their sources stand in `data/clearance_geometry.toml` (all: closed form, value from
memory, reproduced there by a library). The library here is PyPI coal, by its documented calls for
convex shapes. The random pairs are laid out so that the distance of those apart is known beforehand
without either program: each body shows the other a point of its surface and a normal there, and the
two normals are set against one another.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from hardstand.engines.fit.body import Body, Floats
from hardstand.engines.fit.separation import Separations, separation
from hardstand.engines.fit.shapes import box, capsule, cylinder, polytope

DATA = Path(__file__).parent / "data" / "clearance_geometry.toml"
PAIRS = 10_000
# The most pairs on which the library may be the one that is wrong.
FAULTS_OF_LIBRARY = 5


def _case(wanted: str) -> Any:
    cases = tomllib.loads(DATA.read_text(encoding="utf-8"))["case"]
    return next(case for case in cases if case["id"] == wanted)


def _rods(inputs: Any, radius_1: float, radius_2: float) -> Separations:
    (start_1, end_1), (start_2, end_2) = inputs["segment_1"], inputs["segment_2"]
    first, second = capsule(start_1, end_1, radius_1), capsule(start_2, end_2, radius_2)
    return separation([first], [second])


@pytest.mark.parametrize("wanted", ["cl-01", "cl-02", "cl-03"])
def test_rods(wanted: str) -> None:
    """Grade memory, cl-01 to cl-03, closed form: crossing, parallel and interfering rods."""
    case = _case(wanted)
    inputs, tolerance = case["inputs"], case["tolerance"]["abs"]
    found = _rods(inputs, inputs["radius_1"], inputs["radius_2"])
    expected = case["expected"]["capsule_clearance"]
    assert found.distance_mm[0] == pytest.approx(expected, abs=tolerance)
    if "segment_distance" in case["expected"]:
        thin = _rods(inputs, 0.0, 0.0)
        expected = case["expected"]["segment_distance"]
        assert thin.distance_mm[0] == pytest.approx(expected, abs=tolerance)


def test_where_crossing_rods_are_nearest() -> None:
    """Grade memory, cl-01, closed form: the nearest points lie at the stated shares of the rods."""
    case = _case("cl-01")
    found = _rods(case["inputs"], 0.0, 0.0)
    for key, name, point in (
        ("segment_1", "parameter_on_1", found.point_a[0]),
        ("segment_2", "parameter_on_2", found.point_b[0]),
    ):
        start, end = np.array(case["inputs"][key])
        share = case["expected"][name]
        assert point == pytest.approx(start + share * (end - start), abs=1e-6)


def test_boxes_apart_in_all_directions() -> None:
    """Grade memory, cl-04, closed form: corner to corner."""
    case = _case("cl-04")
    inputs = case["inputs"]
    first = box(inputs["centre_1"], inputs["size_1"])
    found = separation([first], [box(inputs["centre_2"], inputs["size_2"])])
    gaps = [case["expected"][f"gap_{axis}"] for axis in "xyz"]
    assert found.point_b[0] - found.point_a[0] == pytest.approx(gaps, abs=1e-5)
    assert found.distance_mm[0] == pytest.approx(case["expected"]["distance"], abs=1e-5)


def test_turned_box_edge_to_face() -> None:
    """Grade memory, cl-05, closed form: the pair on which one common library errs by 7.8 mm."""
    case = _case("cl-05")
    inputs = case["inputs"]
    turned = box(inputs["centre_2"], inputs["size_2"], inputs["turn_2_about_z_deg"])
    found = separation([box(inputs["centre_1"], inputs["size_1"])], [turned])
    assert found.distance_mm[0] == pytest.approx(case["expected"]["distance"], abs=1e-5)


def test_point_to_segment() -> None:
    """Grade memory, cl-09, closed form: a 5-12-13 slope."""
    case = _case("cl-09")
    start, end = (np.array([*point, 0.0]) for point in case["inputs"]["segment"])
    point = polytope([(*case["inputs"]["point"], 0.0)])
    found = separation([point], [capsule(start, end, 0.0)])
    foot = start + case["expected"]["foot_parameter"] * (end - start)
    assert found.distance_mm[0] == pytest.approx(case["expected"]["distance"], abs=1e-5)
    assert found.point_b[0] == pytest.approx(foot, abs=1e-4)


def _shown_normal(rng: np.random.Generator, body: Body) -> tuple[Floats, Floats]:
    """A point (3,) of the surface and an outward unit normal (3,) there, in the body's own axes.

    Faces, edges and corners alike: shares of the normal set to nought leave a face or an edge.
    """
    normal = rng.normal(size=3)
    if body.kind == "cylinder":
        which = rng.integers(3)
        if which == 0:
            normal[2] = 0.0
        elif which == 1:
            normal[:2] = 0.0
        normal /= np.linalg.norm(normal)
        across = float(np.hypot(normal[0], normal[1]))
        on_rim = normal[:2] / across if across else _in_disc(rng)
        height = np.sign(normal[2]) if normal[2] else rng.uniform(-1.0, 1.0)
        return body.half_mm * [*on_rim, height], normal
    normal[rng.permutation(3)[: rng.integers(3)]] = 0.0
    normal /= np.linalg.norm(normal)
    free = rng.uniform(-1.0, 1.0, 3)
    return body.half_mm * np.where(normal == 0.0, free, np.sign(normal)), normal


def _in_disc(rng: np.random.Generator) -> Floats:
    angle, radius = rng.uniform(0.0, 2.0 * np.pi), np.sqrt(rng.uniform())
    return np.array([radius * np.cos(angle), radius * np.sin(angle)])


def _rotation_between(rng: np.random.Generator, start: Floats, end: Floats) -> Floats:
    """A random rotation (3, 3) that carries unit vector `start` to `end`."""
    frames = []
    for axis in (start, end):
        side = np.cross(axis, rng.normal(size=3))
        side /= np.linalg.norm(side)
        frames.append(np.column_stack([side, np.cross(axis, side), axis]))
    return np.asarray(frames[1] @ frames[0].T)


def _random_body(rng: np.random.Generator) -> Body:
    sizes = np.exp(rng.uniform(np.log(5.0), np.log(400.0), 3))
    turn, tilt = rng.uniform(0.0, 360.0), (rng.uniform(0.0, 360.0), rng.uniform(0.0, 360.0))
    if rng.uniform() < 0.5:
        return box((0.0, 0.0, 0.0), sizes, turn, tilt)
    return cylinder((0.0, 0.0, 0.0), sizes[0] / 2.0, sizes[1], turn, tilt)


def _random_pair(rng: np.random.Generator, room_mm: float, share: float) -> tuple[Body, Body]:
    """Two bodies that show each other opposite normals, `room_mm` apart along them.

    With a `share` above nought the second is pushed in by that share of the first's least size
    instead, so that the point it shows lies inside the first.
    """
    first, second = _random_body(rng), _random_body(rng)
    point_1, normal_1 = _shown_normal(rng, first)
    point_2, normal_2 = _shown_normal(rng, second)
    normal = first.rotation @ normal_1
    turn = _rotation_between(rng, second.rotation @ normal_2, -normal)
    second = second.moved((0.0, 0.0, 0.0), turn)
    push_mm = share * 2.0 * float(first.half_mm.min())
    meeting = first.rotation @ point_1 + (room_mm - push_mm) * normal
    return first, second.moved(meeting - second.rotation @ point_2)


@pytest.fixture(scope="module")
def bodies() -> tuple[list[Body], list[Body], Floats]:
    """Pairs of turned boxes and cylinders, and the room between them along the facing normals.

    The room is not a number where the two overlap.
    """
    rng = np.random.default_rng(20_240_611)
    near, over, far = int(0.3 * PAIRS), int(0.2 * PAIRS), int(0.5 * PAIRS)
    room_mm = np.concatenate(
        [
            rng.uniform(0.0, 5.0, near // 2),
            np.exp(rng.uniform(np.log(1e-6), np.log(5.0), near - near // 2)),
            np.zeros(over),
            rng.uniform(5.0, 400.0, far),
        ]
    )
    share = np.zeros(PAIRS)
    # Half of them barely, half deeply overlapping.
    share[near : near + over // 2] = np.exp(rng.uniform(np.log(1e-5), np.log(0.95), over // 2))
    share[near + over // 2 : near + over] = rng.uniform(0.05, 0.95, over - over // 2)
    both = [_random_pair(rng, float(r), float(s)) for r, s in zip(room_mm, share, strict=True)]
    return [a for a, _ in both], [b for _, b in both], np.where(share > 0.0, np.nan, room_mm)


@pytest.fixture(scope="module")
def found(bodies: tuple[list[Body], list[Body], Floats]) -> Separations:
    """Our answer for all pairs in one call."""
    return separation(bodies[0], bodies[1])


def test_random_pairs_against_their_making(
    bodies: tuple[list[Body], list[Body], Floats], found: Separations
) -> None:
    """Closed form by construction: apart, the distance is the room laid out between the two."""
    first, second, room_mm = bodies
    apart = ~np.isnan(room_mm)
    assert found.converged.all()
    assert found.distance_mm[apart] == pytest.approx(room_mm[apart], abs=1e-4)
    assert (found.distance_mm[~apart] < 0.0).all()
    within = float(np.mean((found.distance_mm >= 0.0) & (found.distance_mm < 5.0)))
    over = float(np.mean(found.distance_mm < 0.0))
    assert (within, over) == pytest.approx((0.3, 0.2), abs=0.001)
    kinds = [f"{a.kind}-{b.kind}" for a, b in zip(first, second, strict=True)]
    assert min(kinds.count(kind) for kind in set(kinds)) > 0.2 * PAIRS


def _by_library(coal: Any, first: list[Body], second: list[Body]) -> Floats:
    request = coal.DistanceRequest()
    request.enable_signed_distance = True
    request.gjk_tolerance = request.epa_tolerance = 1e-7
    request.gjk_max_iterations = request.epa_max_iterations = 1000

    def placed(body: Body) -> tuple[Any, Any]:
        if body.kind == "box":
            shape = coal.Box(*(2.0 * body.half_mm))
        else:
            shape = coal.Cylinder(body.half_mm[0], 2.0 * body.half_mm[2])
        return shape, coal.Transform3s(body.rotation, body.centre_mm)

    answers = [
        coal.distance(*placed(a), *placed(b), request, coal.DistanceResult())
        for a, b in zip(first, second, strict=True)
    ]
    return np.array(answers, dtype=float)


def _reach(body: Body, direction: Floats) -> float:
    """How far a box or cylinder reaches along a direction, from its definition alone."""
    own = body.rotation.T @ direction
    if body.kind == "cylinder":
        core = float(body.half_mm[0] * np.hypot(own[0], own[1]) + body.half_mm[2] * abs(own[2]))
    else:
        core = float(body.half_mm @ np.abs(own))
    return core + float(body.centre_mm @ direction)


def _outside_by(body: Body, point: Floats) -> float:
    """How far a point lies outside a box or cylinder; nought inside."""
    own = body.rotation.T @ (point - body.centre_mm)
    if body.kind == "cylinder":
        beyond = [np.hypot(own[0], own[1]) - body.half_mm[0], abs(own[2]) - body.half_mm[2]]
    else:
        beyond = list(np.abs(own) - body.half_mm)
    return float(np.linalg.norm(np.maximum(beyond, 0.0)))


def _library_is_wrong(a: Body, b: Body, found: Separations, k: int, answer: float) -> bool:
    """True if the library's answer is impossible, shown by a plane or by points of the bodies.

    A plane with room to both sides bounds the signed distance from below; two points, one of each
    body, bound the distance from above. Neither uses how our answer was found.
    """
    normal = found.normal[k]
    room = -_reach(a, normal) - _reach(b, -normal)
    if answer < room - 0.005:
        return True
    if found.distance_mm[k] < 0.0:
        return False
    point_a, point_b = found.point_a[k], found.point_b[k]
    above = np.linalg.norm(point_b - point_a) + _outside_by(a, point_a) + _outside_by(b, point_b)
    return bool(answer > above + 0.005)


def test_proof_against_a_library_convicts_only_the_wrong_answer() -> None:
    """Grade memory, cl-05: 29.522413 mm, another library's answer, is shown to be impossible."""
    case = _case("cl-05")
    inputs = case["inputs"]
    first = box(inputs["centre_1"], inputs["size_1"])
    second = box(inputs["centre_2"], inputs["size_2"], inputs["turn_2_about_z_deg"])
    ours = separation([first], [second])
    assert _library_is_wrong(first, second, ours, 0, 29.522413)
    assert _library_is_wrong(first, second, ours, 0, 20.0)
    assert not _library_is_wrong(first, second, ours, 0, case["expected"]["distance"])


def test_random_pairs_against_library(
    bodies: tuple[list[Body], list[Body], Floats], found: Separations
) -> None:
    """PyPI coal: within 0.01 mm apart, 0.05 mm in depth, no sign differs beyond 0.01 mm.

    Where they differ by more, a proof that does not rest on our search must show the library to be
    wrong; such pairs are counted and must be few.
    """
    coal = pytest.importorskip("coal", reason="the collision library coal has no build here")
    first, second, _ = bodies
    answers = _by_library(coal, first, second)
    ours = found.distance_mm
    allowed = np.where(np.maximum(ours, answers) < 0.0, 0.05, 0.01)
    differ = np.flatnonzero(~(np.abs(answers - ours) <= allowed))
    faults = [
        k
        for k in differ.tolist()
        if _library_is_wrong(first[k], second[k], found, k, float(answers[k]))
    ]
    unexplained = sorted(set(differ.tolist()) - set(faults))
    assert not unexplained, [(k, ours[k], answers[k]) for k in unexplained[:10]]
    assert len(faults) <= FAULTS_OF_LIBRARY, [(k, ours[k], answers[k]) for k in faults[:10]]
