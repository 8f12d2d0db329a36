from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from hardstand.engines.fit.layout.raster import as_rectangles, cells_inside, counted, windows_free

POINT = st.tuples(st.integers(0, 20), st.integers(0, 20))


@settings(max_examples=60, deadline=None)
@given(points=st.lists(POINT, min_size=3, max_size=7, unique=True), half=st.booleans())
def test_cells_inside_are_those_that_the_polygon_covers(
    points: list[tuple[int, int]], half: bool
) -> None:
    """A cell is inside exactly when a geometry library says that the polygon covers its square."""
    corners = [(x / (2 if half else 1), y / (2 if half else 1)) for x, y in points]
    polygon = shapely.Polygon(corners)
    if not polygon.is_valid or polygon.area == 0.0:
        return
    found = cells_inside(tuple(corners), (-1, -1), (23, 23))
    for i, j in np.ndindex(23, 23):
        square = shapely.box(i - 1, j - 1, i, j)
        # Rounding in the library leaves slivers of 1e-15 along slanted sides.
        assert found[i, j] == (square.difference(polygon).area < 1e-9), (i, j)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10_000), st.integers(1, 6), st.integers(1, 6))
def test_windows_are_free_exactly_when_each_cell_is(seed: int, width: int, height: int) -> None:
    """The summed table tells the same as looking at every cell of every window."""
    blocked = np.random.default_rng(seed).random((8, 7)) < 0.2
    found = windows_free(counted(blocked), width, height)
    windows = np.lib.stride_tricks.sliding_window_view(blocked, (width, height))
    assert np.array_equal(found, ~windows.any(axis=(2, 3)))


@pytest.mark.parametrize("seed", range(5))
def test_rectangles_cover_each_true_cell_once(seed: int) -> None:
    """Painting the rectangles gives every true cell one coat and every other cell none."""
    cells = np.random.default_rng(seed).random((9, 9)) < 0.5
    coats = np.zeros((9, 9), dtype=int)
    for room in as_rectangles(cells, (3, -2)):
        coats[room.x0_mm - 3 : room.x1_mm - 3, room.y0_mm + 2 : room.y1_mm + 2] += 1
    assert np.array_equal(coats, cells.astype(int))
