"""The sheet of one cross-section on a screen."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import bays, extent
from hardstand.views.drawing.boxes import Box, bounds
from hardstand.views.drawing.cross_scale import cross_scale
from hardstand.views.drawing.findings_placed import place_marks
from hardstand.views.drawing.headings import heading, names_left_out, remarks
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.labels import Ground, label_groups
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.page import page, page_shapes
from hardstand.views.drawing.ruler import HEIGHT, ruler, scale_bar
from hardstand.views.drawing.section import outline_at, section_view
from hardstand.views.drawing.shapes import Group, Placement, Text, line
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import NO_ISSUE, Issue, TitleBlock
from hardstand.views.drawing.tray_dimensions import length


def section_sheet(
    asbuilt: AsBuilt, assessment: Assessment, x_mm: float, width: float, selected: Sequence[str] = (),
    issue: Issue = NO_ISSUE,
) -> Sheet:
    """The section A–A at a station, looking aft, on a sheet `width` pixels wide.

    Raises ValueError for a station where nothing is described.
    """
    y_low, z_low, y_high, z_high = _around(asbuilt, x_mm)
    on = page(width)
    names = 70.0 if on.narrow else 150.0
    scale = min((on.right - on.left - 60.0 - 2.0 * names) / (y_high - y_low), 560.0 / (z_high - z_low))
    middle = (on.left + on.right) / 2.0 + 14.0
    top = on.top + 96.0
    at = Placement(scale, (middle + (y_low + y_high) / 2.0 * scale, top + z_high * scale), mirrored=True)
    low = at.point(0.0, z_low)[1]
    bottom = low + 132.0
    findings = numbered(assessment, _cut_ids(asbuilt, x_mm))
    frame = on.frame(bottom, findings)
    view = section_view(asbuilt, assessment, x_mm, (y_low, y_high), at, selected)
    places = {item.id: at.point(item.centre_mm[1], item.centre_mm[2]) for item in view.items}
    marks = place_marks(findings, places, [], view.boxes, frame, SCREEN)
    room = (on.left, on.top + 44.0, on.right + 16.0, low + 36.0)
    ground = Ground(room, [*view.boxes, *marks.boxes], view.lines, marks.leaders,
                    [()] * len(view.items))  # fmt: skip
    labels, left_out = label_groups(view.named(), ground, SCREEN, "section")
    station = length(x_mm)
    block = TitleBlock(asbuilt.aeroplane.name, f"Section at station {station}", "looking aft",
                       "by the bar", "2", issue)  # fmt: skip
    shapes = (
        *page_shapes(on, frame, bottom, findings, marks.zones, block),
        *heading((on.left, on.top + 22.0), "A–A", f"at station {station}, looking aft", SCREEN,
                 on.right - on.left),
        line("centre", at.point(0.0, z_low), at.point(0.0, z_high)),
        *view.shapes, *labels, *marks.groups,
        Group("", "scale-z", cross_scale("z", z_low, z_high, on.left + 26.0, at, SCREEN)),
        Group("", "ruler", ruler(y_low, y_high, low + 44.0, at, SCREEN)),
        *_sides(at, y_low, y_high, low + 40.0),
        Group("", "scale-bar", scale_bar(on.left, low + HEIGHT + 74.0, at, SCREEN, (on.right - on.left) / 4.0)),
        *remarks((middle, low + HEIGHT + 78.0), names_left_out(left_out), SCREEN, 300.0),
    )  # fmt: skip
    said = f"{len(view.items)} items cut at station {station}"
    return Sheet(width, frame.height, SCREEN, f"{asbuilt.aeroplane.name}: {block.title}", said, shapes)


def _sides(at: Placement, low: float, high: float, base: float) -> list[Text]:
    """Which side is which: looking aft, starboard is on the left."""
    return [
        Text("caption", (at.point(high, 0.0)[0], base), "starboard"),
        Text("caption", (at.point(low, 0.0)[0], base), "port", "end"),
    ]


def _around(asbuilt: AsBuilt, x_mm: float) -> Box:
    """The bay at a station with a margin, or else all there is across."""
    points = [point for rows in bays(asbuilt).values() for point in outline_at(rows, x_mm)]
    if points:
        left, low, right, high = bounds(points)
    else:
        (x_low, x_high), (left, right), (low, high) = extent(asbuilt)
        if not x_low <= x_mm <= x_high:
            raise ValueError(f"nothing is described at station {x_mm:g}: the aeroplane reaches from "
                             f"{x_low:g} to {x_high:g}")  # fmt: skip
    margin = 0.06 * max(right - left, high - low)
    return left - margin, low - margin, right + margin, high + margin


def _cut_ids(asbuilt: AsBuilt, x_mm: float) -> set[str]:
    from hardstand.views.drawing.equipment import corners

    return {item.id for item in asbuilt.items
            if corners(item)[:, 0].min() <= x_mm <= corners(item)[:, 0].max()}  # fmt: skip
