"""Cross-sections: what the plane cuts, and which side is which."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import BaySection
from hardstand.assessment import Assessment
from hardstand.views.drawing.boxes import bounds
from hardstand.views.drawing.hull import box_corners, cut, seen, tube_corners
from hardstand.views.drawing.section import outline_at, section_view
from hardstand.views.drawing.section_drawing import cut_ids
from hardstand.views.drawing.shapes import Placement
from hardstand.views.drawing.sheet_set import tightest_station

Demo = tuple[AsBuilt, Assessment]
SQUARE = ((50.0, -40.0), (50.0, 60.0), (-50.0, 60.0), (-50.0, -40.0))


def section(demo: Demo, x_mm: float, outline_mm: tuple[tuple[float, float], ...]) -> BaySection:
    """A section of the demo put somewhere else with another outline."""
    return replace(demo[0].sections[0], x_mm=x_mm, outline_mm=outline_mm)


def test_between_two_sections_the_skin_is_straight(demo: Demo) -> None:
    """Half way between a square and one twice as large the outline is half as much larger."""
    large = tuple((2.0 * y, 2.0 * z) for y, z in SQUARE)
    rows = [section(demo, 100.0, SQUARE), section(demo, 200.0, large)]
    assert bounds(outline_at(rows, 150.0)) == pytest.approx((-75.0, -60.0, 75.0, 90.0))
    assert outline_at(rows, 250.0) == ()


def test_outlines_of_unlike_corners_are_compared_round(demo: Demo) -> None:
    """A square written with a point more on one side is still the same square between."""
    more = (SQUARE[0], (50.0, 10.0), *SQUARE[1:])
    rows = [section(demo, 100.0, SQUARE), section(demo, 200.0, more)]
    assert bounds(outline_at(rows, 130.0)) == pytest.approx((-50.0, -40.0, 50.0, 60.0), abs=3.0)


def test_a_cylinder_is_cut_round_across_and_square_along() -> None:
    """Across its axis the cut is a circle's width both ways; beside it there is none."""
    tube = tube_corners(0, 50.0, 20.0)
    assert bounds(cut(tube, 0.0)) == pytest.approx((-20.0, -20.0, 20.0, 20.0), abs=0.4)
    assert cut(tube, 51.0) == ()
    assert bounds(seen(tube, "plan")) == pytest.approx((-50.0, -20.0, 50.0, 20.0), abs=0.4)


def test_a_box_is_cut_where_it_is() -> None:
    """The cut of a box is its width and height, wherever along it."""
    box = box_corners(np.array([30.0, 10.0, 5.0])) + np.array([100.0, 4.0, 7.0])
    for x in (71.0, 100.0, 129.0):
        assert bounds(cut(box, x)) == pytest.approx((-6.0, 2.0, 14.0, 12.0))


def test_looking_aft_starboard_is_on_the_left(demo: Demo) -> None:
    """The receiver on the left side of the tray (y below 0) is drawn right of the middle."""
    view = section_view(*demo, 742.0, (-130.0, 130.0), Placement(1.0, (0.0, 0.0), mirrored=True), ())
    boxes = dict(zip([item.id for item in view.items], view.boxes, strict=True))
    assert set(boxes) == {"receiver-front", "gear-controller"}
    assert boxes["receiver-front"][0] > 0.0
    assert boxes["gear-controller"][2] < 0.0


def test_the_tightest_station_cuts_an_item(demo: Demo) -> None:
    """Left to itself the section goes into an item of the tightest clearance, not along its face."""
    station = tightest_station(*demo)
    assert station is not None
    assert "receiver-front" in cut_ids(demo[0], station)
