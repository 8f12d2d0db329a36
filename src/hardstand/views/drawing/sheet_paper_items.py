"""The list of all items by number on A4 or Letter, on as many sheets as it takes."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.views.drawing.frame import Frame, frame_shapes, paper_frame
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.numbering import entries, item_list, list_room
from hardstand.views.drawing.paper import CONTENT_MM, PAPERS, Paper
from hardstand.views.drawing.shapes import Group
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, TitleBlock, paper_title_block
from hardstand.views.drawing.wanted import Wanted

_PAD_MM = 5.0
_MEASURE_MM = CONTENT_MM[0] - 2.0 * _PAD_MM


def _room_mm(frame: Frame) -> float:
    return frame.border[3] - PAPER_SIZE_MM[1] - frame.border[1] - 8.0


def item_pages(asbuilt: AsBuilt, paper: Paper) -> int:
    """On how many sheets the list stands; 0 where there are no items."""
    rows = entries(asbuilt)
    most = list_room(rows, _MEASURE_MM, _room_mm(paper_frame(*PAPERS[paper])), PAPER)
    return -(-len(rows) // max(1, most))


def items_paper(asbuilt: AsBuilt, paper: Paper, wanted: Wanted) -> Sheet:
    """One sheet of the list, `wanted.part` of them from 0."""
    frame = paper_frame(*PAPERS[paper])
    left, top, right, bottom = frame.border
    rows = entries(asbuilt)
    most = list_room(rows, _MEASURE_MM, _room_mm(frame), PAPER)
    here = rows[wanted.part * most : (wanted.part + 1) * most]
    listed, _end = item_list(here, (left + _PAD_MM, top + 4.0), _MEASURE_MM, PAPER,
                             "Items by number, from the nose aft")  # fmt: skip
    said = f"{here[0].number} to {here[-1].number} of {len(rows)}" if here else "none"
    block = TitleBlock(asbuilt.aeroplane.name, "Items by number", said, "–", wanted.sheet or "1b", wanted.issue)
    shapes = (*frame_shapes(frame, PAPER), *listed,
              Group("", "title-block", paper_title_block(block, right, bottom)))  # fmt: skip
    return Sheet(frame.width, frame.height, PAPER, f"{asbuilt.aeroplane.name}: items by number", said, shapes)
