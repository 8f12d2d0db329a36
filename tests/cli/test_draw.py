from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from tests.small_aeroplane import laid_out, ran

SVG = "{http://www.w3.org/2000/svg}"


def files(folder: Path) -> set[str]:
    """The files below a folder, by their paths in it."""
    return {one.relative_to(folder).as_posix() for one in folder.rglob("*") if one.is_file()}


def root_of(path: Path) -> ET.Element:
    """The drawing in a file that the program has just written."""
    return ET.parse(path).getroot()  # noqa: S314 it is our own drawing


def test_all_sheets_are_written_for_every_medium(tmp_path: Path) -> None:
    """Without options each medium has its folder of sheets, and each paper one PDF of as many pages."""
    pypdf = pytest.importorskip("pypdf", reason="pypdf is in the test extra")
    folder = laid_out(tmp_path / "jet")
    status, out, err = ran("draw", folder)
    assert (status, err) == (0, "")
    written = files(folder / "drawings")
    media = {one.split("/")[0] for one in written if "/" in one}
    assert media == {"wide", "phone", "a4", "letter"}
    assert {"wide/whole.svg", "phone/trays.svg", "a4/balance.svg", "letter/items.svg"} <= written
    for paper, size in (("a4", (297.0, 210.0)), ("letter", (279.4, 215.9))):
        pages = pypdf.PdfReader(folder / "drawings" / f"drawings-{paper}.pdf").pages
        assert len(pages) == sum(one.startswith(f"{paper}/") for one in written)
        box = pages[0].mediabox
        assert (float(box.width), float(box.height)) == pytest.approx([one * 72 / 25.4 for one in size], abs=0.1)
    assert "drawings-a4.pdf" in out
    assert max(map(len, out.splitlines())) <= 80


def test_what_is_named_is_drawn_alone(tmp_path: Path) -> None:
    """A drawing and a tray on one screen are two files, listed alike in the JSON form."""
    folder = laid_out(tmp_path / "jet")
    _, out, _ = ran("draw", folder, "whole", "front", "--screen", "phone", "--json", "--out", tmp_path / "o")
    form = json.loads(out)
    assert {one["path"] for one in form["files"]} == files(tmp_path / "o")
    assert files(tmp_path / "o") == {"phone/whole.svg", "phone/tray-front.svg"}


def test_every_station_has_its_section_and_its_letter(tmp_path: Path) -> None:
    """Two stations are two sheets A and B by station, and the plan marks both planes in both views."""
    folder = laid_out(tmp_path / "jet")
    ran("draw", folder, "whole", "section", "--at", "300", "--at", "5 in", "--screen", "wide")
    assert files(folder / "drawings") == {"wide/whole.svg", "wide/section-a.svg", "wide/section-b.svg"}
    text = (folder / "drawings/wide/section-a.svg").read_text("utf-8")
    assert "A–A" in text
    assert "at station 127, looking aft" in text
    root = root_of(folder / "drawings/wide/whole.svg")
    planes = [one for one in root.iter(f"{SVG}g") if one.get("data-part") == "section-plane"]
    letters = [text.text or "" for one in planes for text in one.iter(f"{SVG}text")]
    assert sorted(letters) == ["A"] * 4 + ["B"] * 4


@pytest.mark.parametrize("words, ink", [((), None), (("--dark",), "dark"), (("--light",), "light")])
def test_paper_on_the_screen(words: tuple[str, ...], ink: str | None, tmp_path: Path) -> None:
    """Light or dark is fixed where it is asked for, else left to the viewer."""
    folder = laid_out(tmp_path / "jet")
    ran("draw", folder, "whole", "--screen", "wide", *words)
    assert root_of(folder / "drawings/wide/whole.svg").get("data-paper") == ink


def test_nothing_is_written_over_unless_it_is_said(tmp_path: Path) -> None:
    """The second time needs --force; without it no file changes."""
    folder = laid_out(tmp_path / "jet")
    ran("draw", folder, "whole", "--screen", "wide")
    path = folder / "drawings/wide/whole.svg"
    path.write_text("mine", "utf-8")
    status, _, err = ran("draw", folder, "whole", "--screen", "wide")
    assert status == 2
    assert "--force" in err
    assert path.read_text("utf-8") == "mine"
    assert ran("draw", folder, "whole", "--screen", "wide", "--force")[0] == 0
    assert path.read_text("utf-8") != "mine"


def test_drawn_twice_it_is_the_same(tmp_path: Path) -> None:
    """The same aeroplane gives the same bytes, but for the day in a PDF without any revision."""
    folder = laid_out(tmp_path / "jet")
    for out in ("one", "two"):
        ran("draw", folder, "--paper", "a4", "--screen", "wide", "--out", tmp_path / out)
    for name in files(tmp_path / "one"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


@pytest.mark.parametrize(
    "words, says, status",
    [
        (("wholee",), "Did you mean whole?", 3),
        (("frnt",), "Did you mean front?", 3),
        (("section", "--at", "9000"), "--at", 2),
        (("section", "--at", "aft"), "--at", 3),
        (("--mark", "nothing"), "no item and no finding", 3),
        (("--mark", "99"), "no item and no finding", 3),
        (("--paper", "a3"), "--paper", 3),
        (("--light", "--dark"), "one or the other", 3),
        (("notes", "--screen", "wide"), "on paper only", 3),
    ],
)
def test_what_is_refused(words: tuple[str, ...], says: str, status: int, tmp_path: Path) -> None:
    """Each slip is answered by itself, and nothing is written."""
    folder = laid_out(tmp_path / "jet")
    found, _, err = ran("draw", folder, *words)
    assert found == status
    assert says in " ".join(err.split())
    assert not (folder / "drawings").exists()


def test_in_the_folder_itself_a_name_needs_no_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first word is a drawing's name where it is one."""
    monkeypatch.chdir(laid_out(tmp_path / "jet"))
    assert ran("draw", "balance", "--screen", "wide")[0] == 0
    assert files(Path("drawings")) == {"wide/balance.svg"}
