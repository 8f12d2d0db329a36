"""The whole aeroplane on A4 or Letter, landscape, at a scale of ISO 5455: what prints is never scaled.

It is printed in first-angle projection: elevation above plan, the view from the nose
to the right of the elevation. Content keeps to the 249 × 190 mm that both papers have.
"""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import extent, heights_mm, widest_mm
from hardstand.views.drawing.frame import paper_frame
from hardstand.views.drawing.front import front_view
from hardstand.views.drawing.headings import marks_left_out, names_left_out
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.numbering import item_list, list_height
from hardstand.views.drawing.paper import CONTENT_MM, PAPERS, SCALES, Paper, scale_text
from hardstand.views.drawing.paper_foot import paper_foot
from hardstand.views.drawing.planes import REACH
from hardstand.views.drawing.ruler import HEIGHT
from hardstand.views.drawing.shapes import Anchor, Group, Placement, Shape, Text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, TitleBlock
from hardstand.views.drawing.wanted import Wanted
from hardstand.views.drawing.whole import Layout, drawn

# Seen from the nose starboard is on the left.
_SIDES: tuple[tuple[float, str, Anchor], ...] = ((1.0, "starboard", "start"), (-1.0, "port", "end"))
_RULER_MM = HEIGHT * PAPER.unit
_LIST = 0.62  # of the room beside the plan that a list of numbers may take from the notes
_PAD_MM, _NAMES_MM = 5.0, 26.0  # inside the border; above and below the fuselage for rows of names


def fit_paper(asbuilt: AsBuilt, assessment: Assessment, paper: Paper, wanted: Wanted) -> Sheet:
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
    low, high_mm = heights_mm(asbuilt)
    reach = REACH * PAPER.unit if wanted.sections else 0.0
    side_y = top + max(4.0 + z_high * scale, 2.0 + reach + high_mm * scale)
    ruler_top = side_y + max(5.0 - z_low * scale, 2.0 + reach - low * scale)
    plan_y = ruler_top + _RULER_MM + 5.0 + half(scale)
    names = (left - 3.0, ruler_top + _RULER_MM + 2.0, left + wide * scale + 10.0, plan_y + half(scale))
    layout = Layout(Placement(scale, (x_at, plan_y)), Placement(scale, (x_at, side_y)), names, ruler_top,
                    (x_low - over, x_high + over), wanted.sections)  # fmt: skip
    heads = [Text("micro", (left, top + 1.0), "elevation", halo=False),
             Text("micro", (left, ruler_top + _RULER_MM + 6.0), "plan", halo=False)]  # fmt: skip
    found = drawn(asbuilt, assessment, layout, frame, PAPER, heads, wanted.selected)
    nose_x = left + wide * scale + 8.0 + across / 2.0 * scale
    nose = front_view(asbuilt, Placement(scale, (nose_x, side_y), mirrored=True))
    right = left + room[0]
    block = TitleBlock(asbuilt.aeroplane.name, "Whole aeroplane", "plan, elevation, from the nose",
                       scale_text(scale), wanted.sheet or "1", wanted.issue, first_angle=True)  # fmt: skip
    at = (left + wide * scale + 12.0, ruler_top + 2.0)
    foot_top = frame.border[3] - PAPER_SIZE_MM[1]
    measure = frame.border[2] - at[0] - 3.0
    # Under the plan if there is room, else beside it, else on sheets of its own.
    under = (left, names[3] + 1.0)
    wide_mm = frame.border[2] - PAPER_SIZE_MM[0] - left - 3.0
    listed: tuple[Shape, ...] = ()
    end, fits = at[1], True
    if under[1] + list_height(found.numbered, wide_mm, PAPER) <= frame.border[1] + CONTENT_MM[1]:
        listed, _ = item_list(found.numbered, under, wide_mm, PAPER)
    elif list_height(found.numbered, measure, PAPER) <= (foot_top - at[1]) * _LIST:
        listed, end = item_list(found.numbered, (at[0] + 3.0, at[1]), measure, PAPER)
    else:
        fits = False
    told = [] if fits else ["What the numbers stand for: see the sheets of items by number."]
    told += [*names_left_out(found.left_out, "see the sheets of the trays"), *marks_left_out(found.marks.unplaced)]
    shapes = (
        *found.shapes, *found.marks.groups, Group("", "from-the-nose", nose),
        Text("micro", (right, top + 1.0), "from the nose", "end"),
        *(Text("micro", (nose_x - side * across / 2.0 * scale, top + 1.0 + 0.5 * z_high * scale), said, anchor)
          for side, said, anchor in _SIDES),
        *paper_foot(frame, numbered(assessment), found.marks.zones, block,
               (at[0], end + 1.0), told, layout.plan),
        *listed,
    )  # fmt: skip
    said = f"{len(asbuilt.items)} items in plan and elevation, {len(assessment.findings)} findings"
    title = f"{asbuilt.aeroplane.name}: whole aeroplane, {block.scale}"
    return Sheet(frame.width, frame.height, PAPER, title, said, shapes, fine=True)
