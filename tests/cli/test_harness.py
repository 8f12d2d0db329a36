"""`hardstand harness` as it is run."""

from __future__ import annotations

from pathlib import Path

from tests.engines.harness.wired import texts
from tests.small_aeroplane import TEXT, laid_out, ran


def test_files_are_written_and_never_over_others(tmp_path: Path) -> None:
    """Four PDFs, or what is asked for; a second time only with --force, and the same bytes."""
    folder, out = tmp_path / "jet", tmp_path / "out"
    for name, text in texts().items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    status, said, _ = ran("harness", folder, "--out", out)
    assert status == 0
    assert "wire, gauge 20" in said
    files = {one.name: one.read_bytes() for one in out.iterdir()}
    assert sorted(files) == ["bill.pdf", "cut-list.pdf", "drawing.pdf", "labels.pdf"]
    assert all(one.startswith(b"%PDF-") for one in files.values())
    status, _, refused = ran("harness", folder, "--out", out, "--bill")
    assert (status, "would be written over" in refused) == (2, True)
    assert ran("harness", folder, "--out", out, "--bill", "--force")[0] == 0
    assert (out / "bill.pdf").read_bytes() == files["bill.pdf"]


def test_without_leads_there_is_nothing_to_make(tmp_path: Path) -> None:
    """It is refused, and says what to add."""
    status, _, said = ran("harness", laid_out(tmp_path / "jet", TEXT), "--out", tmp_path / "out")
    assert status != 0
    assert "There are no leads" in said
    assert not (tmp_path / "out").exists()
