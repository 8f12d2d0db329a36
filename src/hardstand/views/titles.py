"""The head of a page: what it is about on the left, what it comes to on the right, a thick line."""

from __future__ import annotations

from hardstand.views.flow import flow
from hardstand.views.ink import Line, line, printable, width_of
from hardstand.views.table import rule


def title(name: str, right: str, measure: int, under: str = "") -> list[Line]:
    """A head with its thick line, and a quiet line under it where there is more to say.

    >>> from hardstand.views.ink import text_of
    >>> for one in title("Tarnwing 20", "2 notes", 30): print(text_of(one))
    Tarnwing 20            2 notes
    ━━━━━━━━━━━━━━━━━━━━━━━━━━━━━━
    """
    left = printable(name)
    room = measure - width_of(left) - width_of(right)
    if room >= 2:
        head = [line((left, "strong"), " " * room, right)]
    else:
        head = [*flow(left, measure, ink="strong"), *flow(right, measure)]
    below = flow(under, measure, ink="quiet") if under else []
    return [*head, rule(measure, "plain", "━"), *below]
