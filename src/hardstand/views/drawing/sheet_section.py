"""The sheet of one cross-section on a screen."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.headings import names_left_out, remarks
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.page import page, page_shapes
from hardstand.views.drawing.planes import plane_letter
from hardstand.views.drawing.ruler import HEIGHT, scale_bar
from hardstand.views.drawing.section_drawing import around, cut_ids, draw_section
from hardstand.views.drawing.shapes import Group, Placement
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import TitleBlock
from hardstand.views.drawing.tray_dimensions import length
from hardstand.views.drawing.wanted import Wanted


def section_sheet(asbuilt: AsBuilt, assessment: Assessment, x_mm: float, wanted: Wanted) -> Sheet:
    """The section at a station, looking aft, on a screen of the wanted width.

    Raises ValueError for a station where nothing is described.
    """
    y_low, z_low, y_high, z_high = around(asbuilt, x_mm)
    on = page(wanted.width_px)
    names = 40.0 if on.narrow else 150.0
    scale = min((on.right - on.left - 60.0 - 2.0 * names) / (y_high - y_low), 560.0 / (z_high - z_low))
    middle = (on.left + on.right) / 2.0 + 14.0
    top = on.top + 96.0
    at = Placement(scale, (middle + (y_low + y_high) / 2.0 * scale, top + z_high * scale), mirrored=True)
    low = at.point(0.0, z_low)[1]
    bottom = low + 132.0
    findings = numbered(assessment, cut_ids(asbuilt, x_mm))
    frame = on.frame(bottom, findings)
    room = (on.left, on.top, on.right + 12.0, low)
    drawn = draw_section(asbuilt, assessment, x_mm, at, room, findings, frame, SCREEN, wanted)
    station, name = length(x_mm), plane_letter(x_mm, wanted.sections)
    block = TitleBlock(asbuilt.aeroplane.name, f"Section {name}–{name}", f"station {station}, looking aft",
                       "by the bar", wanted.sheet or "2", wanted.issue)  # fmt: skip
    bar = scale_bar(on.left, low + HEIGHT + 74.0, at, SCREEN, (on.right - on.left) / 4.0)
    shapes = (
        *page_shapes(on, frame, bottom, findings, drawn.marks.zones, block), *drawn.shapes,
        Group("", "scale-bar", bar),
        *remarks((middle, low + HEIGHT + 78.0), names_left_out(drawn.left_out), SCREEN, 300.0),
    )  # fmt: skip
    said = f"{len(drawn.items)} items cut at station {station}"
    return Sheet(on.width, frame.height, SCREEN, f"{asbuilt.aeroplane.name}: {block.title}", said, shapes)
