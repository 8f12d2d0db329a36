"""Tables set like the parts list of a drawing: quiet head, thin rule, figures under one another.

A column that does not fit is left out, the least needed first; text columns are flowed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from hardstand.views.flow import flow
from hardstand.views.ink import Ink, Line, Span, line, text_of, width_of

Cell = str | Span | Line
GAP = 2


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its head, how its cells stand, and how readily it is left out.

    `align` "figure" puts decimal points under one another. `flowed` lets the column take the width
    that is left and break its text, down to `least` cells. `rank` 0 is never left out; the highest
    rank goes first.
    """

    head: str
    align: Literal["left", "right", "figure"] = "left"
    rank: int = 0
    flowed: bool = False
    least: int = 16


def table(columns: Sequence[Column], rows: Sequence[Sequence[Cell]], measure: int,
          *, head: bool = True) -> list[Line]:
    """Rows under a head, no wider than `measure` cells.

    >>> from hardstand.views.ink import text_of
    >>> gaps = (Column("item"), Column("gap", "figure"))
    >>> made = table(gaps, (("hub", "3.25 mm"), ("rx", "12 mm")), 40)
    >>> for one in made: print(text_of(one).rstrip())
    item  gap
    ────  ────────
    hub    3.25 mm
    rx    12 mm
    """
    cells = [[_line(cell) for cell in row] for row in rows]
    kept = _kept(columns, cells, measure)
    chosen = [columns[index] for index in kept]
    body = [[row[index] for index in kept] for row in cells]
    set_columns = [_aligned(column, [row[at] for row in body]) for at, column in enumerate(chosen)]
    widths = [_width(column, set_columns[at], head=head) for at, column in enumerate(chosen)]
    _shrink_flowed(chosen, widths, measure)
    lines: list[Line] = []
    if head:
        lines.append(_join([line((one.head, "quiet")) for one in chosen], chosen, widths))
        lines.append(_join([line(("─" * width, "quiet")) for width in widths], chosen, widths))
    for at in range(len(body)):
        lines.extend(_row([column[at] for column in set_columns], chosen, widths))
    return lines


def _line(cell: Cell) -> Line:
    if isinstance(cell, str):
        return line(cell)
    if len(cell) == 2 and isinstance(cell[0], str):
        return line(cell)
    return cell


def _size(one: Line) -> int:
    return width_of(text_of(one))


def _width(column: Column, cells: Sequence[Line], *, head: bool) -> int:
    least = width_of(column.head) if head else 0
    return max([least, *(_size(cell) for cell in cells)])


def _kept(columns: Sequence[Column], cells: Sequence[Sequence[Line]], measure: int) -> list[int]:
    """The columns that fit, by index: the highest rank is left out until the rest does."""
    kept = list(range(len(columns)))

    def needed() -> int:
        sizes = [_width(columns[at], [row[at] for row in cells], head=True) for at in kept]
        sizes = [min(size, columns[at].least) if columns[at].flowed else size
                 for size, at in zip(sizes, kept, strict=True)]
        return sum(sizes) + GAP * (len(kept) - 1)

    while needed() > measure and any(columns[at].rank for at in kept):
        kept.remove(max(kept, key=lambda at: (columns[at].rank, at)))
    return kept


def _shrink_flowed(columns: Sequence[Column], widths: list[int], measure: int) -> None:
    spare = measure - sum(widths) - GAP * (len(widths) - 1)
    for at, column in reversed(list(enumerate(columns))):
        if spare < 0 and column.flowed:
            narrowed = max(widths[at] + spare, column.least)
            spare += widths[at] - narrowed
            widths[at] = narrowed


def _aligned(column: Column, cells: Sequence[Line]) -> list[Line]:
    """Cells of a figure column padded on the left so that their decimal points agree."""
    if column.align != "figure":
        return list(cells)
    heads = [_before_point(text_of(cell)) for cell in cells]
    most = max(heads, default=0)
    return [line(" " * (most - own), *cell) if cell else cell
            for own, cell in zip(heads, cells, strict=True)]


def _before_point(text: str) -> int:
    """Cells before the decimal point of a text's first number, or before its unit."""
    for at, sign in enumerate(text):
        if sign == "." or (sign == " " and at):
            return at
    return len(text)


def _row(cells: Sequence[Line], columns: Sequence[Column], widths: Sequence[int]) -> list[Line]:
    parts = [flow(cell, width) or [line()] if column.flowed and _size(cell) > width else [cell]
             for cell, column, width in zip(cells, columns, widths, strict=True)]
    height = max(len(part) for part in parts)
    return [_join([part[at] if at < len(part) else line() for part in parts], columns, widths)
            for at in range(height)]


def _join(cells: Sequence[Line], columns: Sequence[Column], widths: Sequence[int]) -> Line:
    joined: list[Span] = []
    for at, (cell, column, width) in enumerate(zip(cells, columns, widths, strict=True)):
        room: Span = (" " * max(width - _size(cell), 0), "plain")
        last = at == len(cells) - 1
        joined += [room, *cell] if column.align == "right" else [*cell, *(() if last else (room,))]
        if not last:
            joined.append((" " * GAP, "plain"))
    return tuple(span for span in joined if span[0])


def rule(measure: int, ink: Ink = "quiet", sign: str = "─") -> Line:
    """A line drawn across the measure.

    >>> rule(3)
    (('───', 'quiet'),)
    """
    return ((sign * measure, ink),)
