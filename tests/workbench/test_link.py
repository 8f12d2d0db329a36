"""What the terminal shows: a link for a browser, and the square for a phone's camera."""

from __future__ import annotations

import io

from hardstand.cli.serve import shown
from hardstand.cli.talk import talk_on

LAN = ["http://192.0.2.7:8620", "http://127.0.0.1:8620", "http://localhost:8620"]


def said(origins: list[str], *, square: bool) -> str:
    """What a code puts on the terminal."""
    out = io.StringIO()
    shown(talk_on(out, io.StringIO(), {"COLUMNS": "120"}), origins, with_square=square)("a-code")
    return out.getvalue()


def test_the_link_is_printed_whole() -> None:
    """The address and the code stand on one line, to be clicked or copied."""
    assert "http://127.0.0.1:8620/enter#a-code\n" in said(LAN[1:], square=False)


def test_for_the_network_there_is_a_square() -> None:
    """With the network's address a code square is drawn above the link."""
    text = said(LAN, square=True)
    assert text.count("\n") > 15
    assert any(one in text for one in "█▀▄")
    assert "http://192.0.2.7:8620/enter#a-code" in text
