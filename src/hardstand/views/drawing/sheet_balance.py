"""The sheet of the balance on a screen: the CG chart, the table of states, the ways out."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.engines.balance.model import Trade
from hardstand.views.drawing.balance_chart import StatePoint, state_points
from hardstand.views.drawing.balance_drawing import draw_chart
from hardstand.views.drawing.headings import heading, remarks
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.page import page, page_shapes
from hardstand.views.drawing.ruler import HEIGHT
from hardstand.views.drawing.shapes import Shape, Text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.table import ROW, Row, table
from hardstand.views.drawing.title_block import TitleBlock
from hardstand.views.drawing.wanted import Wanted
from hardstand.views.number import figure_shown

NOTHING = "No CG behind a mark was worked out: describe states, masses and the CG mark."
_MOST_WAYS = 5
_FIGURES = (("mass", "mass"), ("CG behind mark", "cg"), ("% MAC", "cg-mac"), ("margin", "static-margin"))


def balance_sheet(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """The balance on a screen of the wanted width. `wanted.selected` are ids of states."""
    on = page(wanted.width_px)
    points = state_points(asbuilt, assessment)
    findings = [row for row in numbered(assessment) if row[1].stage == "balance"]
    left = on.left + 40.0
    room = (left, on.top + 92.0, on.right, on.top + 92.0 + min(430.0, 0.9 * (on.right - left)))
    table_top = room[3] + HEIGHT + 84.0
    rows = state_rows(points, assessment, wanted.selected, narrow=on.narrow)
    ways = ways_out(assessment)
    ways_top = table_top + (len(rows) + 1) * ROW + 46.0
    listed = remarks((on.left, ways_top + 24.0), ways, SCREEN, on.right - on.left)
    bottom = ways_top + 16.0 * len(listed) + (44.0 if ways else 0.0)
    frame = on.frame(bottom, findings)
    block = TitleBlock(asbuilt.aeroplane.name, "Balance", "CG of every state against its mass",
                       "as drawn", wanted.sheet or "3", wanted.issue)  # fmt: skip
    shapes: list[Shape] = list(heading((on.left, on.top + 22.0), "Balance",
                                       "every state, with twice the standard uncertainty", SCREEN,
                                       on.right - on.left))  # fmt: skip
    zones: dict[int, str] = {}
    if points:
        drawn, zones = draw_chart(asbuilt, assessment, points, room, findings, frame, SCREEN)
        states, _ = table(["State", *(head for head, _ in state_columns(narrow=on.narrow))], rows,
                          (on.left, table_top), on.right - on.left, SCREEN)  # fmt: skip
        shapes += [*drawn, *states]
    else:
        shapes += remarks((on.left, room[1]), [NOTHING], SCREEN, on.right - on.left)  # fmt: skip
    if ways:
        shapes += [Text("caption", (on.left, ways_top), "Ways out, best first", halo=False), *listed]
    every = (*page_shapes(on, frame, bottom, findings, zones, block), *shapes)
    said = f"CG behind the mark of {len(points)} states, {len(findings)} findings"
    return Sheet(on.width, frame.height, SCREEN, f"{asbuilt.aeroplane.name}: balance", said, every)


def state_columns(*, narrow: bool) -> tuple[tuple[str, str], ...]:
    """The columns of the table of states: head and figure; a narrow sheet has the first two."""
    return _FIGURES[:2] if narrow else _FIGURES


def state_rows(
    points: Sequence[StatePoint], assessment: Assessment, selected: Sequence[str], *, narrow: bool
) -> list[Row]:
    """A row for each state with its figures; a dash where one could not be worked out."""
    rows = []
    for rank, one in enumerate(points, 1):
        cells = [f"{rank}  {one.name}"]
        for _, name in state_columns(narrow=narrow):
            try:
                cells.append(figure_shown(assessment.figure(f"balance.{name}@{one.id}").as_json()))
            except KeyError:
                cells.append("–")
        rows.append(Row(f"balance.cg@{one.id}", tuple(cells), one.id in selected))
    return rows


def ways_out(assessment: Assessment) -> list[str]:
    """The ways out in the engine's words; shown where the CG of the judged state is found wanting."""
    trade: Trade | None = assessment.results.get("balance.trade")
    wanting = any(one.code.startswith("balance.cg-") for one in assessment.findings)
    if trade is None or not wanting:
        return []
    return [f"{k}  {one.text[:1].upper()}{one.text[1:]}."
            for k, one in enumerate(trade.ways[:_MOST_WAYS], 1)]  # fmt: skip
