"""On paper: true to size, both bars on every sheet, nothing over the edge of its place."""

import datetime as dt
import io
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import numpy as np
import pytest

from benchmarks.ten_times import lay_out
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.lettering import width
from hardstand.views.drawing.paper import Paper
from hardstand.views.drawing.shapes import Group, Text, flat
from hardstand.views.template import template
from hardstand.views.template.form import CAUTION, sheet_form
from hardstand.views.template.pages import HOW, pages
from hardstand.views.template.paper import template_pdf
from hardstand.views.template.value import Word
from hardstand.workspace import open_folder
from tests.views.template.samples import of_demo, sample

DAY = dt.date(2026, 1, 31)
DOTS_MM = 600 / 25.4
BOTH: tuple[Paper, ...] = ("A4", "Letter")


@contextmanager
def opened(made: bytes) -> Iterator[Any]:
    """The file as another program opens it."""
    reader = pytest.importorskip("pypdfium2", reason="pypdfium2 is not installed")
    document = reader.PdfDocument(made)
    try:
        yield document
    finally:
        document.close()


def _runs(dark: Any) -> list[tuple[int, int]]:
    """Where a row of dots is dark: first and last dot of each run."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], dark.astype(int), [0]])))
    return list(zip(edges[::2].tolist(), (edges[1::2] - 1).tolist(), strict=True))


def _bar_mm(lines: Any) -> float:
    """From the middle of the first tick to that of the last, along a row of dots that crosses them."""
    runs = [one for one in _runs(lines) if one[1] - one[0] < 0.6 * DOTS_MM]
    return (sum(runs[-1]) - sum(runs[0])) / 2.0 / DOTS_MM


@pytest.mark.parametrize("paper", BOTH)
def test_both_bars_measure_100_mm_on_every_sheet(paper: Paper) -> None:
    """Rendered at 600 dots an inch, from tick to tick."""
    left, top, right, bottom = sheet_form(paper).frame.border
    foot = bottom - 34.0
    middle = (top + foot) / 2.0
    with opened(template_pdf(of_demo("nose-tray"), paper, DAY)) as document:
        for number in range(len(document)):
            page = document[number]
            picture = np.asarray(page.render(scale=600 / 72).to_pil().convert("L")) < 128
            page.close()
            # a row just under the level bar and a column just beside the upright one cross only end ticks
            row = picture[round((foot + 10.5 + 1.9) * DOTS_MM), : round((left + 112.0) * DOTS_MM)]
            row = row[round((left + 4.0) * DOTS_MM) :]
            column = picture[round((middle - 53.0) * DOTS_MM) : round((middle + 53.0) * DOTS_MM),
                             round((right - 4.5 + 1.9) * DOTS_MM)]  # fmt: skip
            for found in (row, column):
                assert len(_runs(found)) == 2
                assert _bar_mm(found) == pytest.approx(100.0, abs=0.1)


@pytest.mark.parametrize("paper", BOTH)
def test_the_outline_is_printed_at_its_true_size(paper: Paper) -> None:
    """The gyro plate is 50 by 36 mm, measured on the print between the middles of its edges."""
    with opened(template_pdf(of_demo("gyro-plate"), paper, DAY)) as document:
        page = document[1]
        picture = np.asarray(page.render(scale=600 / 72).to_pil().convert("L")) < 128
        page.close()
    left, top, right, bottom = (round(one * DOTS_MM) for one in sheet_form(paper).field)
    inside = picture[top:bottom, left:right]
    rows, columns = np.flatnonzero(inside.any(axis=1)), np.flatnonzero(inside.any(axis=0))
    line = 0.35
    assert (columns[-1] - columns[0] + 1) / DOTS_MM - line == pytest.approx(50.0, abs=0.1)
    assert (rows[-1] - rows[0] + 1) / DOTS_MM - line == pytest.approx(36.0, abs=0.1)


@pytest.mark.parametrize("paper", BOTH)
@pytest.mark.parametrize("name", ["main-tray", "own 0.15", "logger-bracket"])
def test_no_text_leaves_its_sheet(name: str, paper: Paper) -> None:
    """Every text ends within the border, and the foot's within the room left of the title block."""
    form = sheet_form(paper)
    left, top, right, bottom = form.frame.border
    for sheet in pages(sample(name), paper):
        for text in flat(sheet.shapes):
            if not isinstance(text, Text):
                continue
            long = width(text.text, text.use, PAPER)
            (x, y), share = text.at, {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor]
            if text.use == "key" and not (left < x < right and top < y < bottom):
                continue  # zone figures stand outside the border
            if text.upright:
                assert top <= y + share * long <= bottom, text
                assert top <= y - (1.0 - share) * long, text
                continue
            assert left <= x - share * long, text
            limit = right - 124.0 if y > bottom - 34.0 and x < right - 124.0 else right
            assert x + (1.0 - share) * long <= limit, text


def test_nothing_of_the_field_is_drawn_over_a_cut() -> None:
    """Names have halos: the cuts are drawn after them, and what comes later has none."""
    for sheet in pages(sample("main-tray"), "A4"):
        groups = [one.part if isinstance(one, Group) else "" for one in sheet.shapes]
        after = flat(sheet.shapes[groups.index("cut") + 1 :])
        _, top, _, bottom = sheet_form("A4").field
        inside = [one for one in after if isinstance(one, Text) and top < one.at[1] < bottom]
        assert [one.text for one in inside if one.halo and not one.text.startswith("sheet ")] == []


@pytest.mark.parametrize("paper", BOTH)
@pytest.mark.parametrize("tray", ["nose-tray", "main-tray"])
def test_every_item_is_named_on_some_sheet(tray: str, paper: Paper) -> None:
    """Also one that is cut by the edges of all the sheets it lies on; long names are shortened."""
    made = sample(tray)
    wanted = {one.text for one in made.marks if isinstance(one, Word) and one.about.startswith("item.")}
    texts = {one.text for sheet in pages(made, paper)[1:] for one in flat(sheet.shapes) if isinstance(one, Text)}
    assert wanted
    for name in wanted:
        assert any(name == one or (one.endswith("...") and name.startswith(one[:-3])) for one in texts), name


def test_every_sheet_says_how_it_is_printed_and_what_it_is() -> None:
    """No scaling, measuring, the caution, thickness, which sheet of how many: as text that can be read."""
    with opened(template_pdf(of_demo("main-tray"), "A4", DAY)) as document:
        texts = []
        for number in range(len(document)):
            page = document[number]
            words = page.get_textpage()
            texts.append(" ".join(words.get_text_range().split()))
            words.close()
            page.close()
    assert len(texts) == 5
    for number, text in enumerate(texts):
        for said in ("Print at 100 %, no scaling.", "Measure this bar and the upright one", CAUTION,
                     "nose to the left", "2 mm thick"):  # fmt: skip
            assert said in text
        assert ("list" if number == 0 else f"{number} of 4") in text
    assert "main-middle-left" in texts[0]
    assert HOW[0] in texts[0]


def test_the_same_template_gives_the_same_bytes() -> None:
    """The date given is the only time in the file."""
    made = of_demo("gyro-plate")
    assert template_pdf(made, "A4", DAY) == template_pdf(made, "A4", DAY)


def test_many_openings_take_more_than_one_list() -> None:
    """None is left out: every opening stands in a list."""
    from dataclasses import replace

    made = of_demo("main-tray")
    many = replace(made, openings=tuple(replace(made.openings[0], number=k, id=f"h-{k}") for k in range(1, 41)))
    lists = [one for one in pages(many, "Letter") if one.description.startswith("list")]
    words = {one.text for sheet in lists for one in flat(sheet.shapes) if isinstance(one, Text)}
    assert len(lists) == 3
    assert {f"{k}  h-{k}" for k in range(1, 41)} <= words


def test_a_tray_of_an_aeroplane_ten_times_as_large(tmp_path: Any) -> None:
    """Stations past 14 000 mm; a PDF for every tray, each with as many pages as sheets."""
    lay_out(tmp_path / "many")
    workspace = open_folder(tmp_path / "many")
    aeroplane, found = workspace.as_built(), workspace.assess()
    made = template(aeroplane, found, "main-tray-6")
    assert made.bounds()[0] > 14_000
    content = template_pdf(made, "A4", DAY)
    with opened(content) as document:
        assert len(document) == len(pages(made, "A4"))
    assert io.BytesIO(content).read(5) == b"%PDF-"
