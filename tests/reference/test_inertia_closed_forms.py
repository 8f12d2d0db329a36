"""Inertia against closed forms, and solids cut by planes against a general-purpose mesh library.

Closed forms for rod, box, cylinder and the parallel-axis rule: any mechanics textbook, for instance
J. L. Meriam and L. G. Kraige, Engineering Mechanics: Dynamics, appendix on mass moments of inertia;
value from memory.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from hardstand.engines.balance.moments import roll_up
from hardstand.engines.fuel.level import liquid_in, up_direction
from hardstand.engines.fuel.solids import Solid, box, cylinder, prism
from hardstand.engines.fuel.volume_integrals import integrals, integrals_below


def _inertia_kgm2(solid: Solid, mass_kg: float) -> np.ndarray:
    """Return a uniform solid's inertia tensor about its own centroid."""
    spread = integrals(solid).spread_mm_mm[0] * 1e-6
    return np.asarray(mass_kg * (np.trace(spread) * np.eye(3) - spread))


def test_slender_rod() -> None:
    """A rod of many points turns about its middle like m L squared / 12, about its end like / 3."""
    count, length_mm = 2_000, 1_200.0
    x = (np.arange(count) + 0.5) / count * length_mm
    at = np.column_stack([x, np.zeros(count), np.zeros(count)])
    rod = roll_up(np.full(count, 600.0 / count), at, np.ones((1, count)))
    about_middle = 0.6 * 1.2**2 / 12.0
    assert np.diag(rod.inertia_kgm2[0]) == pytest.approx(
        [0.0, about_middle, about_middle], rel=1e-6
    )
    about_end = about_middle + 0.6 * 0.6**2
    assert about_end == pytest.approx(0.6 * 1.2**2 / 3.0)


def test_box() -> None:
    """A solid box: m (b squared + c squared) / 12 about each axis."""
    inertia = _inertia_kgm2(box([330.0, 80.0, 70.0]), 1.3)
    sides = np.array([0.33, 0.08, 0.07]) ** 2
    assert np.diag(inertia) == pytest.approx(1.3 * (sides.sum() - sides) / 12.0, rel=1e-12)
    assert inertia[0, 2] == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize("axis", [0, 1, 2])
def test_cylinder(axis: int) -> None:
    """A solid cylinder: m r squared / 2 along, m (3 r squared + L squared) / 12 across its axis.

    The many-sided stand-in is 2 parts in a million high along the axis.
    """
    inertia = np.diag(_inertia_kgm2(cylinder(112.0, 270.0, axis=axis), 1.4))
    radius, length = 0.056, 0.27
    across = 1.4 * (3.0 * radius**2 + length**2) / 12.0
    expected = np.full(3, across)
    expected[axis] = 1.4 * radius**2 / 2.0
    assert inertia == pytest.approx(expected, rel=3e-6)


def test_parallel_axes() -> None:
    """Two boxes rolled up: own inertia plus mass times the square of the distance, and products."""
    own = np.stack([_inertia_kgm2(box([300.0, 80.0, 60.0]), m) for m in (1.0, 3.0)])
    at = np.array([[0.0, 0.0, 0.0], [400.0, 120.0, -80.0]])
    state = roll_up([1000.0, 3000.0], at, [[1, 1]], own)
    # The reduced mass, 0.75 kg, at the distance between the two.
    dx, dy, dz = 0.4, 0.12, -0.08
    moved = 0.75 * np.array(
        [
            [dy**2 + dz**2, -dx * dy, -dx * dz],
            [-dx * dy, dx**2 + dz**2, -dy * dz],
            [-dx * dz, -dy * dz, dx**2 + dy**2],
        ]
    )
    assert state.inertia_kgm2[0] == pytest.approx(own.sum(axis=0) + moved, rel=1e-12)
    assert state.product_xz_kgm2[0] == pytest.approx(0.75 * dx * dz, rel=1e-12)


def _mesh(solid: Solid) -> Any:
    """Return the solid as the mesh library's own convex hull of its corners."""
    trimesh = pytest.importorskip("trimesh", reason="trimesh (mesh oracle) is not installed")
    return trimesh.convex.convex_hull(solid.triangles_mm.reshape(-1, 3))


SOLIDS = {
    "box": box([330.0, 80.0, 70.0]).moved([1310.0, -78.0, 25.0]),
    "cylinder": cylinder(90.0, 260.0, axis=0).moved([1310.0, 78.0, 25.0]),
    "wedge": prism([[-100, 0], [120, 0], [-100, 70]], 60.0, axis=1).moved([900.0, 10.0, -30.0]),
}


@pytest.mark.parametrize("name", SOLIDS)
@pytest.mark.parametrize("fill", [0.03, 0.2, 0.5, 0.8, 0.97, 1.0])
@pytest.mark.parametrize("pitch_deg, roll_deg", [(0.0, 0.0), (12.0, 0.0), (-4.0, 25.0)])
def test_liquid_in_a_tank_against_the_mesh_library(
    name: str, fill: float, pitch_deg: float, roll_deg: float
) -> None:
    """Volume, centroid and inertia below the level agree with the library's cut of the same solid.

    Oracle: trimesh, slice_mesh_plane and the mass properties of the hull of what is left.
    """
    intersections = pytest.importorskip(
        "trimesh.intersections", reason="trimesh (mesh oracle) is not installed"
    )
    solid, up = SOLIDS[name], up_direction(pitch_deg, roll_deg)
    mesh = _mesh(solid)
    liquid = liquid_in(solid, [fill * mesh.volume / 1000.0], up)
    cut = intersections.slice_mesh_plane(mesh, -up, up * liquid.level_mm[0]).convex_hull
    assert liquid.volume_ml[0] == pytest.approx(cut.volume / 1000.0, rel=1e-6)
    assert liquid.centroid_mm[0] == pytest.approx(cut.center_mass, abs=1e-4)
    # The library's tensor is for a density of 1 per cubic millimetre; ours for 1 g per ml.
    theirs = np.asarray(cut.moment_inertia) * 1e-12
    assert liquid.inertia_kgm2(1.0)[0] == pytest.approx(theirs, rel=1e-5, abs=1e-9)


@pytest.mark.parametrize("name", SOLIDS)
def test_whole_solids_against_the_mesh_library(name: str) -> None:
    """Volume, centroid and inertia of the whole solid agree, as does the side above a plane."""
    solid, mesh = SOLIDS[name], _mesh(SOLIDS[name])
    whole = integrals(solid)
    assert whole.volume_ml[0] == pytest.approx(mesh.volume / 1000.0, rel=1e-9)
    assert whole.centroid_mm[0] == pytest.approx(mesh.center_mass, abs=1e-6)
    mass_kg = whole.volume_ml[0] / 1000.0
    theirs = np.asarray(mesh.moment_inertia) * 1e-12
    assert _inertia_kgm2(solid, mass_kg) == pytest.approx(theirs, rel=1e-6, abs=1e-12)
    down = -up_direction(7.0, 3.0)
    middle = float(whole.centroid_mm[0] @ down)
    above = integrals_below(solid, down, [middle])
    cut = mesh.slice_plane(whole.centroid_mm[0], -down).convex_hull
    assert above.volume_ml[0] == pytest.approx(cut.volume / 1000.0, rel=1e-6)
