"""One cross-section on A4 or Letter: the section on the left, what it cuts and the notes on the right."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.frame import paper_frame
from hardstand.views.drawing.headings import marks_left_out, names_left_out
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.numbering import in_order
from hardstand.views.drawing.paper import CONTENT_MM, PAPERS, Paper, scale_for, scale_text
from hardstand.views.drawing.paper_foot import paper_foot
from hardstand.views.drawing.planes import plane_letter
from hardstand.views.drawing.section_drawing import around, cut_ids, draw_section
from hardstand.views.drawing.shapes import Placement
from hardstand.views.drawing.sheet_trays import HEADS, item_row
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.table import table
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, TitleBlock
from hardstand.views.drawing.tray_dimensions import length
from hardstand.views.drawing.wanted import Wanted

_LEFT_MM, _TOP_MM, _BELOW_MM, _NAMES_MM = 14.0, 15.0, 20.0, 3.0
_ASIDE_MM = 5.0 + 3.0 + _LEFT_MM + _NAMES_MM
_TABLE_MM = 88.0  # the least that the table of items needs


def section_paper(
    asbuilt: AsBuilt, assessment: Assessment, x_mm: float, paper: Paper, wanted: Wanted
) -> Sheet:
    """The section at a station, looking aft, in the largest standard scale that fits the paper.

    Raises ValueError for a station where nothing is described.
    """
    y_low, z_low, y_high, z_high = around(asbuilt, x_mm)
    frame = paper_frame(*PAPERS[paper])
    left, top, right, bottom = frame.border
    # Beside the title block the sheet is high, above it wide: what gives the larger scale.
    size = (y_high - y_low, z_high - z_low)
    scale = max(
        scale_for(size, (right - wide - left - _ASIDE_MM, high - _TOP_MM - _BELOW_MM))
        for wide, high in ((PAPER_SIZE_MM[0], CONTENT_MM[1]),
                           (_TABLE_MM, CONTENT_MM[1] - PAPER_SIZE_MM[1]))
    )  # fmt: skip
    column = max(right - PAPER_SIZE_MM[0], left + _ASIDE_MM + size[0] * scale)
    room = (left + 5.0, top, column - 3.0, top + CONTENT_MM[1])
    wide = room[2] - room[0] - _LEFT_MM - _NAMES_MM
    middle = room[0] + _LEFT_MM + wide / 2.0
    at = Placement(scale, (middle + (y_low + y_high) / 2.0 * scale, top + _TOP_MM + z_high * scale),
                   mirrored=True)  # fmt: skip
    findings = numbered(assessment, cut_ids(asbuilt, x_mm))
    drawn = draw_section(asbuilt, assessment, x_mm, at, room, findings, frame, PAPER, wanted)
    rows = [item_row(item, selected=item.id in wanted.selected) for item in in_order(drawn.items)]
    listed, end = (
        table(HEADS, rows, (column + 3.0, top + 4.0), right - column - 6.0, PAPER,
              bottom - PAPER_SIZE_MM[1] - 44.0)
        if rows
        else ((), top)
    )  # fmt: skip
    station, name = length(x_mm), plane_letter(x_mm, wanted.sections)
    block = TitleBlock(asbuilt.aeroplane.name, f"Section {name}–{name}", f"station {station}, looking aft",
                       scale_text(scale), wanted.sheet or "2", wanted.issue)  # fmt: skip
    told = [*names_left_out(drawn.left_out, "see the table"), *marks_left_out(drawn.marks.unplaced)]
    foot = paper_foot(frame, findings, drawn.marks.zones, block, (column, end + 4.0), told, at)
    said = f"{len(drawn.items)} items cut at station {station}"
    title = f"{asbuilt.aeroplane.name}: {block.title}, {block.scale}"
    return Sheet(frame.width, frame.height, PAPER, title, said, (*drawn.shapes, *listed, *foot))
