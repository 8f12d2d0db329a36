"""The widths that texts are laid out by are those of the vendored lettering."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

import hardstand
from hardstand.views.drawing.kinds import PAPER, SCREEN
from hardstand.views.drawing.lettering import shortened, width, wrapped

LOOK = Path(hardstand.__file__).parent / "data" / "look"
FONTS = {"lettering": "hardstand-lettering.woff2", "lettering-narrow": "hardstand-lettering-narrow.woff2",
         "notes": "encode-sans.woff2"}  # fmt: skip


@pytest.mark.parametrize("face", FONTS)
def test_the_table_holds_the_advance_widths_of_the_font(face: str) -> None:
    """Every letter's width agrees with the font file to half a thousandth of its size.

    Sentences are set with tabular figures, whose signs are of other widths than the usual ones.
    """
    pytest.importorskip("fontTools", reason="fontTools is not installed: fonts cannot be read")
    pytest.importorskip("brotli", reason="brotli is not installed: woff2 cannot be unpacked")
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]
    from fontTools.varLib.instancer import (  # type: ignore[import-untyped]
        instantiateVariableFont,
    )

    font = TTFont(LOOK / "fonts" / FONTS[face])
    if "fvar" in font:
        font = instantiateVariableFont(font, {"wght": 400, "wdth": 84})
    table = json.loads((LOOK / "widths.json").read_text(encoding="utf-8"))[face]
    size, metrics, letters = font["head"].unitsPerEm, font["hmtx"].metrics, font.getBestCmap()
    tabular = _tabular(font)
    assert set(table) == {chr(code) for code in letters if code >= 32}
    for code, name in letters.items():
        if code >= 32:
            assert table[chr(code)] == pytest.approx(1000.0 * metrics[tabular.get(name, name)][0] / size, abs=0.51)


def _tabular(font: Any) -> dict[str, str]:
    """The glyphs that stand in for others where tabular figures are asked for."""
    found: dict[str, str] = {}
    if "GSUB" in font:
        table = font["GSUB"].table
        for record in table.FeatureList.FeatureRecord:
            if record.FeatureTag == "tnum":
                for index in record.Feature.LookupListIndex:
                    for one in table.LookupList.Lookup[index].SubTable:
                        found |= one.mapping
    return found


def test_figures_of_a_face_are_all_as_wide_as_one_another() -> None:
    """Columns of figures align: in all three faces the ten figures have one width."""
    table = json.loads((LOOK / "widths.json").read_text(encoding="utf-8"))
    for face in FONTS:
        assert len({table[face][one] for one in "0123456789"}) == 1


def test_a_letter_that_the_face_lacks_counts_as_its_widest() -> None:
    """A width is never too small, whatever script a name is written in."""
    assert width("語", "name", SCREEN) >= width("W", "name", SCREEN)


@pytest.mark.parametrize("medium", [SCREEN, PAPER])
def test_wrapped_lines_keep_to_their_measure_and_lose_no_word(medium: object) -> None:
    """Joined again the lines give the text, and none is too wide."""
    text = "The inside of the tanks is not stated: the outside was shrunk until it holds the capacity."
    measure = 200.0 * medium.unit  # type: ignore[attr-defined]
    lines = wrapped(text, "note", medium, measure)  # type: ignore[arg-type]
    assert " ".join(lines) == text
    assert max(width(one, "note", medium) for one in lines) <= measure  # type: ignore[arg-type]


def test_a_shortened_text_fits_and_says_that_it_was_cut() -> None:
    """It ends in points and is no wider than asked."""
    found = shortened("Telemetry hub with air-speed sensor", "name", SCREEN, 90.0)
    assert found.endswith("...")
    assert width(found, "name", SCREEN) <= 90.0
    assert shortened("Gyro", "name", SCREEN, 90.0) == "Gyro"
