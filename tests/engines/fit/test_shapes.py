from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fit.body import aabb
from hardstand.engines.fit.shapes import box, capsule, cylinder, polytope, rotation_matrix

ANGLE = st.floats(-360.0, 360.0)


@given(ANGLE, ANGLE, ANGLE)
def test_rotation_is_proper(turn: float, roll: float, pitch: float) -> None:
    """A rotation keeps lengths, angles and handedness."""
    matrix = rotation_matrix(turn, (roll, pitch))
    assert matrix @ matrix.T == pytest.approx(np.eye(3), abs=1e-12)
    assert np.linalg.det(matrix) == pytest.approx(1.0)


def test_rotation_senses() -> None:
    """Turn carries x to y, roll lifts starboard, pitch lifts the nose, which lies at negative x."""
    assert rotation_matrix(90.0) @ [1, 0, 0] == pytest.approx([0, 1, 0], abs=1e-15)
    assert (rotation_matrix(0.0, (10.0, 0.0)) @ [0, 1, 0])[2] > 0.17
    assert (rotation_matrix(0.0, (0.0, 10.0)) @ [-1, 0, 0])[2] > 0.17


def test_rotation_order() -> None:
    """The tilt is about the body's axes before it is turned: a pitched box turns with its slope."""
    turned = rotation_matrix(90.0, (0.0, 30.0)) @ [1, 0, 0]
    assert turned == pytest.approx([0.0, np.cos(np.pi / 6), -0.5], abs=1e-12)


@given(ANGLE, ANGLE, ANGLE, st.tuples(*[st.floats(0.0, 400.0)] * 3))
def test_aabb_of_box_holds_its_corners(
    turn: float, roll: float, pitch: float, size: tuple[float, float, float]
) -> None:
    """The box along the axes is the least one that holds the eight corners."""
    body = box((10.0, -20.0, 30.0), size, turn, (roll, pitch))
    corners = [body.rotation @ (body.half_mm * s) for s in product((-1, 1), repeat=3)]
    low, high = aabb(body)
    assert low == pytest.approx(np.min(corners, axis=0) + body.centre_mm, abs=1e-9)
    assert high == pytest.approx(np.max(corners, axis=0) + body.centre_mm, abs=1e-9)


@given(ANGLE, ANGLE, ANGLE)
def test_aabb_of_cylinder_holds_its_rims(turn: float, roll: float, pitch: float) -> None:
    """The box along the axes touches the two rims, sampled finely, and leaves none outside."""
    body = cylinder((0.0, 0.0, 0.0), 40.0, 90.0, turn, (roll, pitch), margin_mm=2.0)
    around = np.linspace(0.0, 2.0 * np.pi, 2001)
    rim = np.stack([40.0 * np.cos(around), 40.0 * np.sin(around), np.full(2001, 45.0)], axis=1)
    rims = np.concatenate([rim, rim * (1, 1, -1)]) @ body.rotation.T
    low, high = aabb(body)
    assert low == pytest.approx(rims.min(axis=0) - 2.0, abs=1e-3)
    assert high == pytest.approx(rims.max(axis=0) + 2.0, abs=1e-3)
    assert (high - 2.0 >= rims.max(axis=0) - 1e-9).all()


def test_aabb_of_capsule_and_corners() -> None:
    """A capsule reaches its ends and its radius; a corner set its corners and its margin."""
    low, high = aabb(capsule((0.0, 0.0, 0.0), (30.0, 40.0, 0.0), 5.0))
    assert low == pytest.approx([-5.0, -5.0, -5.0])
    assert high == pytest.approx([35.0, 45.0, 5.0])
    low, high = aabb(polytope([(0, 0, 0), (9, 0, 0), (0, 6, 0), (0, 0, 3)], margin_mm=1.0))
    assert low == pytest.approx([-1.0, -1.0, -1.0])
    assert high == pytest.approx([10.0, 7.0, 4.0])


def test_moved_turns_about_the_origin() -> None:
    """A body moved as a whole carries centre and axes along."""
    moved = box((10.0, 0.0, 0.0), (4.0, 2.0, 2.0)).moved((1.0, 0.0, 0.0), rotation_matrix(90.0))
    assert moved.centre_mm == pytest.approx([1.0, 10.0, 0.0])
    low, high = aabb(moved)
    assert high - low == pytest.approx([2.0, 4.0, 2.0])


def test_few_corners_become_a_segment_or_a_point() -> None:
    """One or two corners with a margin are a ball or a capsule."""
    assert polytope([(1.0, 2.0, 3.0)], 4.0).half_mm.tolist() == [0.0, 0.0, 0.0]
    assert polytope([(0.0, 0.0, 0.0), (0.0, 6.0, 8.0)]).half_mm.tolist() == [0.0, 0.0, 5.0]


@pytest.mark.parametrize(
    "bad",
    [
        lambda: box((0.0, 0.0, 0.0), (1.0, -1.0, 1.0)),
        lambda: box((2e6, 0.0, 0.0), (1.0, 1.0, 1.0)),
        lambda: box((0.0, 0.0), (1.0, 1.0, 1.0)),
        lambda: box((0.0, 0.0, float("nan")), (1.0, 1.0, 1.0)),
        lambda: box((0.0, 0.0, 0.0), (1.0, 1.0, 1.0), turn_deg=float("inf")),
        lambda: cylinder((0.0, 0.0, 0.0), -1.0, 10.0),
        lambda: capsule((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), -1.0),
        lambda: polytope(np.zeros((0, 3))),
        lambda: polytope([1.0, 2.0, 3.0]),
    ],
)
@pytest.mark.filterwarnings("ignore:invalid value:RuntimeWarning")
def test_impossible_solids_are_refused(bad: object) -> None:
    """Negative sizes, wrong shapes and numbers that are none raise ValueError."""
    assert callable(bad)
    with pytest.raises(ValueError, match=r"finite|kilometre|negative|three numbers|corners"):
        bad()
