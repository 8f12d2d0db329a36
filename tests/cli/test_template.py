"""`hardstand template` as it is run."""

from __future__ import annotations

import json
from pathlib import Path

from tests.small_aeroplane import ran
from tests.views.template.samples import DEMO, OWN


def own_folder(tmp_path: Path) -> Path:
    """A folder with the aeroplane whose tray has every kind of opening."""
    folder = tmp_path / "jet"
    folder.mkdir()
    (folder / "aeroplane.toml").write_text(OWN, encoding="utf-8")
    return folder


def test_three_files_are_written_and_never_over_others(tmp_path: Path) -> None:
    """PDF, DXF and SVG; the second time only with --force, and then the same bytes but for the PDF's day."""
    folder, out = own_folder(tmp_path), tmp_path / "out"
    status, said, _ = ran("template", "ell", folder, "--out", out)
    assert status == 0
    assert "6 sheets at 1:1 on A4" in said
    assert "too narrow for its 6 leads" in " ".join(said.split())
    files = {one.name: one.read_bytes() for one in sorted(out.iterdir())}
    assert list(files) == ["ell.dxf", "ell.pdf", "ell.svg"]
    (out / "ell.svg").write_text("mine", encoding="utf-8")
    status, _, refused = ran("template", "ell", folder, "--out", out)
    assert status == 2
    assert "would be written over" in refused
    assert (out / "ell.svg").read_text(encoding="utf-8") == "mine"
    assert ran("template", "ell", folder, "--out", out, "--force")[0] == 0
    assert (out / "ell.svg").read_bytes() == files["ell.svg"]
    assert (out / "ell.dxf").read_bytes() == files["ell.dxf"]


def test_one_format_a_kerf_and_the_form(tmp_path: Path) -> None:
    """Only what was asked for is written; the JSON names it, the openings and what their leads need."""
    folder, out = own_folder(tmp_path), tmp_path / "out"
    status, text, _ = ran("template", "ell", folder, "--out", out, "--format", "svg", "--kerf-mm", "0.2 mm",
                          "--paper", "letter", "--json")  # fmt: skip
    assert status == 0
    form = json.loads(text)
    assert [one.name for one in out.iterdir()] == ["ell.svg"]
    assert (form["tray"], form["kerf_mm"], form["paper"], form["size_mm"]) == ("ell", 0.2, "Letter", [600.0, 270.25])
    assert [one["format"] for one in form["files"]] == ["svg"]
    way = form["openings"][0]
    assert (way["id"], way["cut"], way["leads"], way["too_narrow"]) == ("way", "Ø 9", 6, True)


def test_what_cannot_be_made_is_refused_in_words(tmp_path: Path) -> None:
    """No such tray, with the nearest; a kerf that leaves nothing; a kerf below nothing."""
    out = tmp_path / "out"
    status, _, said = ran("template", "man-tray", DEMO / "s1", "--out", out)
    assert status == 3
    assert "Did you mean main-tray?" in said
    status, _, said = ran("template", "main-tray", DEMO / "s1", "--out", out, "--kerf-mm", "5")
    assert status == 2
    assert "no more than the kerf" in said
    assert ran("template", "main-tray", DEMO / "s1", "--out", out, "--kerf-mm=-1")[0] == 3
    assert not out.exists()
