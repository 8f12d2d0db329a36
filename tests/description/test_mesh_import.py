from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from hardstand.description.mesh_import import MeshImport, imported_rows, open_edges, section_form
from hardstand.description.mesh_sections import MeshError, triangles_of
from hardstand.description.raw import Raw, parse
from hardstand.description.read import read_texts
from hardstand.description.write import apply_to_texts
from tests.small_aeroplane import TEXT
from tests.small_mesh import box

pytest.importorskip("trimesh", reason="PyPI trimesh has no build here")


def hull(folder: Path, **more: Any) -> MeshImport:
    """The box at two stations of the bay `nose`, unless something else is asked for."""
    given = {"bay": "nose", "stations_mm": (100.0, 300.0), **more}
    return MeshImport(box(folder / "hull.stl"), **given)


def test_a_bay_and_its_sections(tmp_path: Path) -> None:
    """A new bay comes with its sections; the description with them can be read."""
    rows = imported_rows(Raw({}), hull(tmp_path, tol_mm=1.0))
    assert [(one.kind, one.row["id"]) for one in rows] == [
        ("bay", "nose"),
        ("section", "nose-100"),
        ("section", "nose-300"),
    ]
    texts = {"aeroplane.toml": TEXT}
    read = read_texts({**texts, **apply_to_texts(texts, rows)}).description
    assert [one.x_mm for one in read.section] == [100.0, 300.0]
    assert {one.tol_mm for one in read.section} == {1.0}


def test_more_sections_for_a_bay_that_is_there(tmp_path: Path) -> None:
    """A bay is added once, one more section is enough then, and ids that are taken are not taken again."""
    texts = {"aeroplane.toml": TEXT}
    texts |= apply_to_texts(texts, imported_rows(Raw({}), hull(tmp_path)))
    texts["aeroplane.toml"] = texts["aeroplane.toml"].replace('"nose-300"', '"nose-400"')
    rows = imported_rows(parse(texts)[0], hull(tmp_path, stations_mm=(400.0,)))
    assert [(one.kind, one.row["id"]) for one in rows] == [("section", "nose-400-2")]


def test_scale_shift_and_skin(tmp_path: Path) -> None:
    """Scaled, moved and drawn in by the skin, the box measures what it must."""
    path = box(tmp_path / "inches.stl", scale=1.0 / 25.4)
    what = MeshImport(
        path, "nose", count=3, scale=25.4, shift_x_mm=1000.0, shift_z_mm=5.0, skin_mm=3.0
    )
    forms = [section_form(one) for one in imported_rows(Raw({}), what)[1:]]
    assert [one["x_mm"] for one in forms] == [1006.0, 1300.0, 1594.0]
    for one in forms:
        assert one["half_width_mm"] == pytest.approx(57.0, abs=0.01)
        assert (one["bottom_mm"], one["top_mm"]) == pytest.approx((-32.0, 62.0), abs=0.01)
        assert one["height_mm"] == pytest.approx(94.0, abs=0.01)
        assert one["points"] == 4


def test_rounding_of_corners_opens_no_mesh(tmp_path: Path) -> None:
    """Corners that differ by what a text file rounds off still meet; a missing triangle does not."""
    corners = triangles_of(box(tmp_path / "hull.stl"))
    for seed in range(20):
        noise = np.random.default_rng(seed).uniform(-2e-4, 2e-4, corners.shape)
        assert len(open_edges(corners + noise)) == 0
        assert len(open_edges((corners + noise)[:-1])) == 3


@pytest.mark.parametrize("without, edges", [(1, 3), (2, 4)])
def test_an_open_mesh(without: int, edges: int, tmp_path: Path) -> None:
    """An open mesh is refused with how many edges are open and where."""
    what = MeshImport(box(tmp_path / "open.stl", without=without), "nose", (100.0, 300.0))
    with pytest.raises(MeshError, match=f"open at {edges} edges, from x 0 to 600"):
        imported_rows(Raw({}), what)


@pytest.mark.parametrize(
    "more, says",
    [
        (
            {"stations_mm": (100.0, 700.0)},
            "nothing at station 700: the mesh reaches from x 0 to 600",
        ),
        ({"stations_mm": (-5.0, 700.0)}, "from x 0 to 600"),
        ({"skin_mm": 70.0}, "once 70 mm of skin are off"),
        ({"skin_mm": -1.0}, "skin's thickness"),
        ({"stations_mm": (100.0,)}, "two or more stations"),
        ({"bay": "the nose"}, "no id"),
    ],
)
def test_what_cannot_be_cut(more: dict[str, Any], says: str, tmp_path: Path) -> None:
    """A station with nothing at it, too thick a skin, and a bay that cannot be are refused."""
    with pytest.raises(MeshError, match=says):
        imported_rows(Raw({}), hull(tmp_path, **more))


def test_a_section_that_is_there(tmp_path: Path) -> None:
    """A bay has one section at a station; the one that is there stays."""
    raw = Raw(
        {}, rows={"bay": [{"id": "nose"}], "section": [{"id": "a", "bay": "nose", "x_mm": 300}]}
    )
    with pytest.raises(MeshError, match="already has a section at station 300"):
        imported_rows(raw, hull(tmp_path))


def test_what_is_no_mesh(tmp_path: Path) -> None:
    """A file that is no mesh is refused by its name."""
    (tmp_path / "no.stl").write_text("no mesh at all", encoding="ascii")
    with pytest.raises(MeshError, match=r"no\.stl"):
        imported_rows(Raw({}), MeshImport(tmp_path / "no.stl", "nose", count=3))
