"""A list of figures with their values, by stage."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from hardstand.standards.units import System
from hardstand.views.ink import BLANK, Line, line
from hardstand.views.number import figure_shown
from hardstand.views.table import Cell, Column, table
from hardstand.views.titles import title


def figures_page(figures: Sequence[Mapping[str, Any]], measure: int, wide: int,
                 system: System = "metric") -> list[Line]:
    """Figures in their JSON form, in the order in which they were worked out."""
    count = "1 figure" if len(figures) == 1 else f"{len(figures)} figures"
    columns = (Column("figure"), Column("value", "figure"), Column("", rank=1, flowed=True, least=24))
    rows: list[tuple[Cell, ...]] = [
        ((one["address"], "strong"), figure_shown(one, system), one["label"]) for one in figures]
    return [*title("Figures", count, measure), *table(columns, rows, min(wide, 140)), BLANK,
            line(("`hardstand trace FIGURE` shows where one came from.", "quiet"))]
