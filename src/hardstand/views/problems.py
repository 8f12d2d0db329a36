"""Why a folder could not be read: every fault with its place, what stands there, what to do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line
from hardstand.views.titles import title
from hardstand.views.words import sentence

UNREAD = "The aeroplane could not be read"


def problems_page(problems: Sequence[Mapping[str, Any]], measure: int, head: str = UNREAD) -> list[Line]:
    """All problems in their JSON form, in the order of the files and lines.

    >>> from hardstand.views.ink import text_of
    >>> slip = {"file": "aeroplane.toml", "line": 41, "where": "item hub, on", "found": '"frnt"',
    ...         "what": "there is no tray frnt", "expected": "one of front", "hint": "write front"}
    >>> for one in problems_page([slip], 60)[3:]: print(text_of(one))
    aeroplane.toml:41  item hub, on
      There is no tray frnt.
      stands there  "frnt"
      expected      one of front
      do this       write front
    """
    number = len(problems)
    count = "1 problem" if number == 1 else f"{number} problems"
    lines = title(head, count, measure)
    for one in problems:
        lines += [BLANK, *_problem(one, measure)]
    return lines


def _problem(one: Mapping[str, Any], measure: int) -> list[Line]:
    place = one["file"] if one["line"] is None else f"{one['file']}:{one['line']}"
    head = line((place, "strong"), f"  {one['where']}" if one["where"] else "")
    body = flow(sentence(one["what"]), measure - 2)
    for label, key in (("stands there", "found"), ("expected", "expected"), ("do this", "hint")):
        if one[key]:
            body += flow(line((f"{label:<14}", "quiet"), one[key]), measure - 2, hang=14)
    return [*flow(head, measure, hang=2), *indented(body, 2)]
