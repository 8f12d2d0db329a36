"""Tables of a sheet: heads in small letters, thin rules, figures aligned to the right."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.lettering import shortened, width
from hardstand.views.drawing.shapes import Group, Point, Shape, Text, line

ROW = 22.0  # design pixels


@dataclass(frozen=True, slots=True)
class Row:
    """A row: what it is about, its cells, and whether it is selected."""

    about: str
    cells: tuple[str, ...]
    selected: bool = False


def table(
    heads: Sequence[str],
    rows: Sequence[Row],
    at: Point,
    measure: float,
    medium: Medium,
    bottom: float = math.inf,
) -> tuple[tuple[Shape, ...], float]:
    """A table `measure` wide with its first column for names; the shapes, and where it ends.

    Columns after the first are figures. Too long a name is shortened; figures never are. Rows that
    would reach below `bottom` are counted in a last line.
    """
    unit, (left, top) = medium.unit, at
    pad = 14.0 * unit
    wide = [
        max(width(row.cells[k], "name", medium) for row in [Row("", tuple(heads)), *rows]) + pad
        for k in range(1, len(heads))
    ]
    ends = [left + measure - sum(wide[k + 1 :]) for k in range(len(wide))]
    first = measure - sum(wide) - 8.0 * unit
    shapes: list[Shape] = []
    base = top + 14.0 * unit
    for k, head in enumerate(heads):
        where, anchor = ((left, base), "start") if k == 0 else ((ends[k - 1], base), "end")
        shapes.append(Text("key", where, head, anchor, halo=False))  # type: ignore[arg-type]
    y = top + 20.0 * unit
    shapes.append(line("thin", (left, y), (left + measure, y)))
    for number, row in enumerate(rows):
        left_over = len(rows) - number
        y += ROW * unit
        if y + (ROW * unit if left_over > 1 else 0.0) > bottom:
            more = f"and {left_over} more"
            shapes.append(Text("micro", (left, y - 7.0 * unit), more, halo=False))
            break
        texts: list[Shape] = [Text("name", (left, y - 7.0 * unit),
                                   shortened(row.cells[0], "name", medium, first), halo=False)]  # fmt: skip
        texts += [Text("name", (ends[k], y - 7.0 * unit), cell, "end", halo=False)
                  for k, cell in enumerate(row.cells[1:])]  # fmt: skip
        texts.append(line("accent-thin" if row.selected else "rule", (left, y), (left + measure, y)))
        shapes.append(Group(row.about, "row", tuple(texts)))
    return tuple(shapes), y
