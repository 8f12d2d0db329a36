from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.views.finding import MARKS
from hardstand.views.ink import line
from hardstand.views.paint import narrowed, paint


def test_plain_has_no_escape() -> None:
    """Without colour only the characters remain."""
    assert paint([line(("no-go", "reversed"), (" x", "accent"))], colour=False) == "no-go x\n"


def test_every_ink_is_closed() -> None:
    """An ink never runs on into what follows."""
    painted = paint([line(("a", "strong"), "b", ("c", "accent"))], colour=True)
    assert painted == "\x1b[1ma\x1b[0mb\x1b[1;31mc\x1b[0m\n"


@pytest.mark.parametrize("encoding", ["ascii", "cp1252", "cp437", "latin-1", "nonsense"])
@given(st.text(max_size=40))
def test_any_text_fits_any_encoding(encoding: str, text: str) -> None:
    """What is written to a narrow stream can be written to it."""
    found = narrowed(text + "−±→■", encoding)
    if encoding != "nonsense":
        found.encode(encoding)


def test_marks_stay_apart_in_a_narrow_encoding() -> None:
    """The four marks of severity remain four different ones, and the word stands beside them."""
    assert len({narrowed(mark, "ascii") for mark in MARKS.values()}) == len(MARKS)
