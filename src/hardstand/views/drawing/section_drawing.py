"""A cross-section with its lettering: findings, names, scales; for a sheet of either medium."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import PlacedItem
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import bays, extent
from hardstand.views.drawing.boxes import Box, bounds
from hardstand.views.drawing.cross_scale import cross_scale
from hardstand.views.drawing.equipment import corners
from hardstand.views.drawing.findings_placed import Marks, place_marks
from hardstand.views.drawing.frame import Frame
from hardstand.views.drawing.headings import heading
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.labels import Ground, label_groups
from hardstand.views.drawing.notes import Numbered
from hardstand.views.drawing.planes import plane_letter
from hardstand.views.drawing.ruler import ruler
from hardstand.views.drawing.section import outline_at, section_view
from hardstand.views.drawing.shapes import Group, Placement, Shape, Text, line
from hardstand.views.drawing.tray_dimensions import length
from hardstand.views.drawing.wanted import Wanted


@dataclass(frozen=True, slots=True)
class SectionDrawn:
    """The section's shapes, the items that are cut, the marks of findings, names without room."""

    shapes: tuple[Shape, ...]
    items: tuple[PlacedItem, ...]
    marks: Marks
    left_out: tuple[str, ...]


def draw_section(
    asbuilt: AsBuilt,
    assessment: Assessment,
    x_mm: float,
    at: Placement,
    room: Box,
    findings: list[Numbered],
    frame: Frame,
    medium: Medium,
    wanted: Wanted,
) -> SectionDrawn:
    """The section at a station, looking aft, at a mirrored placement, in a room with its heading on top.

    The ruler across stands 44 design pixels below the section. Raises ValueError for a station where
    nothing is described.
    """
    unit = medium.unit
    y_low, z_low, y_high, z_high = around(asbuilt, x_mm)
    low = at.point(0.0, z_low)[1]
    view = section_view(asbuilt, assessment, x_mm, (y_low, y_high), at, wanted.selected)
    places = {item.id: at.point(item.centre_mm[1], item.centre_mm[2]) for item in view.items}
    marks = place_marks(findings, places, [], view.boxes, frame, medium)
    names = (room[0], room[1] + 44.0 * unit, room[2], low + 14.0 * unit)
    ground = Ground(names, [*view.boxes, *marks.boxes], view.lines, marks.leaders, [()] * len(view.items))
    labels = label_groups(view.named(), ground, medium, "section")
    name = plane_letter(x_mm, wanted.sections)
    base = low + 38.0 * unit
    shapes = (
        *heading((room[0], room[1] + 22.0 * unit), f"{name}–{name}",
                 f"at station {length(x_mm)}, looking aft", medium, room[2] - room[0]),
        line("centre", at.point(0.0, z_low), at.point(0.0, z_high)),
        *view.shapes, *labels.groups, *marks.groups,
        Group("", "scale-z", cross_scale("z", z_low, z_high, room[0] + 30.0 * unit, at, medium)),
        Group("", "ruler", ruler(y_low, y_high, low + 44.0 * unit, at, medium)),
        # Looking aft, starboard is on the left.
        Text("caption", (at.point(y_high, 0.0)[0], base), "starboard"),
        Text("caption", (at.point(y_low, 0.0)[0], base), "port", "end"),
    )  # fmt: skip
    return SectionDrawn(shapes, view.items, marks, labels.left_out)


def around(asbuilt: AsBuilt, x_mm: float) -> Box:
    """What a section shows (low and high of y and z): the bay there with a margin, or all across."""
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


def cut_ids(asbuilt: AsBuilt, x_mm: float) -> set[str]:
    """The ids of the items that the plane at a station cuts."""
    return {item.id for item in asbuilt.items
            if corners(item)[:, 0].min() <= x_mm <= corners(item)[:, 0].max()}  # fmt: skip
