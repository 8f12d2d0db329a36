from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hardstand.views.flow import flow
from hardstand.views.ink import line, text_of, width_of

TEXTS = st.text(alphabet="ab .±0123456789m機é-@/", max_size=200)


@given(TEXTS, st.integers(8, 60), st.integers(0, 4))
def test_no_line_is_wider_than_the_measure(text: str, measure: int, hang: int) -> None:
    """However long its words are, no line of a flowed text runs out of the page."""
    assert all(width_of(text_of(one)) <= measure for one in flow(text, measure, hang))


@given(TEXTS, st.integers(8, 60))
def test_no_sign_is_lost(text: str, measure: int) -> None:
    """All that is not white space comes out in the order it went in."""
    found = "".join(text_of(one) for one in flow(text, measure))
    assert "".join(found.split()) == "".join(text.split())


def test_a_figure_is_not_torn() -> None:
    """A number, its tolerance and its unit stay on one line."""
    lines = [text_of(one) for one in flow("The clearance is 250 ± 4 mm here", 20)]
    assert "250 ± 4 mm" in " | ".join(lines)


def test_ink_is_kept_over_a_break() -> None:
    """Each word keeps its ink when the line breaks inside a strong run."""
    made = flow(line("plain ", ("strong words here", "strong")), 12)
    inks = {text.strip(): ink for one in made for text, ink in one}
    assert inks["plain"] == "plain"
    assert inks["words here"] == "strong"


def test_a_file_cannot_steer_the_terminal() -> None:
    """Control signs from a description are shown, never sent."""
    assert "\x1b" not in text_of(flow("a\x1b[2Jb", 40)[0])
