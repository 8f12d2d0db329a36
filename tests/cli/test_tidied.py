from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.cli.begin import MOMENTS, demo_texts
from hardstand.cli.beginning import beginning
from hardstand.cli.tidied import NotTidiedError, tidied
from tests.small_aeroplane import TEXT, laid_out, ran

LINES = st.lists(
    st.sampled_from(
        [
            "",
            "  ",
            "# remark",
            "   # indented",
            "a=1",
            'b  =  "x = y  "  ',
            "c = [1,\n   2,  # two  \n 3]",
            "[t]",
            "[[row]]",
            " [[row]] # here",
            'd = """\n  keep  \n\n\n\n  = this  """',
            "e = '''\n[x]  \n'''",
            "f.g = 1",
            "h = { i = 1 }",
        ]
    ),
    max_size=12,
)


@given(LINES, st.booleans())
def test_only_white_space_changes(lines: list[str], windows: bool) -> None:
    """Data, comments and newlines stay as they were, and a tidy text stays as it is."""
    text = "\n".join(lines)
    text = text.replace("\n", "\r\n") if windows else text
    try:
        before = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        with pytest.raises(NotTidiedError):
            tidied(text)
        return
    made = tidied(text)
    assert tomllib.loads(made) == before
    assert "".join(made.split()) == "".join(text.split())
    assert tidied(made) == made
    assert ("\r\n" in made) == ("\r\n" in text)


def test_tables_stand_apart() -> None:
    """A table has a blank line before it, above the comment that stands on it."""
    assert tidied("a=1\n# the left one\n[t]\nb=2\n[[r]]\n\n\n\n\n\nc=3") == (
        "a = 1\n\n# the left one\n[t]\nb = 2\n\n[[r]]\n\n\nc = 3\n"
    )


@pytest.mark.parametrize("moment", MOMENTS)
def test_the_demo_is_tidy(moment: str) -> None:
    """What the program lays out is tidy by its own measure."""
    assert all(tidied(text) == text for text in demo_texts(moment).values())


def test_a_new_file_is_tidy() -> None:
    """What `new` writes is tidy too."""
    assert tidied(beginning("Heron", 1800.0)) == beginning("Heron", 1800.0)


def test_fmt_writes_a_revision_and_check_does_not(tmp_path: Path) -> None:
    """`--check` only tells; `fmt` writes, and undo brings the untidy text back."""
    untidy = TEXT.replace("mass_g = 1000", "mass_g=1000")
    folder = laid_out(tmp_path / "jet", untidy)
    assert ran("fmt", folder, "--check")[0] == 1
    assert (folder / "aeroplane.toml").read_text() == untidy
    assert ran("fmt", folder)[0] == 0
    assert (folder / "aeroplane.toml").read_text() == TEXT
    assert ran("fmt", folder, "--check")[0] == 0
    ran("undo", folder)
    assert (folder / "aeroplane.toml").read_text() == untidy


@pytest.mark.parametrize("broken", ["\nbroken = ", f"\nbroken = {'9' * 5000}\n"])
def test_fmt_leaves_what_it_cannot_read(tmp_path: Path, broken: str) -> None:
    """A file that does not parse is refused and stays as it is; so is a number beyond all bounds."""
    folder = laid_out(tmp_path / "jet", TEXT + broken)
    status, _, talk = ran("fmt", folder)
    assert status == 2
    assert "itself failed" not in talk
    assert (folder / "aeroplane.toml").read_text() == TEXT + broken
