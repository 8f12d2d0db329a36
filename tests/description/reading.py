"""Reading small texts in tests: what is wrong with them, in a few words."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.description.problems import Problem, UnreadableError
from hardstand.description.read import Read, read_texts
from tests.aeroplanes import PARTS, SMALL, texts

HEAD = 'format = 1\n[aeroplane]\nname = "Bare"\n'


def read(
    main: str = SMALL, measurements: str = "", parts: str = PARTS, options: Sequence[str] = ()
) -> Read:
    """The description of these texts; raises UnreadableError."""
    return read_texts(texts(main, measurements, parts), options)


def problems(
    main: str = SMALL, measurements: str = "", parts: str = PARTS, options: Sequence[str] = ()
) -> tuple[Problem, ...]:
    """What is wrong with these texts; empty where they can be read."""
    try:
        read(main, measurements, parts, options)
    except UnreadableError as error:
        return error.problems
    return ()


def only(
    main: str = SMALL, measurements: str = "", parts: str = PARTS, options: Sequence[str] = ()
) -> Problem:
    """The one thing that is wrong with these texts."""
    found = problems(main, measurements, parts, options)
    assert len(found) == 1, [(one.file, one.line, one.where, one.what) for one in found]
    return found[0]


def line_of(text: str, piece: str) -> int:
    """The line on which a piece stands that occurs once in a text."""
    assert text.count(piece) == 1, f"{piece!r} stands {text.count(piece)} times"
    return text[: text.index(piece)].count("\n") + 1
