"""The sections that a mesh was cut into."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.views.flow import flow
from hardstand.views.ink import Line, printable
from hardstand.views.number import shown
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title


def sections_page(bay: str, file: str, sections: Sequence[Mapping[str, Any]], measure: int,
                  *, is_new: bool) -> list[Line]:
    """Sections in their JSON form, from front to back.

    >>> from hardstand.views.ink import text_of
    >>> one = {"x_mm": 120.0, "half_width_mm": 58.2, "top_mm": 44.0, "bottom_mm": -61.5,
    ...        "height_mm": 105.5, "points": 48}
    >>> for row in sections_page("nose", "hull.stl", [one], 60, is_new=True)[3:]: print(text_of(row))
    station   half width  top      bottom    height    corners
    ────────  ──────────  ───────  ────────  ────────  ───────
    120.0 mm  58.2 mm     44.0 mm  −61.5 mm  105.5 mm       48
    """
    count = "1 section" if len(sections) == 1 else f"{len(sections)} sections"
    head = title(f"Bay {bay}", f"{count} of {printable(file)}", measure)
    said = "The bay is new." if is_new else "The sections join those that the bay has."
    lengths = ("x_mm", "half_width_mm", "top_mm", "bottom_mm", "height_mm")
    rows: list[tuple[Cell, ...]] = [
        (*(shown(one[key], "mm") for key in lengths), str(one["points"])) for one in sections]
    columns = (Column("station", "figure"), Column("half width", "figure"), Column("top", "figure"),
               Column("bottom", "figure"), Column("height", "figure", 1), Column("corners", "right", 2))
    return [*head, *flow(said, measure, ink="quiet"), *table(columns, rows, measure)]
