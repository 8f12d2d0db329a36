"""Boxes and segments: what overlaps, and what a line runs through."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from hardstand.views.drawing.boxes import crossed, overlap, stacked, text_box
from hardstand.views.drawing.inked import Inked
from hardstand.views.drawing.kinds import SCREEN
from hardstand.views.drawing.lettering import width
from hardstand.views.drawing.shapes import Text

COORDINATE = st.integers(-20, 20).map(float)
BOX = st.tuples(COORDINATE, COORDINATE, COORDINATE, COORDINATE).map(
    lambda one: (min(one[0], one[2]), min(one[1], one[3]), max(one[0], one[2]) + 1.0, max(one[1], one[3]) + 1.0)
)
SEGMENT = st.tuples(COORDINATE, COORDINATE, COORDINATE, COORDINATE)


@given(one=BOX, other=BOX)
def test_boxes_overlap_as_shapely_says(one: tuple[float, ...], other: tuple[float, ...]) -> None:
    """Against a general library: their intersection has an area or it has none."""
    shapely = pytest.importorskip("shapely", reason="shapely is not installed")
    said = shapely.box(*one).intersection(shapely.box(*other)).area > 0.0
    assert bool(overlap(stacked([one]), stacked([other]))[0, 0]) == said  # type: ignore[list-item]


@given(box=BOX, segment=SEGMENT)
def test_a_segment_runs_through_a_box_as_shapely_says(
    box: tuple[float, ...], segment: tuple[float, ...]
) -> None:
    """Against a general library: a length of it lies inside, more than on the edge."""
    shapely = pytest.importorskip("shapely", reason="shapely is not installed")
    x0, y0, x1, y1 = segment
    assume((x0, y0) != (x1, y1))
    line, area = shapely.LineString([(x0, y0), (x1, y1)]), shapely.box(*box)
    said = bool(line.relate_pattern(area, "T********"))
    assert bool(crossed(stacked([box]), np.array([segment]))[0, 0]) == said  # type: ignore[list-item]


@given(box=BOX, segment=SEGMENT)
def test_the_raster_sees_every_line_in_a_box(box: tuple[float, ...], segment: tuple[float, ...]) -> None:
    """Where a segment truly runs through a box, the raster says so as well: it errs to one side."""
    assume(segment[:2] != segment[2:])
    through = crossed(stacked([box]), np.array([segment]))[0, 0]  # type: ignore[list-item]
    ink = Inked(np.array([segment]), (-25.0, -25.0, 25.0, 25.0), 0.5)
    if through:
        assert ink.under(stacked([box]))[0]  # type: ignore[list-item]


def test_the_box_of_a_text_follows_its_anchor() -> None:
    """It is as wide as the lettering says, and lies left of, about or right of its point."""
    long = width("Gyro", "name", SCREEN)
    for anchor, left in (("start", 0.0), ("middle", -long / 2.0), ("end", -long)):
        box = text_box(Text("name", (0.0, 0.0), "Gyro", anchor), SCREEN)  # type: ignore[arg-type]
        assert (box[0], box[2]) == pytest.approx((left, left + long))
    upright = text_box(Text("name", (0.0, 0.0), "Gyro", "middle", upright=True), SCREEN)
    assert (upright[1], upright[3]) == pytest.approx((-long / 2.0, long / 2.0))
    assert upright[0] < 0.0 < upright[2]
