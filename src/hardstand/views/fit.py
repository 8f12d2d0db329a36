"""The page of `show fit`: the tightest clearances first, then gyros, aerials and the rest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System
from hardstand.views.flow import flow
from hardstand.views.ink import BLANK, Line, line
from hardstand.views.number import figure_shown, limit_said, shown
from hardstand.views.table import Cell, Column, table

_MOST = 10
# Shape says it as in the findings: inside a tick, outside a square, between a dimension's bar.
_MARKS = {"inside": "✓", "outside": "■", "between": "↔"}
_COLUMNS = (Column(""), Column("figure", "figure"), Column("limit", rank=1),
            Column("spare", "figure", rank=3), Column("of", flowed=True, least=24),
            Column("rule", rank=2))


def fit_lines(form: Mapping[str, Any], measure: int, wide: int, system: System = "metric",
              *, every: bool = False) -> list[Line]:
    """The whole of the fit from its JSON form; `every` shows the long lists whole."""
    lines: list[Line] = []
    for name, rows in form["groups"].items():
        if rows:
            lines += _group(name, rows, min(wide, 140), system, every=every)
    lines += [made for gap in form["gaps"] for made in (BLANK, *flow(gap["text"], measure))]
    if form["outside_bays"]:
        items = ", ".join(form["outside_bays"])
        lines += [BLANK, *flow(f"In no described bay, so not held against a shell: {items}.", measure)]
    return lines


def _group(name: str, rows: Sequence[Mapping[str, Any]], measure: int, system: System,
           *, every: bool) -> list[Line]:
    kept = rows if every else rows[:_MOST]
    cells: list[tuple[Cell, ...]] = [
        ((_MARKS[one["outcome"]], "strong"), figure_shown(one["figure"], system),
         limit_said(one["limit"], system), shown(one["spare"], one["figure"]["unit"], None, system),
         ", ".join(one["about"]), one["code"].removeprefix("fit.")) for one in kept]
    left = len(rows) - len(kept)
    more = [line((f"and {left} more with more to spare; --all shows them", "quiet"))] if left else []
    title = name.replace("-", " ").replace("_", " ")
    return [BLANK, line((f"{title[:1].upper()}{title[1:]}, the tightest first", "quiet")),
            *table(_COLUMNS, cells, measure), *more]
