"""The balance on A4 or Letter: the chart over the table of states, notes and title block."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.balance_chart import state_points
from hardstand.views.drawing.balance_drawing import draw_chart
from hardstand.views.drawing.frame import paper_frame
from hardstand.views.drawing.headings import heading, remarks
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.paper import CONTENT_MM, PAPERS, Paper
from hardstand.views.drawing.paper_foot import paper_foot
from hardstand.views.drawing.shapes import Shape
from hardstand.views.drawing.sheet_balance import NOTHING, state_columns, state_rows
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.table import table
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, TitleBlock
from hardstand.views.drawing.wanted import Wanted


def balance_paper(asbuilt: AsBuilt, assessment: Assessment, paper: Paper, wanted: Wanted) -> Sheet:
    """The CG chart and the table of states on paper. `wanted.selected` are ids of states."""
    frame = paper_frame(*PAPERS[paper])
    left, top, right, _ = frame.border
    x, end = left + 5.0, left + CONTENT_MM[0] - 5.0
    points = state_points(asbuilt, assessment)
    findings = [row for row in numbered(assessment) if row[1].stage == "balance"]
    shapes: list[Shape] = list(heading((x, top + 8.0), "Balance",
                                       "every state, with twice the standard uncertainty", PAPER,
                                       end - x))  # fmt: skip
    zones: dict[int, str] = {}
    low = top + 107.0
    column = right - PAPER_SIZE_MM[0]
    if points:
        room = (x + 12.0, top + 22.0, end, top + 82.0)
        drawn, zones = draw_chart(asbuilt, assessment, points, room, findings, frame, PAPER)
        rows = state_rows(points, assessment, wanted.selected, narrow=False)
        heads = ["State", *(head for head, _ in state_columns(narrow=False))]
        states, _ = table(heads, rows, (x, low), column - x - 4.0, PAPER)
        shapes += [*drawn, *states]
    else:
        shapes += remarks((x, top + 30.0), [NOTHING], PAPER, end - x)
    block = TitleBlock(asbuilt.aeroplane.name, "Balance", "CG of every state against its mass",
                       "as drawn", wanted.sheet or "3", wanted.issue)  # fmt: skip
    foot = paper_foot(frame, findings, zones, block, (column, low), (), None)
    said = f"CG behind the mark of {len(points)} states, {len(findings)} findings"
    title = f"{asbuilt.aeroplane.name}: balance"
    return Sheet(frame.width, frame.height, PAPER, title, said, (*shapes, *foot))
