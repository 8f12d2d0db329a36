"""A mesh sliced into sections, against shapes whose sections are known in closed form."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from hardstand.changes import AddRow
from hardstand.description.aeroplane import Section
from hardstand.description.mesh_sections import MeshError, even_stations, mesh_sections

trimesh = pytest.importorskip("trimesh", reason="PyPI trimesh has no build here")


def _cone(path: Path) -> Path:
    """A cone frustum along x from radius 100 at x 0 to radius 40 at x 600."""
    angle = np.linspace(0.0, 2.0 * np.pi, 181)[:-1]
    ring = np.column_stack([np.cos(angle), np.sin(angle)])
    ends = [np.column_stack([np.full(180, x), r * ring]) for x, r in ((0.0, 100.0), (600.0, 40.0))]
    points = np.vstack([*ends, [[0.0, 0.0, 0.0], [600.0, 0.0, 0.0]]])
    k = np.arange(180)
    after = (k + 1) % 180
    faces = np.vstack(
        [
            np.column_stack([k, k + 180, after]),
            np.column_stack([after, k + 180, after + 180]),
            np.column_stack([np.full(180, 360), k, after]),
            np.column_stack([np.full(180, 361), after + 180, k + 180]),
        ]
    )
    trimesh.Trimesh(points, faces, process=False).export(path)
    return path


def _outline(row: AddRow) -> Any:
    return np.array(row.row["outline_mm"])


def test_sections_of_a_cone(tmp_path: Path) -> None:
    """Each section is round with the cone's radius less the skin, and never outside it."""
    rows = mesh_sections(_cone(tmp_path / "cone.stl"), [450, 150, 300], "body", skin_mm=3.0)
    assert [row.row["x_mm"] for row in rows] == [150.0, 300.0, 450.0]
    for row in rows:
        radius = 100.0 - 0.1 * row.row["x_mm"] - 3.0
        away = np.linalg.norm(_outline(row), axis=1)
        assert away.max() <= radius + 0.01
        assert away.min() >= radius - 0.6


def test_rows_are_sections(tmp_path: Path) -> None:
    """What comes out is accepted as rows of the description."""
    for row in mesh_sections(_cone(tmp_path / "cone.stl"), [150, 300], tol_mm=1.0):
        assert row.kind == "section"
        section = Section.model_validate(row.row)
        assert (section.bay, section.tol_mm) == ("fuselage", 1.0)


def test_inches_and_another_datum(tmp_path: Path) -> None:
    """Scaled and shifted, the same mesh gives the same shape at the station that has moved with it."""
    path = _cone(tmp_path / "cone.stl")
    plain = mesh_sections(path, [300], skin_mm=0.0)[0]
    moved = mesh_sections(path, [1300], skin_mm=0.0, shift_mm=(1000.0, 5.0, -7.0))[0]
    assert _outline(moved) == pytest.approx(_outline(plain) + np.array([5.0, -7.0]), abs=0.011)
    large = mesh_sections(path, [7620], skin_mm=0.0, scale=25.4)[0]
    assert np.linalg.norm(_outline(large), axis=1).max() == pytest.approx(70.0 * 25.4, abs=0.5)


def test_a_shell_with_two_surfaces(tmp_path: Path) -> None:
    """Of a mesh with an inner surface too, the outer one counts."""
    outer = trimesh.creation.box(extents=(400, 200, 120))
    inner = trimesh.creation.box(extents=(400, 190, 110))
    path = tmp_path / "shell.stl"
    trimesh.util.concatenate([outer, inner]).export(path)
    outline = _outline(mesh_sections(path, [50], skin_mm=2.0)[0])
    assert np.abs(outline).max(axis=0) == pytest.approx([98.0, 58.0], abs=0.01)


def test_even_stations(tmp_path: Path) -> None:
    """Stations lie within the mesh, evenly."""
    assert even_stations(_cone(tmp_path / "cone.stl"), 3) == [6, 300, 594]


@pytest.mark.parametrize(
    "content", [b"", b"solid nothing\nendsolid\n", b"\x00" * 200, b"no mesh at all"]
)
def test_what_is_no_mesh(tmp_path: Path, content: bytes) -> None:
    """A file that is no mesh gives one clear error."""
    path = tmp_path / "broken.stl"
    path.write_bytes(content)
    with pytest.raises(MeshError, match=r"broken\.stl"):
        mesh_sections(path, [100])


def test_no_station_meets_the_mesh(tmp_path: Path) -> None:
    """Stations beside the mesh are an error that says where the mesh is."""
    with pytest.raises(MeshError, match="from x 0 to 600"):
        mesh_sections(_cone(tmp_path / "cone.stl"), [-50, 900])
