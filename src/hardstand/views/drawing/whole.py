"""The whole aeroplane: plan and elevation at one scale, the ruler between, names, marks, findings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import ground_mm, heights_mm, widest_mm
from hardstand.views.drawing.anchors import anchors
from hardstand.views.drawing.boxes import Box, grown, text_box
from hardstand.views.drawing.findings_placed import Marks, place_marks
from hardstand.views.drawing.frame import Frame
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.labels import Ground, label_groups
from hardstand.views.drawing.notes import numbered
from hardstand.views.drawing.numbering import (
    Entry,
    entries,
    item_numbers,
    naming,
    stretch_shapes,
    stretches,
)
from hardstand.views.drawing.planes import OFF, plane_letters, plane_marks, plane_room
from hardstand.views.drawing.ruler import ruler
from hardstand.views.drawing.shapes import (
    Group,
    Hatched,
    Placement,
    Shape,
    Text,
    flat,
    line,
    rectangle,
)
from hardstand.views.drawing.view import segments, whole_view
from hardstand.views.drawing.whole_balance import balance_groups, balance_names, cg_room


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the parts of the sheet lie: the two views, the room for names, the ruler's top."""

    plan: Placement
    elevation: Placement
    room: Box
    ruler_top: float
    x_mm: tuple[float, float]
    sections: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Drawn:
    """The two views with their lettering, the marks placed; what is numbered, what found no room.

    `numbered` is the list that explains the numbers, empty where all items have their names.
    """

    shapes: tuple[Shape, ...]
    marks: Marks
    numbered: tuple[Entry, ...]
    left_out: tuple[str, ...]


def drawn(
    asbuilt: AsBuilt,
    assessment: Assessment,
    layout: Layout,
    frame: Frame,
    medium: Medium,
    head: Sequence[Shape],
    selected: Sequence[str] = (),
) -> Drawn:
    """Both views with ruler, CG and neutral point, findings and names. `head` must stay clear."""
    plan = whole_view(asbuilt, assessment, "plan", layout.plan, selected)
    side = whole_view(asbuilt, assessment, "elevation", layout.elevation, selected)
    balance = balance_groups(asbuilt, assessment, layout.plan, layout.elevation, medium)
    how = naming(len(asbuilt.items), (layout.x_mm[1] - layout.x_mm[0]) * layout.plan.scale, medium)
    half = widest_mm(asbuilt) * layout.plan.scale
    span = (layout.plan.at[1] - half - 8.0 * medium.unit, layout.plan.at[1] + half + 8.0 * medium.unit)
    over = stretch_shapes(stretches(asbuilt.items, layout.plan.scale, medium), span, layout.plan,
                          medium) if how == "stretches" else ()  # fmt: skip
    clear = (span[0] - (20.0 * medium.unit if over else 0.0), span[1])  # of the numbers of the stretches
    planes = plane_marks(plane_letters(layout.sections), clear, layout.plan, medium)
    kept = [grown(text_box(one, medium), 4.0 * medium.unit) for one in flat(head) if isinstance(one, Text)]
    kept += [grown(text_box(one, medium), medium.unit) for one in flat(over) if isinstance(one, Text)]
    kept += [*plane_room(planes, medium), *cg_room(asbuilt, assessment, layout.plan, medium)]
    places = {name: layout.plan.point(x, y) for name, (x, y, _) in anchors(asbuilt, assessment).items()}
    marks = place_marks(numbered(assessment), places, kept, plan.boxes, frame, medium)
    items = [] if how == "stretches" else plan.named(item_numbers(asbuilt), by_number=how == "numbers")
    named = [*items, *balance_names(asbuilt, assessment, layout.plan, medium)]
    beside = [*([] if items else plan.boxes), *kept, *marks.boxes]
    above = [plan.over(k) for k in range(len(items))] + [()] * (len(named) - len(items))
    lines = [*plan.lines, *segments([*planes, *over])]
    ground = Ground(layout.room, [*(one.box for one in named), *beside], lines,
                    [*marks.leaders, *segments(planes)], above)  # fmt: skip
    labels = label_groups(named, ground, medium, "plan")
    ids = {one.about.partition(".")[2] for one in labels.numbered}
    listed = entries(asbuilt, None if how == "stretches" else ids) if ids or over else []
    stations = ruler(*layout.x_mm, layout.ruler_top, layout.plan, medium,
                     _station(asbuilt, selected))  # fmt: skip
    shapes = (
        *_axes(layout), *_range_on_ruler(asbuilt, layout, medium), *plan.shapes, *side.shapes,
        *_ground_line(asbuilt, layout, medium), *planes, *over, *_planes_in_elevation(asbuilt, layout, medium),
        Group("", "ruler", stations), *balance, *labels.groups, *head,
        *_chain_line(asbuilt, layout, selected),
    )  # fmt: skip
    return Drawn(shapes, marks, tuple(listed), labels.left_out)


def _planes_in_elevation(asbuilt: AsBuilt, layout: Layout, medium: Medium) -> tuple[Shape, ...]:
    low, high = (layout.elevation.point(0.0, z)[1] for z in heights_mm(asbuilt))
    room = (high - OFF * medium.unit, low + OFF * medium.unit)
    return plane_marks(plane_letters(layout.sections), room, layout.elevation, medium)


def _axes(layout: Layout) -> list[Shape]:
    low, high = layout.x_mm
    return [line("centre", on.point(low, 0.0), on.point(high, 0.0))
            for on in (layout.plan, layout.elevation)]  # fmt: skip


def _range_on_ruler(asbuilt: AsBuilt, layout: Layout, medium: Medium) -> list[Shape]:
    """The CG range as a bar on the ruler, from the CG mark; nothing where it is not described."""
    limits = asbuilt.aeroplane.cg_range_mm
    if limits is None or asbuilt.cg_mark is None:
        return []
    low, high = (layout.plan.point(asbuilt.cg_mark[0].value + one, 0.0)[0] for one in limits)
    top = layout.ruler_top
    bar = rectangle("solid", low, top - 6.0 * medium.unit, high, top)
    return [Group("aeroplane.cg_range_mm", "ruler", (bar,), "CG range")]


def _ground_line(asbuilt: AsBuilt, layout: Layout, medium: Medium) -> list[Shape]:
    """The ground under the wheels, hatched below; nothing without legs."""
    level = ground_mm(asbuilt)
    if level is None:
        return []
    stations = [one.contact[0].value for one in asbuilt.legs]
    reach = 160.0
    ends = [layout.elevation.point(x, level) for x in (min(stations) - reach, max(stations) + reach)]
    deep = 6.0 * medium.unit
    strip = (*ends, (ends[1][0], ends[1][1] + deep), (ends[0][0], ends[0][1] + deep))
    return [line("thin", *ends), Hatched(strip)]


def _station(asbuilt: AsBuilt, selected: Sequence[str]) -> float | None:
    return next((item.centre_mm[0] for item in asbuilt.items if item.id in selected), None)


def _chain_line(asbuilt: AsBuilt, layout: Layout, selected: Sequence[str]) -> list[Shape]:
    """A line through both views at the station of what is selected."""
    station = _station(asbuilt, selected)
    if station is None:
        return []
    x = layout.plan.point(station, 0.0)[0]
    bottom = layout.elevation.point(0.0, ground_mm(asbuilt) or -100.0)[1]
    return [line("accent-thin", (x, layout.room[1]), (x, bottom))]
