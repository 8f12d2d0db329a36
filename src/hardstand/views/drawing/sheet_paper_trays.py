"""A tray, or all of them, on A4 or Letter.

One tray stands left of its table and notes. A stretch of trays goes across the sheet where that makes
it larger: places are then read from the sheet of each tray.
"""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.boxes import Box
from hardstand.views.drawing.frame import paper_frame
from hardstand.views.drawing.headings import marks_left_out, names_left_out
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.paper import CONTENT_MM, PAPERS, SCALES, Paper, scale_text
from hardstand.views.drawing.paper_foot import paper_foot
from hardstand.views.drawing.region import Region, region_of
from hardstand.views.drawing.region_drawing import draw_region, set_region
from hardstand.views.drawing.shapes import Shape
from hardstand.views.drawing.sheet_trays import (
    HEADS,
    about_region,
    item_rows,
    subtitle,
    wanted_trays,
)
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.table import table
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, TitleBlock
from hardstand.views.drawing.wanted import Wanted

_PAD_MM = 5.0


def tray_paper(
    asbuilt: AsBuilt,
    assessment: Assessment,
    paper: Paper,
    wanted: Wanted,
) -> Sheet:
    """A tray, or without an id all of them, in the largest standard scale that fits the paper."""
    trays, title = wanted_trays(asbuilt, wanted)
    region = region_of(asbuilt, trays)
    frame = paper_frame(*PAPERS[paper])
    left, top, right, bottom = frame.border
    column = right - PAPER_SIZE_MM[0]
    beside = (left + _PAD_MM, top + 2.0, column - 4.0, top + CONTENT_MM[1] - 2.0)
    over = (left + _PAD_MM, top + 2.0, left + CONTENT_MM[0] - 2.0, top + CONTENT_MM[1] - PAPER_SIZE_MM[1] - 1.0)
    across = len(trays) > 1 and _scale(region, over) > _scale(region, beside)
    room = over if across else beside
    scale = _scale(region, room)
    at = set_region(region, room, scale, PAPER)
    findings = numbered(assessment, about_region(asbuilt, region))
    drawn = draw_region(asbuilt, assessment, region, at, findings, frame, PAPER, wanted)
    rows = item_rows(asbuilt, region, wanted.selected, drawn.numbered)
    listed: tuple[Shape, ...] = ()
    notes_at = (left, at.bottom)
    if not across:
        listed, end = table(HEADS, rows, (column + 3.0, top + 4.0), right - column - 6.0, PAPER,
                            bottom - PAPER_SIZE_MM[1] - 44.0)  # fmt: skip
        notes_at = (column, end + 4.0)
    block = TitleBlock(asbuilt.aeroplane.name, title, subtitle(region), scale_text(scale),
                       wanted.sheet or "2", wanted.issue)  # fmt: skip
    told = [*names_left_out(drawn.left_out, "see the sheet of each tray" if across else "see the table"),
            *marks_left_out(drawn.marks.unplaced)]  # fmt: skip
    foot = paper_foot(frame, findings, drawn.marks.zones, block, notes_at, told, at.plan, beside=across)
    said = f"{len(rows)} items on {len(trays)} trays, plan and elevation"
    name = f"{asbuilt.aeroplane.name}: {title}, {block.scale}"
    return Sheet(frame.width, frame.height, PAPER, name, said, (*drawn.shapes, *listed, *foot))


def _scale(region: Region, room: Box) -> float:
    """The largest standard scale at which the views of a region, with their lettering, fit a room."""
    edges = 10.0 + (14.0 if len(region.trays) == 1 else 0.0)
    for one in SCALES:
        wide = (region.x_mm[1] - region.x_mm[0]) * one + edges
        if wide <= room[2] - room[0] and set_region(region, room, one, PAPER).bottom <= room[3]:
            return one
    return SCALES[-1]
