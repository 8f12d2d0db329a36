"""The sheets of an aeroplane ten times the demo: still legible, and every item is to be found."""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from benchmarks.ten_times import lay_out
from hardstand.asbuilt import AsBuilt, build
from hardstand.assessment import Assessment, assess
from hardstand.description.read import read_folder
from hardstand.stages import stages
from hardstand.views.drawing import DRAWINGS, Wanted, sheet_set
from hardstand.views.drawing.shapes import Text, flat
from tests.views.drawing.legible import clashes, off_the_sheet

MEDIA = {"wide": Wanted(), "phone": Wanted(width_px=390.0), "A4": Wanted(paper="A4"), "Letter": Wanted(paper="Letter")}


@cache
def _big(folder: Path) -> tuple[AsBuilt, Assessment]:
    lay_out(folder)
    asbuilt = build(read_folder(folder).description)
    return asbuilt, assess(asbuilt, stages())


@pytest.fixture(scope="module")
def big(tmp_path_factory: pytest.TempPathFactory) -> tuple[AsBuilt, Assessment]:
    """The big aeroplane, assessed once."""
    return _big(tmp_path_factory.mktemp("big"))


@pytest.mark.parametrize("medium", MEDIA)
def test_no_text_lies_on_another_or_off_the_sheet(big: tuple[AsBuilt, Assessment], medium: str) -> None:
    """On no sheet of the drawings, nor of the trays of one stretch, do two texts overlap or leave it."""
    names = ["whole", "trays", "balance", "section", "items", "main-tray-3", "nose-tray-6"]
    names += ["notes"] if MEDIA[medium].paper else []
    for one in sheet_set(*big, MEDIA[medium], names):
        sheet = DRAWINGS[one.name].make(*big, one.wanted)
        assert clashes(sheet) == [], one.stem
        assert off_the_sheet(sheet) == [], one.stem


@pytest.mark.parametrize("medium", ["A4", "Letter"])
def test_the_list_of_items_holds_each_once(big: tuple[AsBuilt, Assessment], medium: str) -> None:
    """The numbers on the sheets of items run from 1 to the last without a gap."""
    found: list[str] = []
    for one in sheet_set(*big, MEDIA[medium], ["items"]):
        shapes = DRAWINGS["items"].make(*big, one.wanted).shapes
        found += [text.text for text in flat(shapes)
                  if isinstance(text, Text) and text.use == "dimension" and text.text.isdigit()]  # fmt: skip
    assert found == [str(k) for k in range(1, len(big[0].items) + 1)]


def test_stretches_of_trays_hold_each_tray_once(big: tuple[AsBuilt, Assessment]) -> None:
    """Every tray is in one of the stretches, and there are several."""
    parts = [one.wanted.trays for one in sheet_set(*big, Wanted(), ["trays"])]
    assert len(parts) > 1
    assert sorted(one for part in parts for one in part) == sorted(tray.id for tray in big[0].trays)


def test_the_stretches_of_numbers_join(big: tuple[AsBuilt, Assessment]) -> None:
    """In a plan too dense for numbers the stretches' numbers follow one another up to the last."""
    found = [text.text for text in flat(DRAWINGS["whole"].make(*big, Wanted(paper="A4")).shapes)
             if isinstance(text, Text) and "–" in text.text and text.use == "dimension"]  # fmt: skip
    ends = [tuple(map(int, one.split("–"))) for one in found]
    assert ends[0][0] == 1
    assert ends[-1][1] == len(big[0].items)
    assert all(one[1] + 1 == other[0] for one, other in pairwise(ends))
