"""The scale of per cent MAC under the ruler of the CG chart, and where the neutral point lies."""

from __future__ import annotations

import math

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.arrows import arrow
from hardstand.views.drawing.balance_chart import Chart
from hardstand.views.drawing.balance_marks import neutral_point_mark
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.ruler import HEIGHT, figure, round_step
from hardstand.views.drawing.shapes import Group, Path, Shape, Text, line
from hardstand.views.number import figure_shown


def mac_scale(asbuilt: AsBuilt, assessment: Assessment, chart: Chart, medium: Medium) -> tuple[Shape, ...]:
    """Ticks at whole per cent of the MAC; nothing where the planform or the mark is not known."""
    try:
        chord = assessment.figure("balance.mac@wing").value
        edge = assessment.figure("balance.mac-leading-edge@wing").value
    except KeyError:
        return ()
    if asbuilt.cg_mark is None:
        return ()
    unit = medium.unit
    left, _, _, bottom = chart.box()
    top = bottom + (HEIGHT + 2.0) * unit
    start = edge - asbuilt.cg_mark[0].value  # the chord's leading edge, mm behind the mark
    step = round_step(34.0 * unit / (chart.x.scale * chord / 100.0))
    first = math.ceil((chart.x_mm[0] - start) / chord * 100.0 / step)
    last = math.floor((chart.x_mm[1] - start) / chord * 100.0 / step)
    ticks, figures = [], []
    for number in range(first, last + 1):
        x = chart.x.point(start + number * step / 100.0 * chord, 0.0)[0]
        ticks.append(((x, top), (x, top + 7.0 * unit)))
        figures.append(Text("tick", (x, top + 20.0 * unit), figure(round(number * step, 6)), "middle"))
    name = Text("micro", (left - 6.0 * unit, top + 20.0 * unit), "% MAC", "end")
    return (Group("balance.mac@wing", "scale", (Path("thin", tuple(ticks)), *figures, name)),)


def neutral_point(assessment: Assessment, asbuilt: AsBuilt, chart: Chart, medium: Medium) -> tuple[Shape, ...]:
    """The neutral point on the upper edge of the chart, or an arrow toward it beyond the chart."""
    try:
        found = assessment.figure("balance.neutral-point@wing")
        share = assessment.figure("balance.neutral-point-mac@wing")
    except KeyError:
        return ()
    if asbuilt.cg_mark is None:
        return ()
    unit = medium.unit
    _, top, right, _ = chart.box()
    at = found.value - asbuilt.cg_mark[0].value
    lines = ("neutral point", f"{figure_shown(share.as_json())} MAC")
    y = top + 84.0 * unit
    shapes: list[Shape]
    if chart.x_mm[0] <= at <= chart.x_mm[1]:
        x = chart.x.point(at, 0.0)[0]
        half = found.expanded * chart.x.scale
        shapes = [line("thin", (max(x - half, chart.box()[0]), y), (min(x + half, right), y)),
                  *neutral_point_mark((x, y), 6.0 * unit)]  # fmt: skip
        place, anchor = (min(x, right - 40.0 * unit), y - 12.0 * unit), "middle"
    else:
        behind = at > chart.x_mm[1]
        x = right if behind else chart.box()[0]
        out = -64.0 * unit if behind else 64.0 * unit
        turn = 0.0 if behind else 180.0
        shapes = [line("thin", (x + out, y), (x, y)), arrow((x, y), turn, 9.0 * unit, 3.0 * unit)]
        place, anchor = (x, y - 8.0 * unit), "end" if behind else "start"
    step = 15.0 * unit
    shapes += [Text("micro", (place[0], place[1] - row * step), words, anchor)  # type: ignore[arg-type]
               for row, words in enumerate(reversed(lines))]  # fmt: skip
    return (Group("balance.neutral-point@wing", "chart", tuple(shapes), " ".join(lines)),)
