"""Tables of a stage that stand alike in the terminal and on a page: a title, rows, what is said below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, line, text_of
from hardstand.views.table import Cell, Column, table


@dataclass(frozen=True)
class Plate:
    """One table. `first` are the rows that matter most, `others` those that a short list leaves out.

    `left` says what is left out where not only rows like those shown are; `said` is a sentence or two
    below. `within` has for each of `first` and `others` what lies behind the row, one line each.
    """

    title: str
    columns: tuple[Column, ...]
    first: Sequence[Sequence[Cell]]
    others: Sequence[Sequence[Cell]] = ()
    left: str = ""
    said: str = ""
    within: Sequence[Sequence[str]] = ()

    def lines(self, room: int, *, every: bool = False) -> list[Line]:
        """The table for a terminal, `room` cells wide; `every` shows the others as well.

        >>> made = Plate("Rails", (Column("rail"), Column("volts", "figure")), [("hub", "7 V")], [("rx", "6 V")])
        >>> for one in made.lines(40): print(text_of(one).rstrip())
        <BLANKLINE>
        Rails
        rail  volts
        ────  ─────
        hub    7 V
        and 1 more; --all shows them
        """
        rows = [*self.first, *(self.others if every else ())]
        lines = [BLANK, line((self.title, "quiet"))]
        lines += table(self.columns, rows, room) if rows else []
        if self.others and not every:
            more = self.left or f"and {len(self.others)} more"
            lines.append(line((f"{more}; --all shows them", "quiet")))
        return [*lines, *(flow(self.said, room, ink="quiet") if self.said else [])]


def cell_text(cell: Cell) -> str:
    """The characters of a cell without its ink.

    >>> cell_text("hub"), cell_text(("hub", "strong")), cell_text(line("a", ("b", "quiet")))
    ('hub', 'hub', 'ab')
    """
    if isinstance(cell, str):
        return cell
    return text_of(line(cell) if isinstance(cell[0], str) else cell)


def parted(rows: Sequence[Sequence[Cell]], most: int) -> tuple[Sequence[Sequence[Cell]], Sequence[Sequence[Cell]]]:
    """The first rows of a long table, and the others.

    >>> parted([("a",), ("b",)], 1)
    ([('a',)], [('b',)])
    """
    return rows[:most], rows[most:]
