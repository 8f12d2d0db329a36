"""The solids that stand for things aboard: boxes, cylinders, capsules, corner sets.

Rotation: first a roll about x, then a pitch about y, then the turn about z, each right-handed, so a
positive turn carries x to y, a positive roll lifts the starboard side, a positive pitch the nose.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from hardstand.engines.fit.body import Body, Floats, checked_body


def rotation_matrix(turn_deg: float, tilt_deg: tuple[float, float] = (0.0, 0.0)) -> Floats:
    """Matrix (3, 3) that carries a body's own axes into the aeroplane's.

    `tilt_deg` is roll about x and pitch about y; see the head of this module for the order.

    >>> rotation_matrix(90.0).round(12)[:, 0].tolist()
    [0.0, 1.0, 0.0]
    """
    angles = np.radians([tilt_deg[0], tilt_deg[1], turn_deg])
    (sx, sy, sz), (cx, cy, cz) = np.sin(angles), np.cos(angles)
    about_x = np.array([[1.0, 0.0, 0.0], [0.0, cx, -sx], [0.0, sx, cx]])
    about_y = np.array([[cy, 0.0, sy], [0.0, 1.0, 0.0], [-sy, 0.0, cy]])
    about_z = np.array([[cz, -sz, 0.0], [sz, cz, 0.0], [0.0, 0.0, 1.0]])
    return np.asarray(about_z @ about_y @ about_x)


def box(
    centre_mm: ArrayLike,
    size_mm: ArrayLike,
    turn_deg: float = 0.0,
    tilt_deg: tuple[float, float] = (0.0, 0.0),
    margin_mm: float = 0.0,
) -> Body:
    """A box of full sizes `size_mm` (3,) about `centre_mm` (3,), turned and tilted.

    Raises ValueError if a number is not finite or a size negative.

    >>> box((0.0, 0.0, 0.0), (60.0, 40.0, 30.0)).half_mm.tolist()
    [30.0, 20.0, 15.0]
    """
    half = np.asarray(size_mm, dtype=float) / 2.0
    return checked_body("box", centre_mm, rotation_matrix(turn_deg, tilt_deg), half, (), margin_mm)


def cylinder(
    centre_mm: ArrayLike,
    radius_mm: float,
    length_mm: float,
    turn_deg: float = 0.0,
    tilt_deg: tuple[float, float] = (0.0, 0.0),
    margin_mm: float = 0.0,
) -> Body:
    """A round cylinder about `centre_mm` (3,); upright (axis z) until turned or tilted.

    `tilt_deg=(0.0, 90.0)` lays it along x, `(90.0, 0.0)` along y. Raises as `box` does.

    >>> cylinder((0.0, 0.0, 0.0), 8.0, 100.0).half_mm.tolist()
    [8.0, 8.0, 50.0]
    """
    half = np.array([radius_mm, radius_mm, length_mm / 2.0])
    matrix = rotation_matrix(turn_deg, tilt_deg)
    return checked_body("cylinder", centre_mm, matrix, half, (), margin_mm)


def capsule(start_mm: ArrayLike, end_mm: ArrayLike, radius_mm: float) -> Body:
    """A segment from `start_mm` to `end_mm` (3,), grown by `radius_mm`; a ball if they coincide.

    >>> capsule((0.0, 0.0, 0.0), (100.0, 0.0, 0.0), 8.0).half_mm.tolist()
    [0.0, 0.0, 50.0]
    """
    start, end = np.asarray(start_mm, dtype=float), np.asarray(end_mm, dtype=float)
    span = end - start
    length = float(np.linalg.norm(span))
    matrix = _frame_along(span / length) if length > 0.0 else np.eye(3)
    half = np.array([0.0, 0.0, length / 2.0])
    return checked_body("box", (start + end) / 2.0, matrix, half, (), radius_mm)


def polytope(corners_mm: ArrayLike, margin_mm: float = 0.0) -> Body:
    """The convex hull of `corners_mm` (V, 3), V at least 1, in the aeroplane's axes.

    Corners inside the hull do no harm. Raises ValueError as `box` does, or if there is no corner.

    >>> polytope([(0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (2.0, 3.0, 0.0)]).centre_mm.tolist()
    [2.0, 1.0, 0.0]
    """
    corners = np.asarray(corners_mm, dtype=float)
    if corners.ndim != 2 or corners.shape[0] < 1 or corners.shape[1] != 3:
        raise ValueError("a polytope needs corners of shape (V, 3), at least one")
    if len(corners) <= 2:
        return capsule(corners[0], corners[-1], margin_mm)
    centre = corners.mean(axis=0)
    return checked_body("polytope", centre, np.eye(3), np.zeros(3), corners - centre, margin_mm)


def _frame_along(axis: Floats) -> Floats:
    """A right-handed frame (3, 3) whose third column is the unit vector `axis`."""
    helper = np.eye(3)[int(np.argmin(np.abs(axis)))]
    first = np.cross(helper, axis)
    first /= np.linalg.norm(first)
    return np.column_stack([first, np.cross(axis, first), axis])
