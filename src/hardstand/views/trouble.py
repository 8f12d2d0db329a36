"""One trouble that stops a command, in a sentence, with what to do about it."""

from __future__ import annotations

from hardstand.views.flow import flow
from hardstand.views.ink import Line, line


def trouble_page(what: str, hint: str, measure: int) -> list[Line]:
    """The sentence in strong ink and the hint under it.

    >>> from hardstand.views.ink import text_of
    >>> for one in trouble_page("There is no stage fitt.", "Did you mean fit?", 60): print(text_of(one))
    There is no stage fitt.
    Did you mean fit?
    """
    return [*flow(line((what, "strong")), measure), *(flow(hint, measure) if hint else [])]
