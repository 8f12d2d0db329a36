"""The whole aeroplane on A4 or Letter, landscape, at a scale of ISO 5455: what prints is never scaled.

It is printed in first-angle projection: elevation above plan, the view from the nose
to the right of the elevation. Content keeps to the 249 × 190 mm that both papers have.
"""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import extent, widest_mm
from hardstand.views.drawing.frame import paper_frame
from hardstand.views.drawing.front import front_view
from hardstand.views.drawing.headings import marks_left_out, names_left_out
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.paper import CONTENT_MM, PAPERS, SCALES, Paper, scale_text
from hardstand.views.drawing.paper_foot import paper_foot
from hardstand.views.drawing.ruler import HEIGHT
from hardstand.views.drawing.shapes import Group, Placement, Text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import NO_ISSUE, Issue, TitleBlock
from hardstand.views.drawing.whole import Layout, drawn

_RULER_MM = HEIGHT * PAPER.unit
_PAD_MM, _NAMES_MM = 5.0, 26.0  # inside the border; above and below the fuselage for rows of names


def fit_paper(
    asbuilt: AsBuilt,
    assessment: Assessment,
    paper: Paper,
    selected: Sequence[str] = (),
    issue: Issue = NO_ISSUE,
) -> Sheet:
    """The whole aeroplane on paper, in the largest standard scale that fits."""
    frame = paper_frame(*PAPERS[paper])
    (x_low, x_high), (y_low, y_high), (z_low, z_high) = extent(asbuilt)
    left, top = frame.border[0] + _PAD_MM, frame.border[1] + _PAD_MM
    over = 0.03 * (x_high - x_low)
    wide, across, high = x_high - x_low + 2.0 * over, y_high - y_low, z_high - z_low
    room = (CONTENT_MM[0] - 2.0 * _PAD_MM, CONTENT_MM[1] - 2.0 * _PAD_MM)

    def half(scale: float) -> float:
        return max(across / 2.0 * scale, widest_mm(asbuilt) * scale + _NAMES_MM)

    scale = next((one for one in SCALES
                  if (wide + across) * one + 8.0 <= room[0]
                  and high * one + 2.0 * half(one) + _RULER_MM + 14.0 <= room[1]), SCALES[-1])  # fmt: skip
    x_at = left + (over - x_low) * scale
    side_y = top + 4.0 + z_high * scale
    ruler_top = side_y - z_low * scale + 5.0
    plan_y = ruler_top + _RULER_MM + 5.0 + half(scale)
    names = (left - 3.0, ruler_top + _RULER_MM + 2.0, left + wide * scale + 10.0, plan_y + half(scale))
    layout = Layout(Placement(scale, (x_at, plan_y)), Placement(scale, (x_at, side_y)), names, ruler_top,
                    (x_low - over, x_high + over))  # fmt: skip
    heads = [Text("micro", (left, top + 1.0), "elevation", halo=False),
             Text("micro", (left, ruler_top + _RULER_MM + 6.0), "plan", halo=False)]  # fmt: skip
    found = drawn(asbuilt, assessment, layout, frame, PAPER, heads, selected)
    nose_x = left + wide * scale + 8.0 + across / 2.0 * scale
    nose = front_view(asbuilt, Placement(scale, (nose_x, side_y), mirrored=True))
    right = left + room[0]
    block = TitleBlock(asbuilt.aeroplane.name, "Whole aeroplane", "plan, elevation, from the nose",
                       scale_text(scale), "1", issue, first_angle=True)  # fmt: skip
    told = [*names_left_out(found.left_out, "see the sheets of the trays"), *marks_left_out(found.marks.unplaced)]
    shapes = (
        *found.shapes, Group("", "from-the-nose", nose),
        Text("micro", (right, top + 1.0), "from the nose", "end"),
        *paper_foot(frame, numbered(assessment), found.marks.zones, block,
               (left + wide * scale + 12.0, ruler_top + 2.0), told, layout.plan),
    )  # fmt: skip
    said = f"{len(asbuilt.items)} items in plan and elevation, {len(assessment.findings)} findings"
    title = f"{asbuilt.aeroplane.name}: whole aeroplane, {block.scale}"
    return Sheet(frame.width, frame.height, PAPER, title, said, shapes, fine=True)
