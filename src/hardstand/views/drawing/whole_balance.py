"""CG and neutral point in the views of the whole aeroplane: marks, names, and the room they take."""

from __future__ import annotations

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.anchors import cg_point, judged_state, neutral_point_mm
from hardstand.views.drawing.balance_marks import cg_mark, neutral_point_mark
from hardstand.views.drawing.boxes import Box, grown
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.labels import Named
from hardstand.views.drawing.shapes import Group, Placement
from hardstand.views.number import figure_shown


def balance_groups(
    asbuilt: AsBuilt, assessment: Assessment, plan: Placement, elevation: Placement, medium: Medium
) -> list[Group]:
    """The CG of the judged state and the neutral point, in both views."""
    found = []
    state = judged_state(asbuilt)
    cg = cg_point(assessment, state) if state is not None else None
    point = neutral_point_mm(assessment)
    for name, on in (("plan", plan), ("elevation", elevation)):
        level = cg[1 if name == "plan" else 2] if cg is not None else 0.0
        if point is not None:
            mark = neutral_point_mark(on.point(point, level), 5.5 * medium.unit)
            found.append(Group("balance.neutral-point@wing", name, mark, "Neutral point"))
        if cg is not None:
            mark = cg_mark(on.point(cg[0], level), 8.0 * medium.unit)
            found.append(Group(f"balance.cg@{state}", name, mark, f"CG, {state}"))
    return found


def balance_names(
    asbuilt: AsBuilt, assessment: Assessment, plan: Placement, medium: Medium
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
        x, y = plan.point(point, cg[1] if cg is not None else 0.0)
        reach = radius * medium.unit
        try:
            figure = assessment.figure(about).as_json()
        except KeyError:  # no CG mark is described
            continue
        box = (x - reach, y - reach, x + reach, y + reach)
        found.append(Named(about, said.format(figure_shown(figure)), box, "micro", hollow=False))
    return found


def cg_room(asbuilt: AsBuilt, assessment: Assessment, plan: Placement, medium: Medium) -> list[Box]:
    """The box of the CG's mark in the plan, which nothing may cover."""
    state = judged_state(asbuilt)
    cg = cg_point(assessment, state) if state is not None else None
    return [] if cg is None else [grown((*plan.point(*cg[:2]), *plan.point(*cg[:2])),
                                        10.0 * medium.unit)]  # fmt: skip
