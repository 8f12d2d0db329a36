"""Drawings of aeroplanes that are barely described."""

from __future__ import annotations

import pytest

from hardstand.asbuilt import build
from hardstand.assessment import assess
from hardstand.description.read import read_texts
from hardstand.stages import stages
from hardstand.views.drawing import Wanted, draw
from tests.small_aeroplane import TEXT

BARE = 'format = 1\n[aeroplane]\nname = "Bare"\n'


@pytest.mark.parametrize("wanted", [Wanted(width_px=1440), Wanted(width_px=390), Wanted(paper="A4")])
@pytest.mark.parametrize("text", [BARE, TEXT])
def test_little_described_is_still_drawn(text: str, wanted: Wanted) -> None:
    """Neither bays, panels, legs nor any result of an engine are needed for the sheets to be drawn."""
    asbuilt = build(read_texts({"aeroplane.toml": text}).description)
    assessment = assess(asbuilt, stages() if text == TEXT else ())
    for name in ("whole", "balance"):
        assert draw(name, asbuilt, assessment, wanted).startswith("<svg")


def test_without_trays_there_is_no_sheet_of_trays() -> None:
    """The error says that no tray is described."""
    asbuilt = build(read_texts({"aeroplane.toml": BARE}).description)
    with pytest.raises(KeyError, match="no tray is described"):
        draw("trays", asbuilt, assess(asbuilt, ()))
