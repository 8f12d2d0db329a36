"""The CG chart: each state where its figures say, within limits drawn where they stand."""

from __future__ import annotations

import pytest

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing.balance_chart import (
    chart_of,
    limits,
    state_groups,
    state_points,
)
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.shapes import Circle, Path, flat

Demo = tuple[AsBuilt, Assessment]
ROOM = (100.0, 50.0, 900.0, 450.0)


def test_a_state_stands_at_its_cg_and_mass_with_a_bar_of_twice_u(demo: Demo) -> None:
    """The mark's middle and the ends of its bar, read back from the sheet, are the engine's figures."""
    asbuilt, assessment = demo
    points = state_points(asbuilt, assessment)
    chart = chart_of(asbuilt, points, ROOM)
    assert [one.id for one in points] == [one.id for one in asbuilt.states]
    for one, group in zip(points, state_groups(points, "ref", chart, SCREEN), strict=True):
        circle = next(shape for shape in group.shapes if isinstance(shape, Circle))
        back = (circle.centre[0] - chart.x.at[0]) / chart.x.scale
        assert back == pytest.approx(assessment.figure(f"balance.cg@{one.id}").value, abs=1e-9)
        mass = (chart.y_at - circle.centre[1]) / chart.y_scale
        assert mass == pytest.approx(assessment.figure(f"balance.mass@{one.id}").value, abs=1e-6)
        bar = next(shape for shape in group.shapes if isinstance(shape, Path)).strokes[0]
        assert (bar[1][0] - bar[0][0]) / chart.x.scale == pytest.approx(4.0 * one.cg.u, rel=1e-9)


def test_the_limits_stand_at_the_range_with_the_ground_beyond_hatched(demo: Demo) -> None:
    """Two thick lines at the ends of the range; the hatched bands lie outside them."""
    asbuilt, assessment = demo
    chart = chart_of(asbuilt, state_points(asbuilt, assessment), ROOM)
    shapes = flat(limits(asbuilt, chart, SCREEN))
    lines = [one.strokes[0][0][0] for one in shapes if isinstance(one, Path) and one.line == "cut"]
    ends = [(x - chart.x.at[0]) / chart.x.scale for x in lines]
    assert ends == pytest.approx(asbuilt.aeroplane.cg_range_mm)
    low, high = lines
    bands = [[x for x, _ in one.outline] for one in shapes if hasattr(one, "outline")]
    assert max(bands[0]) == pytest.approx(low)
    assert min(bands[1]) == pytest.approx(high)


def test_everything_lies_within_the_axes(demo: Demo) -> None:
    """The axes hold all states with their bars, the range and the target, with room to spare."""
    asbuilt, assessment = demo
    points = state_points(asbuilt, assessment)
    chart = chart_of(asbuilt, points, ROOM)
    assert chart.box() == pytest.approx(ROOM)
    values = [one.cg.value + side * one.cg.expanded for one in points for side in (-1, 1)]
    values += [*(asbuilt.aeroplane.cg_range_mm or ()), *(asbuilt.aeroplane.cg_target_mm or ())]
    assert chart.x_mm[0] < min(values)
    assert chart.x_mm[1] > max(values)
