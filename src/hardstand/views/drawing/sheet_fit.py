"""The sheet of the whole aeroplane on a screen of some width: plan over elevation."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import extent, heights_mm, widest_mm
from hardstand.views.drawing.headings import (
    caption,
    marks_left_out,
    names_left_out,
    remarks,
    sheet_head,
)
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.numbering import item_list
from hardstand.views.drawing.page import Page, page, page_shapes
from hardstand.views.drawing.planes import REACH
from hardstand.views.drawing.ruler import HEIGHT, scale_bar
from hardstand.views.drawing.shapes import Group, Placement, Shape, Text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import TitleBlock
from hardstand.views.drawing.wanted import Wanted
from hardstand.views.drawing.whole import Drawn, Layout, drawn

_MANY = 60  # items beyond which there is always something to say of names left out
_NAMES, _NAMES_NARROW, _NAMES_PLANES = 116.0, 30.0, 64.0  # above and below the fuselage for rows of names


def fit_sheet(asbuilt: AsBuilt, assessment: Assessment, wanted: Wanted) -> Sheet:
    """The whole aeroplane on a screen of the wanted width; its height follows."""
    on = page(wanted.width_px)
    head, head_bottom = sheet_head(asbuilt, assessment, (on.left, on.top), SCREEN)
    layout, bottom = _layout(asbuilt, on, head_bottom, wanted.sections)
    findings = numbered(assessment)
    found = drawn(asbuilt, assessment, layout, on.frame(bottom, findings), SCREEN, head, wanted.selected)
    room = on.right - on.left
    listed, end = item_list(found.numbered, (on.left, bottom + 10.0), room, SCREEN)
    bottom = end + 10.0 if listed else bottom
    frame = on.frame(bottom, findings)
    marks = found.marks.on(frame)
    block = TitleBlock(asbuilt.aeroplane.name, "Whole aeroplane", "plan, elevation, all items",
                       "by the bar", wanted.sheet or "1", wanted.issue)  # fmt: skip
    shapes = (
        *page_shapes(on, frame, bottom, findings, marks.zones, block),
        *found.shapes, *marks.groups, *_remarks(layout, found, on), *listed,
    )  # fmt: skip
    said = f"{len(asbuilt.items)} items in plan and elevation, {len(assessment.findings)} findings"
    return Sheet(on.width, frame.height, SCREEN, f"{asbuilt.aeroplane.name}: whole aeroplane", said, shapes)


def _layout(
    asbuilt: AsBuilt, on: Page, head_bottom: float, sections: tuple[float, ...]
) -> tuple[Layout, float]:
    """Where the views lie, and where the drawing ends."""
    (x_low, x_high), (y_low, y_high), (z_low, z_high) = extent(asbuilt)
    over = 0.03 * (x_high - x_low)
    scale = (on.right - on.left) / (x_high - x_low + 2.0 * over)
    x_at = on.left + (over - x_low) * scale
    kept = (_NAMES_PLANES if sections else _NAMES_NARROW) if on.narrow else _NAMES
    names = kept + widest_mm(asbuilt) * scale
    up, down = max(y_high * scale, names), max(-y_low * scale, names)
    # The head stands in the blank before the wing, where there is such a blank.
    plan_top = on.top + 4.0 if up - names > head_bottom - on.top and not on.narrow else head_bottom
    plan_y = plan_top + up
    ruler_top = plan_y + down + (72.0 if on.narrow else 52.0 + (28.0 if len(asbuilt.items) > _MANY else 0.0))
    low, high = heights_mm(asbuilt)
    reach = REACH if sections else 0.0
    side_y = ruler_top + HEIGHT + max(26.0 + z_high * scale, 22.0 + reach + high * scale)
    bottom = side_y + max(34.0 - z_low * scale, 8.0 + reach - low * scale)
    aside = 12.0 if on.narrow else 20.0
    room = (on.left - aside, plan_top, on.right + aside, plan_y + down)
    layout = Layout(Placement(scale, (x_at, plan_y)), Placement(scale, (x_at, side_y)), room,
                    ruler_top, (x_low - over, x_high + over), sections)  # fmt: skip
    return layout, bottom


def _remarks(layout: Layout, found: Drawn, on: Page) -> list[Shape]:
    """Scale bar, the names of the views, and what had no room."""
    right, low = on.right + (0.0 if on.narrow else 16.0), layout.ruler_top - 10.0
    texts = [*names_left_out(found.left_out), *marks_left_out(found.marks.unplaced)]
    bar = scale_bar(on.left, low - 6.0, layout.plan, SCREEN, (on.right - on.left) / 3.5)
    return [
        Group("", "scale-bar", bar),
        caption((right, low - 18.0), "plan, from above"),
        Text("micro", (right, low), "stations, mm aft of the datum", "end"),
        caption((right, layout.ruler_top + HEIGHT + 18.0), "elevation, from port"),
        *remarks((on.left, layout.room[3] + 16.0), texts, SCREEN, (on.right - on.left) * 0.66),
    ]
