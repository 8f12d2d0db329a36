"""What was laid out, and what to do next."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, indented, line, printable
from hardstand.views.table import Cell, Column, table


def laid_out_lines(folder: str, files: Sequence[str], measure: int) -> list[Line]:
    """The files that were written (none: the folder was left as it was), and what makes sense now."""
    where = printable(folder)
    rows: list[tuple[Cell, ...]] = [
        ((f"hardstand check {where}", "strong"), "what is wrong, and what is not assessed"),
        ((f"hardstand show balance {where}", "strong"), "CG, margin and mass in every state"),
        ((f"hardstand trace 'balance.cg*' {where}", "strong"), "where a number came from")]
    steps = table((Column(""), Column("", flowed=True)), rows, measure - 2, head=False)
    what = ", ".join(files) or "was already there and was left as it is"
    head = flow(line((where, "strong"), f"  {what}"), measure, hang=2)
    return [BLANK, *head, *indented(steps, 2)]
