from __future__ import annotations

from pathlib import Path

import pytest

from hardstand.cli.begin import MOMENTS, demo_texts
from hardstand.cli.beginning import beginning
from hardstand.description.read import read_texts
from tests.small_aeroplane import ran


def test_demo_lays_out_a_folder_and_checks_it(tmp_path: Path) -> None:
    """The demo is on disk, has its verdict, and is not laid out twice."""
    folder = tmp_path / "jet"
    status, out, err = ran("demo", folder)
    assert status in (0, 1)
    assert "Tarnwing 20" in out
    assert "hardstand check" in err
    assert (folder / "aeroplane.toml").is_file()
    assert not list(folder.rglob("expected.toml"))
    before = (folder / "aeroplane.toml").read_bytes()
    (folder / "aeroplane.toml").write_bytes(before + b"# mine\n")
    status, out, err = ran("demo", folder)
    assert status in (0, 1)
    assert "left as it is" in " ".join(err.split())
    assert "Tarnwing 20" in out
    assert (folder / "aeroplane.toml").read_bytes() == before + b"# mine\n"


@pytest.mark.parametrize("moment", MOMENTS)
def test_every_moment_can_be_read(moment: str) -> None:
    """Each moment of the demo aeroplane reads without a problem."""
    assert read_texts(demo_texts(moment)).description.aeroplane.name


def test_new_is_readable_and_commented(tmp_path: Path) -> None:
    """A new aeroplane is read at once, has what was given, and explains itself."""
    folder = tmp_path / "heron"
    status, out, _ = ran(
        "new",
        folder,
        "--name",
        'The "Heron"',
        "--span",
        "79 in",
        "--length",
        "1900",
        "--mark",
        "wing root",
        "--mark-at",
        "400, 60, -10",
    )
    assert status == 0
    assert "hardstand check" in out
    text = (folder / "aeroplane.toml").read_text(encoding="utf-8")
    found = read_texts({"aeroplane.toml": text}).description
    assert found.aeroplane.name == 'The "Heron"'
    assert found.aeroplane.span_mm == pytest.approx(2006.6, rel=1e-9)
    assert found.cg_mark is not None
    assert found.cg_mark.at_mm == (400.0, 60.0, -10.0)
    assert ran("check", folder)[0] in (0, 1)


def test_what_is_not_known_is_left_as_a_comment() -> None:
    """Without answers the file is still read, and assumes nothing."""
    found = read_texts({"aeroplane.toml": beginning("Heron")}).description
    assert found.cg_mark is None
    assert found.aeroplane.span_mm is None


@pytest.mark.parametrize(
    "words, hint",
    [
        ([], "--name"),
        (["--name", "x", "--span", "wide"], "wide"),
        (["--name", "x", "--span", "-3"], "no length"),
        (["--name", "x", "--span", "inf"], "inf"),
        (["--name", "x", "--mark-at", "1,2"], "three numbers"),
    ],
)
def test_a_wrong_answer_is_refused(words: list[str], hint: str, tmp_path: Path) -> None:
    """What cannot be is refused with what was expected, and no folder is made."""
    status, _, err = ran("new", tmp_path / "heron", *words)
    assert status == 3
    assert hint in " ".join(err.split())
    assert not (tmp_path / "heron").exists()
