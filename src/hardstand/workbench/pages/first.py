"""The first page: the whole aeroplane, the verdict, what is worst, what to do next."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from hardstand.views.drawing.headings import tally_words
from hardstand.workbench.asked import Asked, Common, common
from hardstand.workbench.drawn.first import first_drawing
from hardstand.workbench.drawn.inline import inline
from hardstand.workbench.drawn.kept import Drawings
from hardstand.workbench.findings import Note, notes_of

WIDTH, HEIGHT = 690.0, 756.0  # px: beside verdict and notes, on a screen of 1440 by 900
_DRAWINGS = Drawings()


@dataclass(frozen=True)
class FirstPage:
    """`worst` and `rest` are the verdict's first line and what follows it; `next` the finding to begin with."""

    common: Common
    drawing: Markup
    worst: str
    rest: str
    next: Note | None
    notes: list[Note]


def first(asked: Asked) -> FirstPage:
    """What the first page shows."""
    held = asked.held
    drawn = _DRAWINGS.get_or((held.digest, held.workspace.options),
                             lambda: first_drawing(held.asbuilt, held.assessment, WIDTH, HEIGHT))  # fmt: skip
    notes = notes_of(held.form, drawn.zones)
    worst, rest = tally_words(held.assessment)
    return FirstPage(common(asked, "", "Whole aeroplane", "plan, elevation, all items"),
                     inline(drawn.sheet, "whole"), worst, rest, _next(notes), notes)  # fmt: skip


def _next(notes: list[Note]) -> Note | None:
    """What to begin with: the worst finding that has a way out, else the worst that must be settled."""
    pressing = [one for one in notes if one.finding["severity"] in ("no-go", "measure")]
    worst = [one for one in pressing if one.finding["severity"] == pressing[0].finding["severity"]]
    return next((one for one in worst if one.finding["remedy"]), worst[0] if worst else None)
