"""Dimensions: arrows, extension lines and the place of the figure (ISO 129-1)."""

from __future__ import annotations

import pytest

from hardstand.views.drawing.dimensions import SHORT, dimension
from hardstand.views.drawing.kinds import PAPER, SCREEN, Medium
from hardstand.views.drawing.shapes import Path, Shape, Text


def tips(shapes: tuple[Shape, ...]) -> list[tuple[tuple[float, float], float]]:
    """Tip of each arrow and on which side of it its foot lies."""
    arrows = [one.strokes[0] for one in shapes if isinstance(one, Path) and one.line == "solid"]
    return [(tip, (left[0] + right[0]) / 2.0 - tip[0]) for tip, left, right in arrows]


@pytest.mark.parametrize("medium", [SCREEN, PAPER])
def test_arrows_stand_inside_where_there_is_room_and_outside_where_not(medium: Medium) -> None:
    """Just over the limit the arrows point outward from within, just under it inward from outside."""
    for factor, inside in ((1.01, True), (0.99, False)):
        far = SHORT * medium.unit * factor
        (left, foot_a), (right, foot_b) = tips(dimension((0, 0), (far, 0), 20.0, "1", medium))
        assert (left[0], right[0]) == pytest.approx((0.0, far))
        assert (foot_a > 0.0, foot_b < 0.0) == (inside, inside)


def test_the_figure_rides_above_a_level_line_and_left_of_an_upright_one() -> None:
    """Level figures are read from below, upright ones from the right side of the sheet."""
    level = next(one for one in dimension((0, 0), (100, 0), 40.0, "100", SCREEN) if isinstance(one, Text))
    assert (level.at, level.anchor, level.upright) == ((50.0, 36.0), "middle", False)
    upright = next(one for one in dimension((0, 0), (0, 100), 40.0, "100", SCREEN, upright=True)
                   if isinstance(one, Text))  # fmt: skip
    assert (upright.at, upright.anchor, upright.upright) == ((36.0, 50.0), "middle", True)


def test_extension_lines_begin_off_the_edge_and_go_past_the_line() -> None:
    """They leave a gap at what is dimensioned and run on beyond the dimension line."""
    shapes = dimension((0, 0), (100, 0), 40.0, "100", SCREEN)
    lines = [one.strokes[0] for one in shapes if isinstance(one, Path) and one.line == "thin"]
    uprights = [one for one in lines if one[0][0] == one[1][0]]
    assert uprights == [((0.0, 2.0), (0.0, 44.0)), ((100.0, 2.0), (100.0, 44.0))]


def test_a_figure_too_wide_for_its_line_stands_beside_it() -> None:
    """It begins after the end of the line, unless it is asked to stay over it."""
    beside = next(one for one in dimension((0, 0), (12, 0), 20.0, "12.5", SCREEN) if isinstance(one, Text))
    over = next(one for one in dimension((0, 0), (12, 0), 20.0, "12.5", SCREEN, over=True)
                if isinstance(one, Text))  # fmt: skip
    assert beside.at[0] > 28.0
    assert over.at[0] == pytest.approx(6.0)
