"""What a drawing is wanted for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.views.drawing.paper import Paper
from hardstand.views.drawing.title_block import NO_ISSUE, Issue


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a drawing is wanted for: a screen of some width in px, or a paper.

    `tray` is the id of one tray, `trays` those of several in one stretch, `x_mm` the station of a
    section, `sections` the stations whose planes are marked in other views, `selected` ids that are
    marked, `part` which of several sheets, from 0, where a drawing does not fit on one.
    """

    width_px: float = 1440.0
    paper: Paper | None = None
    tray: str | None = None
    trays: tuple[str, ...] = ()
    x_mm: float | None = None
    sections: tuple[float, ...] = ()
    selected: Sequence[str] = ()
    part: int = 0
    issue: Issue = NO_ISSUE
    sheet: str = ""
