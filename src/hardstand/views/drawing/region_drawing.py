"""A stretch of the aeroplane with all its lettering: plan, ruler, elevation at one scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.anchors import anchors
from hardstand.views.drawing.boxes import Box, grown, text_box
from hardstand.views.drawing.cross_scale import cross_scale
from hardstand.views.drawing.findings_placed import Marks, place_marks
from hardstand.views.drawing.frame import Frame
from hardstand.views.drawing.headings import heading
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.labels import Ground, label_groups
from hardstand.views.drawing.notes import Numbered
from hardstand.views.drawing.numbering import item_numbers
from hardstand.views.drawing.planes import plane_letter, plane_marks, plane_room
from hardstand.views.drawing.region import Region, region_view
from hardstand.views.drawing.ruler import HEIGHT, ruler
from hardstand.views.drawing.shapes import Group, Placement, Shape, Text, flat, line
from hardstand.views.drawing.tray_dimensions import edge_dimensions, tray_dimensions
from hardstand.views.drawing.view import View, segments
from hardstand.views.drawing.wanted import Wanted

_HEAD, _NAMES = 44.0, 20.0  # over the plan; for rows of names
_BELOW, _BELOW_MANY = 46.0, 18.0  # under the plan: with a tray's own dimensions, without


@dataclass(frozen=True, slots=True)
class Set:
    """Where the views of a region lie on the sheet: placements, ruler, room for names, and the end."""

    plan: Placement
    elevation: Placement
    left: float
    top: float
    ruler_top: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class RegionDrawn:
    """The region's shapes, the marks of findings, ids that stand by number, names without room."""

    shapes: tuple[Shape, ...]
    marks: Marks
    numbered: frozenset[str]
    left_out: tuple[str, ...]


def set_region(region: Region, room: Box, scale: float, medium: Medium) -> Set:
    """Lay the views of a region out in a room from its upper left corner, at a scale."""
    unit = medium.unit
    left, top, right, _ = room
    x_at = left + 40.0 * unit - region.x_mm[0] * scale
    plan_y = top + (_HEAD + _NAMES) * unit + region.y_mm[1] * scale
    below = _BELOW if len(region.trays) == 1 else _BELOW_MANY
    ruler_top = plan_y - region.y_mm[0] * scale + (below + _NAMES) * unit
    side_y = ruler_top + (HEIGHT + 66.0) * unit + region.z_mm[1] * scale
    bottom = side_y - region.z_mm[0] * scale + 28.0 * unit
    return Set(Placement(scale, (x_at, plan_y)), Placement(scale, (x_at, side_y)), left, top, ruler_top,
               right, bottom)  # fmt: skip


def draw_region(
    asbuilt: AsBuilt,
    assessment: Assessment,
    region: Region,
    at: Set,
    findings: Sequence[Numbered],
    frame: Frame,
    medium: Medium,
    wanted: Wanted,
) -> RegionDrawn:
    """The views of a region with scales, dimensions, findings and names."""
    unit = medium.unit
    plan = region_view(asbuilt, assessment, region, "plan", at.plan, wanted.selected)
    side = region_view(asbuilt, assessment, region, "elevation", at.elevation, wanted.selected)
    planes = _planes(region, at, wanted.sections, medium)
    dimensions = _dimensions(region, plan, at, medium, wanted.selected)
    kept = [grown(text_box(one, medium), 2.0 * unit) for one in flat(dimensions) if isinstance(one, Text)]
    kept += plane_room(planes, medium)
    places = {name: at.plan.point(x, y) for name, (x, y, _) in anchors(asbuilt, assessment).items()
              if region.x_mm[0] < x < region.x_mm[1] and region.y_mm[0] < y < region.y_mm[1]}  # fmt: skip
    marks = place_marks(findings, places, kept, plan.boxes, frame, medium)
    low = at.plan.point(0.0, region.y_mm[0])[1] + _NAMES * unit
    room = (at.left + 34.0 * unit, at.top + _HEAD * unit * 0.7, at.right, low)
    ground = Ground(room, [*plan.boxes, *kept, *marks.boxes],
                    [*plan.lines, *segments(dimensions)], [*marks.leaders, *segments(planes)],
                    [plan.over(k) for k in range(len(plan.boxes))])  # fmt: skip
    labels = label_groups(plan.named(item_numbers(asbuilt)), ground, medium, "plan")
    shapes = (
        *_scales(region, at, medium), *plan.shapes, *side.shapes, *dimensions, *planes, *labels.groups,
        *marks.groups, *_headings(region, at, medium),
    )  # fmt: skip
    numbered = frozenset(one.about.partition(".")[2] for one in labels.numbered)
    return RegionDrawn(shapes, marks, numbered, labels.left_out)


def _dimensions(
    region: Region, plan: View, at: Set, medium: Medium, selected: Sequence[str]
) -> list[Shape]:
    """The tray's own dimensions where one tray is drawn, and from what is selected to its edges."""
    trays = {tray.id: tray for tray in region.trays}
    whole = [tray_dimensions(region.trays[0], at.plan, medium)] if len(trays) == 1 else []
    edges = [edge_dimensions(item, trays[item.on], at.plan, medium)
             for item in plan.items if item.id in selected and item.on in trays]  # fmt: skip
    return [*whole, *edges]


def _planes(
    region: Region, at: Set, sections: Sequence[float], medium: Medium
) -> tuple[Shape, ...]:
    """The section planes that lie in the region, in both views."""
    here = [x for x in sections if region.x_mm[0] < x < region.x_mm[1]]
    found: tuple[Shape, ...] = ()
    letters = {x: plane_letter(x, sections) for x in here}
    for on, (low, high) in ((at.plan, region.y_mm), (at.elevation, region.z_mm)):
        room = (on.point(0.0, high)[1], on.point(0.0, low)[1])
        found = (*found, *plane_marks(letters, room, on, medium))
    return found


def _scales(region: Region, at: Set, medium: Medium) -> list[Shape]:
    unit = medium.unit
    low, high = region.x_mm
    x = at.left + 26.0 * unit
    axis = [line("centre", at.plan.point(low, 0.0), at.plan.point(high, 0.0))]
    if region.y_mm[0] > 0.0 or region.y_mm[1] < 0.0:
        axis = []
    return [
        *axis,
        Group("", "scale-y", cross_scale("y", *region.y_mm, x, at.plan, medium)),
        Group("", "scale-z", cross_scale("z", *region.z_mm, x, at.elevation, medium)),
        Group("", "ruler", ruler(low, high, at.ruler_top, at.plan, medium)),
    ]


def _headings(region: Region, at: Set, medium: Medium) -> list[Shape]:
    unit = medium.unit
    room, end = at.right - at.left, at.plan.point(region.x_mm[1], 0.0)[0]
    below = at.ruler_top + (HEIGHT + 34.0) * unit
    return [
        *heading((at.left, at.top + 22.0 * unit), "Plan", "from above, nose to the left", medium, room),
        *heading((at.left, below), "Elevation", "from port, at the same scale", medium, room),
        Text("micro", (end, at.ruler_top - 6.0 * unit), "stations, mm aft of the datum", "end"),
    ]

