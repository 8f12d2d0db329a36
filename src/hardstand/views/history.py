"""The revisions of an aeroplane: number, time, who, why; and its options."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, line
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title


def history_page(revisions: Sequence[Mapping[str, Any]], measure: int, wide: int) -> list[Line]:
    """Revisions in their JSON form, the latest first."""
    count = "1 revision" if len(revisions) == 1 else f"{len(revisions)} revisions"
    rows: list[tuple[Cell, ...]] = [
        ((one["name"], "strong"), local_time(one["when"]), one["why"], one["who"])
        for one in reversed(revisions)]
    columns = (Column("", "right"), Column("when"), Column("what", flowed=True, least=24),
               Column("who", rank=1))
    lines = title("History", count, measure)
    if not rows:
        return [*lines, *flow("Nothing has been written by the program yet.", measure)]
    return [*lines, *table(columns, rows, min(wide, 120)), BLANK,
            line(("`hardstand undo` goes back by one, `hardstand redo` forward again.", "quiet"))]


def local_time(when: str) -> str:
    """A time of the history as a person reads it here.

    >>> len(local_time("2026-05-01T10:00:00+00:00"))
    16
    """
    try:
        return datetime.fromisoformat(when).astimezone().strftime("%Y-%m-%d %H:%M")
    except ValueError:
        return when


def options_page(options: Sequence[Mapping[str, Any]], measure: int, wide: int) -> list[Line]:
    """The options of an aeroplane in their JSON form."""
    count = "1 option" if len(options) == 1 else f"{len(options)} options"
    lines = title("Options", count, measure)
    if not options:
        return [*lines, *flow("The description holds no options. An [[option]] names another set of "
                              "values, to be compared with the first.", measure)]
    rows: list[tuple[Cell, ...]] = [
        ((one["id"], "strong"), str(one["changes"]), "; ".join(filter(None, (one["name"], one["note"]))))
        for one in options]
    columns = (Column("option"), Column("changes", "right", rank=1), Column("", flowed=True, least=20, rank=2))
    return [*lines, *table(columns, rows, min(wide, 140)), BLANK,
            *flow("`hardstand compare` puts them side by side, `hardstand check --option NAME` lays one over "
                  "the description.", measure, ink="quiet")]
