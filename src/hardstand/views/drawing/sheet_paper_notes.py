"""All findings as notes on A4 or Letter, in two columns, on as many sheets as it takes."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.frame import frame_shapes, paper_frame
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.notes import Numbered, note, note_height, numbered
from hardstand.views.drawing.paper import CONTENT_MM, PAPERS, Paper
from hardstand.views.drawing.shapes import Group, Shape, Text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, TitleBlock, paper_title_block
from hardstand.views.drawing.wanted import Wanted

_TOP_MM, _GAP_MM = 12.0, 6.0
_WIDE_MM = CONTENT_MM[0] - PAPER_SIZE_MM[0] - _GAP_MM  # of a column: the second stands over the title block


def note_pages(assessment: Assessment) -> int:
    """On how many sheets the notes stand; 0 where nothing was found."""
    return -(-len(_columns(numbered(assessment))) // 2)


def notes_paper(asbuilt: AsBuilt, assessment: Assessment, paper: Paper, wanted: Wanted) -> Sheet:
    """One sheet of the notes, `wanted.part` of them from 0."""
    frame = paper_frame(*PAPERS[paper])
    left, top, right, bottom = frame.border
    rows = numbered(assessment)
    here = _columns(rows)[2 * wanted.part : 2 * wanted.part + 2]
    shapes: list[Shape] = [Text("caption", (left + 5.0, top + 7.0), "Notes, worst first", halo=False)]
    for column, x in zip(here, (left + 2.0, left + 2.0 + _WIDE_MM + _GAP_MM), strict=False):
        y = top + _TOP_MM
        for number, finding in column:
            high = note_height(finding, _WIDE_MM, PAPER)
            shapes.append(note(finding, number, "", (x, y, x + _WIDE_MM, y + high), PAPER))
            y += high
    shown = [number for column in here for number, _ in column]
    said = f"{shown[0]} to {shown[-1]} of {len(rows)}" if shown else "nothing found in what was assessed"
    block = TitleBlock(asbuilt.aeroplane.name, "Notes", said, "–", wanted.sheet or "1b", wanted.issue)
    foot = Group("", "title-block", paper_title_block(block, right, bottom))
    title = f"{asbuilt.aeroplane.name}: notes"
    return Sheet(frame.width, frame.height, PAPER, title, said, (*frame_shapes(frame, PAPER), *shapes, foot))


def _columns(rows: Sequence[Numbered]) -> list[list[Numbered]]:
    """The notes in columns, high on the left of a sheet and shorter over the title block."""
    room = (CONTENT_MM[1] - _TOP_MM - 3.0, CONTENT_MM[1] - _TOP_MM - PAPER_SIZE_MM[1] - 3.0)
    found: list[list[Numbered]] = []
    used = 0.0
    for row in rows:
        high = note_height(row[1], _WIDE_MM, PAPER)
        if not found or used + high > room[(len(found) - 1) % 2]:
            found.append([])
            used = 0.0
        found[-1].append(row)
        used += high
    return found
