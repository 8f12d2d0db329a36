"""A row's new id with every place that names it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line, printable
from hardstand.views.table import Cell, Column, table


def renamed_page(row: str, new: str, places: Sequence[Mapping[str, Any]], measure: int) -> list[Line]:
    """The places, in their JSON form, in the order of the files.

    >>> from hardstand.views.ink import text_of
    >>> lead = {"where": "lead L1, from", "file": "aeroplane.toml", "line": 12}
    >>> for one in renamed_page("item.rx", "receiver", [lead], 60)[:3]: print(text_of(one))
    item.rx → receiver
      in 1 place
      lead L1, from  aeroplane.toml:12
    """
    head = flow(line((printable(row), "strong"), " → ", (printable(new), "accent")), measure)
    count = "1 place" if len(places) == 1 else f"{len(places)} places"
    rows: list[tuple[Cell, ...]] = [
        (printable(one["where"]), (f"{one['file']}:{one['line']}", "quiet")) for one in places]
    body = table((Column("", flowed=True), Column("")), rows, measure - 2, head=False)
    kept = (f"{row.partition('.')[2]} stays as its former id: what was recorded under it is still "
            "found. Names, notes and comments stay as they are.")
    return [*head, *indented([line((f"in {count}", "quiet")), *body], 2), BLANK,
            *flow(printable(kept), measure, ink="quiet")]
