"""Shapes placed: a model length times the scale is the length on the sheet."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.views.drawing.boxes import bounds
from hardstand.views.drawing.shapes import Circle, Group, Path, Placement, area, placed

LENGTH = st.floats(-5000.0, 5000.0)


def test_a_hundred_millimetres_at_one_to_two_are_fifty_on_paper() -> None:
    """A box of 100 by 40 mm drawn at 1:2 measures 50 by 20 mm."""
    box = area("item", ((0.0, 0.0), (100.0, 0.0), (100.0, 40.0), (0.0, 40.0)))
    group, = placed([Group("item.a", "plan", (box,))], Placement(0.5, (30.0, 90.0)))
    assert isinstance(group, Group)
    path = group.shapes[0]
    assert isinstance(path, Path)
    assert bounds(path.strokes[0]) == pytest.approx((30.0, 70.0, 80.0, 90.0))


@given(u=LENGTH, v=LENGTH, scale=st.floats(0.002, 5.0), mirrored=st.booleans())
def test_the_second_axis_goes_up_and_the_first_where_it_is_told(
    u: float, v: float, scale: float, mirrored: bool
) -> None:
    """A point is as far from the origin on the sheet as in the model times the scale."""
    x, y = Placement(scale, (10.0, 20.0), mirrored).point(u, v)
    assert (x - 10.0) == pytest.approx((-u if mirrored else u) * scale, abs=1e-9)
    assert (20.0 - y) == pytest.approx(v * scale, abs=1e-9)


def test_a_circle_shrinks_with_the_scale() -> None:
    """Its radius times the scale, its middle where the placement says."""
    one, = placed([Circle("thin", (10.0, 0.0), 40.0)], Placement(0.25, (0.0, 0.0)))
    assert one == Circle("thin", (2.5, 0.0), 10.0)
