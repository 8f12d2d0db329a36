"""Findings as notes: none is lost in silence, none is longer than the room that notes have."""

from __future__ import annotations

import pytest

from hardstand.findings import Finding
from hardstand.views.drawing.kinds import PAPER, SCREEN, Medium
from hardstand.views.drawing.notes import note, note_height
from hardstand.views.drawing.shapes import Text, flat


@pytest.mark.parametrize("medium", [SCREEN, PAPER])
def test_a_note_that_has_no_end_is_cut_and_says_so(medium: Medium) -> None:
    """A text of thousands of words takes 24 rows, the last of which tells where the rest stands."""
    words = " ".join(f"lead-{number}" for number in range(3000))
    wide = 400.0 * medium.unit
    shapes = flat([note(Finding("fit.x", "note", ("a",), words), 1, "", (0.0, 0.0, wide, 0.0), medium)])
    rows = [one.text for one in shapes if isinstance(one, Text) and one.use == "note"]
    assert len(rows) == 24
    assert rows[-1] == "and more: `hardstand check` has all of it."
    assert rows[0].startswith("lead-0 lead-1 ")
    assert note_height(Finding("fit.x", "note", ("a",), words), wide, medium) == (18.0 * 25 + 12.0) * medium.unit


def test_a_note_of_some_rows_stands_whole() -> None:
    """What has room is not cut: joined, its rows are its text."""
    words = " ".join(f"lead-{number}" for number in range(60))
    shapes = flat([note(Finding("fit.x", "note", ("a",), words), 1, "", (0.0, 0.0, 100.0, 0.0), PAPER)])
    assert " ".join(one.text for one in shapes if isinstance(one, Text) and one.use == "note") == words
