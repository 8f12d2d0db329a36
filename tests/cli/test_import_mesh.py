from __future__ import annotations

from pathlib import Path

import pytest

from tests.small_aeroplane import TEXT, laid_out, ran
from tests.small_mesh import box

pytest.importorskip("trimesh", reason="PyPI trimesh has no build here")


def test_a_mesh_becomes_one_revision(tmp_path: Path) -> None:
    """The sections are shown in a table of 80 columns, written as one change and taken back as one."""
    folder = laid_out(tmp_path / "jet")
    status, out, _ = ran("import-mesh", box(tmp_path / "hull.stl"), folder, "--count", "4")
    assert status == 0
    assert max(map(len, out.splitlines())) <= 80
    assert "4 sections of hull.stl" in out
    assert "58.0 mm" in out
    assert "outline_mm" not in out
    assert "Written as r2" in out
    text = (folder / "aeroplane.toml").read_text("utf-8")
    assert text.startswith(TEXT)
    assert text.count("[[section]]") == 4
    ran("undo", folder)
    assert (folder / "aeroplane.toml").read_text("utf-8") == TEXT


@pytest.mark.parametrize(
    "words, says, status",
    [
        ((), "--stations 100,250,400 or --count 12", 3),
        (("--count", "3", "--stations", "100"), "--stations 100,250,400 or --count 12", 3),
        (("--count", "1"), "--count", 3),
        (("--stations", "100,abaft"), "--stations", 3),
        (("--stations", ","), "names none", 3),
        (("--stations", "100,nan"), "nan", 3),
        (("--count", "3", "--skin", "3 kg"), "--skin", 3),
        (("--count", "3", "--scale", "0"), "--scale", 3),
        (("--stations", "100,900"), "There is nothing at station 900", 2),
        (("--stations", "100"), "two or more stations", 2),
    ],
)
def test_what_is_refused(words: tuple[str, ...], says: str, status: int, tmp_path: Path) -> None:
    """Each slip is answered by itself, and nothing is written."""
    folder = laid_out(tmp_path / "jet")
    found, _, err = ran("import-mesh", box(tmp_path / "hull.stl"), folder, *words)
    assert found == status
    assert says in " ".join(err.split())
    assert (folder / "aeroplane.toml").read_text("utf-8") == TEXT


@pytest.mark.parametrize("content", [None, b"", b"no mesh at all", b"\x00" * 200])
def test_what_is_no_mesh(content: bytes | None, tmp_path: Path) -> None:
    """A file that is not there, or is no mesh, is refused by its name."""
    path = tmp_path / "hull.stl"
    if content is not None:
        path.write_bytes(content)
    status, _, err = ran("import-mesh", path, laid_out(tmp_path / "jet"), "--count", "3")
    assert status == 2
    assert "hull.stl" in "".join(err.split())
