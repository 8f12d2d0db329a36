"""The CG chart in a room of the page."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.balance_chart import chart_of, state_points
from hardstand.views.drawing.balance_drawing import draw_chart
from hardstand.views.drawing.boxes import Box
from hardstand.views.drawing.frame import Frame
from hardstand.views.drawing.headings import heading
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.notes import Numbered, numbered
from hardstand.views.drawing.ruler import HEIGHT
from hardstand.views.drawing.svg import Sheet
from hardstand.workbench.drawn.zones import zone_shapes, zoned, zones_of

_LEFT, _RIGHT, _TOP, _FOOT = 66.0, 40.0, 100.0, 104.0
_HIGHEST = 430.0


def _room(width: float) -> tuple[Box, Frame]:
    high = min(_HIGHEST, 0.9 * (width - _LEFT - _RIGHT))
    room = (_LEFT, _TOP, width - _RIGHT, _TOP + high)
    return room, zoned(width, room[3] + HEIGHT + _FOOT)


def _findings(assessment: Assessment) -> list[Numbered]:
    return [row for row in numbered(assessment) if row[1].stage == "balance"]


def balance_zones(asbuilt: AsBuilt, assessment: Assessment, width: float) -> dict[int, str]:
    """The zone of every numbered finding about a state of the chart."""
    points = state_points(asbuilt, assessment)
    if not points:
        return {}
    room, frame = _room(width)
    chart = chart_of(asbuilt, points, room)
    places = {one.id: chart.point(one.cg.value, one.mass.value) for one in points}
    return zones_of(_findings(assessment), places, frame)


def balance_drawing(asbuilt: AsBuilt, assessment: Assessment, width: float) -> Sheet | None:
    """The chart in a drawing of a width in px; None where no CG behind a mark was worked out."""
    points = state_points(asbuilt, assessment)
    if not points:
        return None
    room, frame = _room(width)
    findings = _findings(assessment)
    chart, _ = draw_chart(asbuilt, assessment, points, room, findings, frame, SCREEN)
    head = heading((28.0, 40.0), "Balance", "every state, with twice the standard uncertainty", SCREEN,
                   width - 56.0)  # fmt: skip
    said = f"CG behind the mark of {len(points)} states, {len(findings)} findings"
    title = f"{asbuilt.aeroplane.name}: balance"
    return Sheet(width, frame.height, SCREEN, title, said, (*zone_shapes(frame), *head, *chart))
