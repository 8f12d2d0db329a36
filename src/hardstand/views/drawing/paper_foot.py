"""What every printed sheet has: border, title block, notes, remarks and a scale bar."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hardstand.views.drawing.frame import Frame, frame_shapes
from hardstand.views.drawing.headings import remarks
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.lettering import wrapped
from hardstand.views.drawing.notes import Numbered, notes
from hardstand.views.drawing.ruler import scale_bar
from hardstand.views.drawing.shapes import Group, Placement, Point, Shape
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, TitleBlock, paper_title_block

_LEAST_MM = 70.0  # width of a column of notes that can be read


def paper_foot(
    frame: Frame,
    findings: Sequence[Numbered],
    zones: Mapping[int, str],
    block: TitleBlock,
    at: Point,
    told: Sequence[str],
    on: Placement | None,
    *,
    beside: bool = False,
) -> tuple[Shape, ...]:
    """The foot of a printed sheet. Notes begin at `at` and end above the title block, or `beside` it.

    `told` are remarks; `on` the placement whose scale the bar shows, None for a chart.
    """
    _, _, edge, bottom = frame.border
    right = edge - PAPER_SIZE_MM[0] if beside else edge
    low = bottom if beside else bottom - PAPER_SIZE_MM[1]
    narrow = right - at[0] < _LEAST_MM
    if narrow and findings:
        told = (*told, f"{len(findings)} findings: see the sheets of notes.")
    measure = right - at[0] - 6.0
    rows = [row for one in told for row in wrapped(one, "micro", PAPER, measure)]
    kept = (14.0 if on is not None else 2.0) + 4.0 * len(rows) + 1.0
    listed, _ = ((), 0.0) if narrow else notes(findings, zones, (at[0], at[1], right - 1.0, low - kept), PAPER)
    bar: tuple[Shape, ...] = ()
    if on is not None:
        bar = (Group("", "scale-bar", scale_bar(at[0] + 3.0, low - 6.0, on, PAPER, 50.0)),)
    return (
        *frame_shapes(frame, PAPER),
        Group("", "notes", listed),
        *remarks((at[0] + 3.0, low - kept + 3.0), told, PAPER, measure),
        *bar,
        Group("", "title-block", paper_title_block(block, edge, bottom)),
    )
