"""Pages come out of the printer's file as long as they were drawn, in our lettering, always alike."""

import datetime as dt
import io
import json
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path as FilePath
from typing import Any
from xml.etree import ElementTree as ET

import numpy as np
import pytest

import hardstand
from hardstand.views.drawing.kinds import LETTERING, PAPER
from hardstand.views.drawing.shapes import Shape, Text, line
from hardstand.views.drawing.svg import Sheet, element
from hardstand.views.pdf import PageError, PaperPage, pdf
from hardstand.views.print_style import print_style

DAY = dt.date(2026, 1, 31)
DOTS_MM = 600 / 25.4
PRINT = FilePath(hardstand.__file__).parent / "data" / "look" / "fonts" / "print"


def page(*shapes: Shape, size: tuple[float, float] = (297.0, 210.0)) -> PaperPage:
    """A sheet with shapes, as a page."""
    sheet = Sheet(*size, PAPER, "a sheet", "for a test", shapes)
    return PaperPage(ET.tostring(element(sheet, "s"), encoding="unicode"), *size)


@contextmanager
def opened(made: bytes) -> Iterator[Any]:
    """The file as another program opens it."""
    reader = pytest.importorskip("pypdfium2", reason="pypdfium2 is not installed")
    document = reader.PdfDocument(made)
    try:
        yield document
    finally:
        document.close()


def rendered(made: bytes) -> Any:
    """The first page as grey values at 600 dots an inch."""
    with opened(made) as document:
        one = document[0]
        picture = np.asarray(one.render(scale=600 / 72).to_pil().convert("L"))
        one.close()
    return picture


@pytest.mark.parametrize("size", [(297.0, 210.0), (210.0, 297.0), (215.9, 279.4)])
def test_a_line_of_100_mm_measures_100_mm(size: tuple[float, float]) -> None:
    """Across and down, on both papers, at 600 dots an inch."""
    bars = line("thin", (30, 40), (130, 40)), line("thin", (30, 60), (30, 160))
    picture = rendered(pdf([page(*bars, size=size)], title="t", date=DAY))
    across = np.where(picture[round(40 * DOTS_MM)] < 128)[0]
    down = np.where(picture[round(60 * DOTS_MM) :, round(30 * DOTS_MM)] < 128)[0]
    for found in (across, down):
        assert (found.max() - found.min() + 1) / DOTS_MM == pytest.approx(100.0, abs=0.05)
    assert across.min() / DOTS_MM == pytest.approx(30.0, abs=0.05)


def test_the_lettering_is_ours_in_all_its_uses() -> None:
    """Every use is set in one of our three faces, none other is embedded, and the text can be read."""
    pypdf = pytest.importorskip("pypdf", reason="pypdf is not installed")
    texts = [Text(use, (20, 10 + 10 * n), f"{use} 0.5 ± 1 mm") for n, use in enumerate(LETTERING)]
    made = pdf([page(*texts)], title="t", date=DAY)
    one = pypdf.PdfReader(io.BytesIO(made)).pages[0]
    fonts = {str(font["/BaseFont"])[8:] for font in one["/Resources"]["/Font"].values()}
    assert fonts == {"Lettering", "NarrowLettering", "Notes"}
    with opened(made) as document:
        words = document[0].get_textpage().get_text_range()
    assert all(f"{use} 0.5 ± 1 mm" in words for use in LETTERING)


def test_another_family_is_refused() -> None:
    """A family that the printer's file cannot have is an error, not another face in silence."""
    text = page().svg.replace("</svg>", '<text font-family="Sans">x</text></svg>')
    with pytest.raises(PageError, match="Sans"):
        pdf([PaperPage(text, 297, 210)], title="t", date=DAY)


def test_a_page_of_another_size_is_refused() -> None:
    """Nothing is scaled to fit: a drawing that is not as large as its page is an error."""
    with pytest.raises(PageError, match="another size"):
        pdf([PaperPage(page().svg, 297, 211)], title="t", date=DAY)
    with pytest.raises(PageError, match="another size"):
        pdf([PaperPage(page().svg.replace("mm", "px"), 297, 210)], title="t", date=DAY)
    with pytest.raises(PageError, match="a page"):
        pdf([], title="t", date=DAY)


def test_the_same_pages_give_the_same_bytes() -> None:
    """The date given is the only time in the file."""
    pages = [page(Text("name", (20, 20), "x")), page(size=(210.0, 297.0))]
    made = pdf(pages, title='a "title" \\ of #two', date=DAY)
    assert made == pdf(pages, title='a "title" \\ of #two', date=DAY)
    with opened(made) as document:
        about = document.get_metadata_dict()
        assert len(document) == 2
    assert about["Title"] == 'a "title" \\ of #two'
    assert about["CreationDate"].startswith("D:20260131")


@pytest.mark.parametrize("fine", [False, True])
def test_the_style_of_paper_is_plain(fine: bool) -> None:
    """No variable, no rule for screens, no unit but the sheet's own; `fine` thins the outline."""
    style = print_style(fine=fine)
    assert not any(one in style for one in ("var(", "--", "@", ":root", "Lettering Narrow"))
    assert f"stroke: #000;   stroke-width: {'.35' if fine else '.5'}px; stroke-linejoin" in style


@pytest.mark.parametrize("face", ["hardstand-lettering", "hardstand-lettering-narrow", "notes"])
def test_printed_letters_are_as_wide_as_those_on_screen(face: str) -> None:
    """Texts are laid out by one table of widths: the printer's faces have the same."""
    fonts = pytest.importorskip("fontTools.ttLib", reason="fontTools is not installed")
    font = fonts.TTFont(PRINT / f"{face}.ttf")
    widths = json.loads((PRINT.parent.parent / "widths.json").read_text(encoding="utf-8"))
    metrics, letters = font["hmtx"].metrics, font.getBestCmap()
    for letter, wide in widths[face.removeprefix("hardstand-")].items():
        found = 1000.0 * metrics[letters[ord(letter)]][0] / font["head"].unitsPerEm
        assert found == pytest.approx(wide, abs=0.51)
