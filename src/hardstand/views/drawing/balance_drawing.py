"""The CG chart with all its lettering: limits, states, names, findings, both scales."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.balance_chart import (
    StatePoint,
    chart_of,
    flight,
    grid,
    limits,
    state_groups,
    state_names,
)
from hardstand.views.drawing.boxes import Box, grown, text_box
from hardstand.views.drawing.findings_placed import place_marks
from hardstand.views.drawing.frame import Frame
from hardstand.views.drawing.headings import marks_left_out, names_left_out, remarks
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.labels import Ground, label_groups
from hardstand.views.drawing.mac_scale import mac_scale, neutral_point
from hardstand.views.drawing.notes import Numbered
from hardstand.views.drawing.ruler import HEIGHT
from hardstand.views.drawing.shapes import Shape, Text, flat
from hardstand.views.drawing.view import segments


def draw_chart(
    asbuilt: AsBuilt,
    assessment: Assessment,
    points: Sequence[StatePoint],
    room: Box,
    findings: Sequence[Numbered],
    frame: Frame,
    medium: Medium,
) -> tuple[tuple[Shape, ...], dict[int, str]]:
    """The chart in a room on the sheet, and the zones of the findings about its states.

    The scales hang below the room, the dimension of the range stands above it.
    """
    unit = medium.unit
    chart = chart_of(asbuilt, points, room)
    axes = grid(chart, medium)
    fixed = [*limits(asbuilt, chart, medium), *neutral_point(assessment, asbuilt, chart, medium)]
    way = flight(points, chart, medium)
    kept = [grown(text_box(one, medium), 2.0 * unit) for one in flat([*fixed, *axes]) if isinstance(one, Text)]
    names = state_names(points, chart, medium)
    places = {one.id: chart.point(one.cg.value, one.mass.value) for one in points}
    boxes = [one.box for one in names]
    marks = place_marks(findings, places, kept, boxes, frame, medium)
    ground = Ground(
        (room[0], room[1] - 6.0 * unit, room[2], room[3] - 2.0 * unit),
        [*boxes, *kept, *marks.boxes],
        segments([*fixed, *way]),
        marks.leaders,
        [()] * len(names),
    )
    labels = label_groups(names, ground, medium, "chart")
    judged = asbuilt.aeroplane.cg_range_state
    below = room[3] + (HEIGHT + 44.0) * unit
    told = ["A number in the chart is the state's row in the table."] if labels.numbered else []
    told += [*names_left_out(labels.left_out, "see the table"), *marks_left_out(marks.unplaced)]
    shapes = (
        *axes, *fixed, *way, *state_groups(points, judged, chart, medium), *labels.groups,
        *marks.groups, *mac_scale(asbuilt, assessment, chart, medium),
        Text("micro", (room[2], below), "mm behind the CG mark", "end"),
        *remarks((room[0], below + 16.0 * unit), told, medium, room[2] - room[0]),
    )  # fmt: skip
    return shapes, dict(marks.zones)
