"""The whole aeroplane in plan and elevation, as large as a room of the page takes it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import extent, ground_mm, widest_mm
from hardstand.views.drawing.headings import caption, marks_left_out, names_left_out, remarks
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.ruler import HEIGHT, scale_bar
from hardstand.views.drawing.shapes import Group, Placement, Shape, Text
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.whole import Drawn, Layout, drawn
from hardstand.workbench.drawn.zones import MARGIN, zone_shapes, zoned

_PAD, _OVER = 8.0 + MARGIN, 0.03  # px about the views; axes beyond the ends, of the length
_BELOW_PLAN, _BELOW_RULER, _FOOT = 50.0, 26.0, 16.0
_NAMES = 96.0  # kept above and below the fuselage for rows of names


@dataclass(frozen=True, slots=True)
class FirstDrawn:
    """The sheet, and the zone of every numbered finding that has a place in it."""

    sheet: Sheet
    zones: Mapping[int, str]


def first_drawing(asbuilt: AsBuilt, assessment: Assessment, width: float, height: float) -> FirstDrawn:
    """Plan over elevation in a room of a size in px, at the one scale that fits both ways."""
    layout, bottom = _layout(asbuilt, width, height)
    frame = zoned(width, bottom)
    found = drawn(asbuilt, assessment, layout, frame, SCREEN, ())
    shapes = (*zone_shapes(frame), *found.shapes, *found.marks.groups, *_words(layout, found, width))
    said = f"{len(asbuilt.items)} items in plan and elevation, {len(assessment.findings)} findings"
    sheet = Sheet(width, bottom, SCREEN, f"{asbuilt.aeroplane.name}: whole aeroplane", said, shapes)
    return FirstDrawn(sheet, found.marks.zones)


def _layout(asbuilt: AsBuilt, width: float, height: float) -> tuple[Layout, float]:
    (x_low, x_high), (y_low, y_high), (z_low, z_high) = extent(asbuilt)
    z_low = min(z_low, ground_mm(asbuilt) or z_low)
    over = _OVER * (x_high - x_low)
    long = x_high - x_low + 2.0 * over
    fixed = _BELOW_PLAN + HEIGHT + _BELOW_RULER + _FOOT + 2.0 * _PAD
    scale = min((width - 2.0 * _PAD) / long, (height - fixed) / (y_high - y_low + z_high - z_low))
    names = _NAMES + widest_mm(asbuilt) * scale
    up, down = max(y_high * scale, names), max(-y_low * scale, names)
    left = (width - long * scale) / 2.0
    plan = Placement(scale, (left + (over - x_low) * scale, _PAD + up))
    ruler_top = _PAD + up + down + _BELOW_PLAN
    side_y = ruler_top + HEIGHT + _BELOW_RULER + z_high * scale
    bottom = side_y - z_low * scale + _FOOT + _PAD
    room = (left - 8.0, _PAD, left + long * scale + 8.0, _PAD + up + down)
    return Layout(plan, Placement(scale, (plan.at[0], side_y)), room, ruler_top,
                  (x_low - over, x_high + over)), bottom  # fmt: skip


def _words(layout: Layout, found: Drawn, width: float) -> list[Shape]:
    """The names of the views, the scale bar, what had no room."""
    right, low = layout.room[2], layout.ruler_top
    texts = [*names_left_out(found.left_out, "see the trays"), *marks_left_out(found.marks.unplaced)]
    bar = scale_bar(layout.room[0] + 26.0, low - 14.0, layout.plan, SCREEN, width / 4.0)
    return [
        Group("", "scale-bar", bar),
        caption((right, low - 24.0), "plan, from above"),
        Text("micro", (right, low - 8.0), "stations, mm aft of the datum", "end"),
        caption((right, low + HEIGHT + 18.0), "elevation, from port"),
        *remarks((layout.room[0], low - 40.0), texts, SCREEN, 0.5 * width),
    ]
