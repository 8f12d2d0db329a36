"""The whole aeroplane: plan and elevation at one scale, the ruler between, names, marks, findings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.airframe import ground_mm
from hardstand.views.drawing.anchors import anchors, cg_point, judged_state, neutral_point_mm
from hardstand.views.drawing.balance_marks import cg_mark, neutral_point_mark
from hardstand.views.drawing.boxes import Box, grown, text_box
from hardstand.views.drawing.findings_placed import Marks, place_marks
from hardstand.views.drawing.frame import Frame
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.labels import Ground, Named, label_groups
from hardstand.views.drawing.notes import numbered
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
from hardstand.views.drawing.view import whole_view
from hardstand.views.number import figure_shown


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the parts of the sheet lie: the two views, the room for names, the ruler's top."""

    plan: Placement
    elevation: Placement
    room: Box
    ruler_top: float
    x_mm: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Drawn:
    """The two views with all their lettering, the marks placed, and the names that found no room."""

    shapes: tuple[Shape, ...]
    marks: Marks
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
    balance = balance_groups(asbuilt, assessment, layout, medium)
    kept = [grown(text_box(one, medium), 4.0 * medium.unit) for one in flat(head) if isinstance(one, Text)]
    radius = 10.0 * medium.unit
    state = judged_state(asbuilt)
    cg = cg_point(assessment, state) if state is not None else None
    if cg is not None:
        x, y = layout.plan.point(cg[0], cg[1])
        kept.append((x - radius, y - radius, x + radius, y + radius))
    places = {name: layout.plan.point(x, y) for name, (x, y, _) in anchors(asbuilt, assessment).items()}
    marks = place_marks(numbered(assessment), places, kept, plan.boxes, frame, medium)
    named = [*plan.named(), *balance_names(asbuilt, assessment, layout, medium)]
    ground = Ground(
        layout.room,
        [*(one.box for one in named), *kept, *marks.boxes],
        plan.lines,
        marks.leaders,
        [plan.over(k) for k in range(len(plan.boxes))] + [()] * (len(named) - len(plan.boxes)),
    )
    labels, left_out = label_groups(named, ground, medium, "plan")
    stations = ruler(*layout.x_mm, layout.ruler_top, layout.plan, medium,
                     _station(asbuilt, selected))  # fmt: skip
    shapes = (
        *_axes(layout), *_range_on_ruler(asbuilt, layout, medium), *plan.shapes, *side.shapes,
        *_ground_line(asbuilt, layout, medium),
        Group("", "ruler", stations), *balance, *labels, *marks.groups, *head,
        *_chain_line(asbuilt, layout, selected),
    )  # fmt: skip
    return Drawn(shapes, marks, tuple(left_out))


def balance_groups(
    asbuilt: AsBuilt, assessment: Assessment, layout: Layout, medium: Medium
) -> list[Group]:
    """The CG of the judged state and the neutral point, in both views."""
    found = []
    state = judged_state(asbuilt)
    cg = cg_point(assessment, state) if state is not None else None
    point = neutral_point_mm(assessment)
    for name, on in (("plan", layout.plan), ("elevation", layout.elevation)):
        level = cg[1 if name == "plan" else 2] if cg is not None else 0.0
        if point is not None:
            mark = neutral_point_mark(on.point(point, level), 5.5 * medium.unit)
            found.append(Group("balance.neutral-point@wing", name, mark, "Neutral point"))
        if cg is not None:
            mark = cg_mark(on.point(cg[0], level), 8.0 * medium.unit)
            found.append(Group(f"balance.cg@{state}", name, mark, f"CG, {state}"))
    return found


def balance_names(
    asbuilt: AsBuilt, assessment: Assessment, layout: Layout, medium: Medium
) -> list[Named]:
    """The marks of CG and neutral point with their figures, as things to be named in the plan."""
    state = judged_state(asbuilt)
    cg = cg_point(assessment, state) if state is not None else None
    found = []
    for about, said, point, radius in (
        (f"balance.cg@{state}", "CG {} behind the mark", cg and cg[0], 8.0),
        ("balance.neutral-point@wing", "neutral point, station {}", neutral_point_mm(assessment), 5.5),
    ):
        if point is None:
            continue
        x, y = layout.plan.point(point, cg[1] if cg is not None else 0.0)
        reach = radius * medium.unit
        try:
            figure = assessment.figure(about).as_json()
        except KeyError:  # no CG mark is described
            continue
        box = (x - reach, y - reach, x + reach, y + reach)
        found.append(Named(about, said.format(figure_shown(figure)), box, "micro", hollow=False))
    return found


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
