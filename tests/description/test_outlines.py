from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.description.outlines import area_mm2, simple_outline

shapely = pytest.importorskip("shapely", reason="shapely is not installed")
POINTS = st.tuples(st.integers(-4, 4), st.integers(-4, 4)).map(lambda p: (float(p[0]), float(p[1])))


def refused(points: tuple[tuple[float, float], ...]) -> bool:
    """Whether an outline is refused."""
    try:
        simple_outline(points)
    except ValueError:
        return True
    return False


@given(st.lists(POINTS, min_size=3, max_size=8).map(tuple))
def test_outlines_are_refused_where_a_general_library_refuses_them(
    points: tuple[tuple[float, float], ...],
) -> None:
    """Crossing, touching, running back, and nothing enclosed, on a coarse grid where all of it happens."""
    if len(set(points)) < 3:
        assert refused(points)
        return
    polygon = shapely.Polygon(points)
    assert refused(points) == (not polygon.is_valid or polygon.area < 1e-6)


@given(st.lists(POINTS, min_size=3, max_size=8))
def test_the_area_is_that_of_a_general_library(points: list[tuple[float, float]]) -> None:
    """For a ring that does not cross itself; the sign says which way round."""
    if not refused(tuple(points)):
        assert abs(area_mm2(points)) == pytest.approx(shapely.Polygon(points).area, rel=1e-12)
        assert area_mm2(points[::-1]) == -area_mm2(points)


@pytest.mark.parametrize(
    "points, words",
    [
        (((0, 0), (9, 0), (0, 0), (9, 0)), "runs back on"),
        (
            ((0, 0), (9, 9), (9, 0), (0, 9)),
            "crosses itself: from point 1 to 2 and from point 3 to 4",
        ),
        (
            ((0, 0), (9, 0), (9, 9), (4, 0)),
            "crosses itself: from point 1 to 2 and from point 3 to 4",
        ),
        (((5, 5), (5, 5), (5, 5)), "three or more points that differ"),
        (((0, 0), (5, 5), (9, 9)), "runs back on itself"),
    ],
)
def test_what_is_wrong_is_said_with_the_points(
    points: tuple[tuple[float, float], ...], words: str
) -> None:
    """Points are counted from 1, as they stand in the file."""
    with pytest.raises(ValueError, match=words):
        simple_outline(points)


def test_a_ring_may_be_closed_and_points_repeated() -> None:
    """Habits of drawing programs."""
    ring = ((0.0, 0.0), (9.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 0.0))
    assert simple_outline(ring) == ring
