"""The CG chart: every state by its CG behind the mark and its mass, the range with its forbidden ground.

Every figure is the balance engine's; this only lays them out. A tolerance is a bar with end ticks,
plus and minus twice the standard uncertainty.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.engines.balance.model import Headline
from hardstand.figures import Figure
from hardstand.views.drawing.arrows import arrow
from hardstand.views.drawing.balance_marks import cg_mark
from hardstand.views.drawing.boxes import Box
from hardstand.views.drawing.dimensions import dimension
from hardstand.views.drawing.kinds import Medium
from hardstand.views.drawing.labels import Named
from hardstand.views.drawing.ruler import figure, round_step, ruler
from hardstand.views.drawing.shapes import Group, Hatched, Path, Placement, Point, Shape, Text, line
from hardstand.views.number import figure_shown

RADIUS, JUDGED = 6.0, 9.0  # design pixels


@dataclass(frozen=True, slots=True)
class StatePoint:
    """One state in the chart: its id, name, whether it is flown, its CG and mass."""

    id: str
    name: str
    flown: bool
    cg: Figure
    mass: Figure


@dataclass(frozen=True, slots=True)
class Chart:
    """The chart's axes on the sheet. x is mm behind the mark, y g of mass."""

    x: Placement
    y_scale: float
    y_at: float
    x_mm: tuple[float, float]
    mass_g: tuple[float, float]

    def point(self, cg_mm: float, mass_g: float) -> Point:
        """A CG and a mass on the sheet."""
        return self.x.point(cg_mm, 0.0)[0], self.y_at - mass_g * self.y_scale

    def box(self) -> Box:
        """The chart's ground on the sheet."""
        left, bottom = self.point(self.x_mm[0], self.mass_g[0])
        right, top = self.point(self.x_mm[1], self.mass_g[1])
        return left, top, right, bottom


def state_points(asbuilt: AsBuilt, assessment: Assessment) -> list[StatePoint]:
    """The states whose CG behind the mark was worked out, in the order described."""
    headline: Headline | None = assessment.results.get("balance.headline")
    if headline is None or headline.aft_mm is None:
        return []
    figures = headline.figures
    return [
        StatePoint(one.id, one.name or one.id, one.flown, figures.figure(f"balance.cg@{one.id}"),
                   figures.figure(f"balance.mass@{one.id}"))
        for one in asbuilt.states if one.id in headline.state_ids
    ]  # fmt: skip


def chart_of(asbuilt: AsBuilt, points: Sequence[StatePoint], room: Box) -> Chart:
    """Axes that hold all states with their bars, the range and the target, in a room on the sheet."""
    left, top, right, bottom = room
    xs = [one.cg.value + side * one.cg.expanded for one in points for side in (-1.0, 1.0)]
    xs += [*(asbuilt.aeroplane.cg_range_mm or ()), *(asbuilt.aeroplane.cg_target_mm or ())]
    masses = [one.mass.value for one in points]
    x0, x1 = _rounded(min(xs), max(xs), 0.12)
    m0, m1 = _rounded(min(masses), max(masses), 0.15)
    scale = (right - left) / (x1 - x0)
    y_scale = (bottom - top) / (m1 - m0)
    return Chart(Placement(scale, (left - x0 * scale, 0.0)), y_scale, bottom + m0 * y_scale, (x0, x1), (m0, m1))


def _rounded(low: float, high: float, margin: float) -> tuple[float, float]:
    span = max(high - low, 1.0)
    step = round_step(span / 12.0)
    return (math.floor((low - margin * span) / step) * step,
            math.ceil((high + margin * span) / step) * step)  # fmt: skip


def grid(chart: Chart, medium: Medium) -> tuple[Shape, ...]:
    """Lines of equal mass with their figures in kg, and the ruler of mm behind the mark."""
    left, top, right, bottom = chart.box()
    unit = medium.unit
    step = round_step(30.0 * unit / chart.y_scale)
    lines, figures = [], []
    for number in range(math.ceil(chart.mass_g[0] / step), math.floor(chart.mass_g[1] / step) + 1):
        y = chart.point(0.0, number * step)[1]
        lines.append(((left, y), (right, y)))
        at = (left - 6.0 * unit, y + 4.0 * unit)
        figures.append(Text("tick", at, figure(number * step / 1000.0), "end"))
    label = Text("micro", (left - 6.0 * unit, top - 36.0 * unit), "kg", "end")
    below = Group("", "ruler", ruler(*chart.x_mm, bottom, chart.x, medium))
    return Path("rule", tuple(lines)), *figures, label, below


def limits(asbuilt: AsBuilt, chart: Chart, medium: Medium) -> tuple[Shape, ...]:
    """The CG range as thick lines with hatched ground beyond, and the target between hidden lines."""
    _, top, _, bottom = chart.box()
    unit = medium.unit
    found: list[Shape] = []
    edges = asbuilt.aeroplane.cg_range_mm
    if edges is not None:
        deep = 13.0 * unit
        low, high = (chart.x.point(one, 0.0)[0] for one in edges)
        for x, out in ((low, -deep), (high, deep)):
            found.append(Hatched(((x, top), (x + out, top), (x + out, bottom), (x, bottom)), band=False))
            found.append(line("cut", (x, top - 20.0 * unit), (x, bottom)))
        said = f"range {edges[0]:g} to {edges[1]:g}"
        found += dimension((low, top), (high, top), top - 14.0 * unit, said, medium, over=True)
    wished = asbuilt.aeroplane.cg_target_mm
    if wished is not None:
        low, high = (chart.x.point(one, 0.0)[0] for one in wished)
        found += [line("hidden", (x, top + 12.0 * unit), (x, bottom)) for x in (low, high)]
        said = f"target {wished[0]:g} to {wished[1]:g}"
        level = top + 22.0 * unit
        found += dimension((low, level), (high, level), level, said, medium, over=True)
    return (Group("aeroplane.cg_range_mm", "limits", tuple(found), "CG range and target"),)


def flight(points: Sequence[StatePoint], chart: Chart, medium: Medium) -> tuple[Shape, ...]:
    """The way of the CG through the flown states in the order described, with arrows."""
    unit = medium.unit
    found: list[Shape] = []
    flown = [chart.point(one.cg.value, one.mass.value) for one in points if one.flown]
    for (x0, y0), (x1, y1) in pairwise(flown):
        found.append(line("outline", (x0, y0), (x1, y1)))
        if math.hypot(x1 - x0, y1 - y0) > 40.0 * unit:
            turn = math.degrees(math.atan2(y1 - y0, x1 - x0))
            tip = ((x0 + x1) / 2.0 + 5.0 * unit * math.cos(math.radians(turn)),
                   (y0 + y1) / 2.0 + 5.0 * unit * math.sin(math.radians(turn)))  # fmt: skip
            found.append(arrow(tip, turn, 10.0 * unit, 3.4 * unit))
    return tuple(found)


def state_groups(
    points: Sequence[StatePoint], judged: str | None, chart: Chart, medium: Medium
) -> list[Group]:
    """The mark of each state with its tolerance bar; that of the state of the range is larger."""
    unit = medium.unit
    found = []
    for one in points:
        x, y = chart.point(one.cg.value, one.mass.value)
        half = one.cg.expanded * chart.x.scale
        tick = 4.0 * unit
        bar = Path("thin", (((x - half, y), (x + half, y)), ((x - half, y - tick), (x - half, y + tick)),
                            ((x + half, y - tick), (x + half, y + tick))))  # fmt: skip
        radius = (JUDGED if one.id == judged else RADIUS) * unit
        said = f"{one.name}: CG {figure_shown(one.cg.as_json())}, {figure_shown(one.mass.as_json())}"
        found.append(Group(f"balance.cg@{one.id}", "chart", (bar, *cg_mark((x, y), radius)), said))
    return found


def state_names(points: Sequence[StatePoint], chart: Chart, medium: Medium) -> list[Named]:
    """The states as things to be named, each with its CG; its number is its row in the table."""
    reach = JUDGED * medium.unit
    found = []
    for rank, one in enumerate(points, 1):
        x, y = chart.point(one.cg.value, one.mass.value)
        half = max(one.cg.expanded * chart.x.scale, reach)
        name = f"{one.name} {one.cg.value:.1f}"
        box = (x - half, y - reach, x + half, y + reach)
        found.append(Named(f"balance.cg@{one.id}", name, box, hollow=False, number=str(rank)))
    return found
