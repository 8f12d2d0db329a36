"""Items within outlines and skins, against a general-purpose geometry library."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.asbuilt.bays import rounded_outline
from hardstand.asbuilt.value import BaySection
from hardstand.engines.fit.bay_shape import bay_shapes, within_outline
from hardstand.engines.fit.rectangles import spare_within
from hardstand.figures import Input
from tests.engines.fit.small_aeroplane import built, figure, item, part, results

NOTCHED = [(0, 0), (100, 0), (100, 60), (60, 60), (60, 20), (50, 20), (50, 60), (0, 60)]


@given(st.floats(-30.0, 130.0), st.floats(-30.0, 90.0))
def test_point_within_outline(y: float, z: float) -> None:
    """Distance and side of a point agree with PyPI shapely on an outline with a notch."""
    from shapely import Point, Polygon

    value, slope = within_outline(np.array(NOTCHED, dtype=float), np.array([[y, z]]))
    polygon = Polygon(NOTCHED)
    away = polygon.exterior.distance(Point(y, z))
    assert abs(value[0]) == pytest.approx(away, abs=1e-9)
    if away > 1e-6:
        assert (value[0] > 0.0) == polygon.contains(Point(y, z))
        ahead = within_outline(np.array(NOTCHED, dtype=float), np.array([[y, z]]) + 1e-7 * slope)[0]
        assert ahead[0] > value[0] - 1e-9
    assert np.linalg.norm(slope) == pytest.approx(1.0)


@given(st.floats(-10.0, 90.0), st.floats(-10.0, 50.0), st.floats(1.0, 30.0), st.floats(1.0, 30.0))
def test_rectangle_within_outline(x: float, y: float, length: float, width: float) -> None:
    """Inside, the spare is the library's distance to the edge; over it, negative."""
    from shapely import Point, Polygon, box

    polygon = Polygon(NOTCHED)
    spare = float(spare_within(polygon, np.array([[x, y, x + length, y + width]]))[0])
    flat = box(x, y, x + length, y + width)
    if polygon.covers(flat):
        assert spare == pytest.approx(flat.distance(polygon.exterior), abs=1e-9)
    else:
        corners = [polygon.distance(Point(one)) for one in flat.exterior.coords]
        assert spare <= -max(corners) + 1e-9


def test_straight_between_stations() -> None:
    """In a cone of square sections the distance is square to the wall, not in the section."""
    wall = Input("section.at.tol_mm", 0.0, "mm", 0.5)
    sections = [
        BaySection(f"at-{x}", "cone", x, rounded_outline(half, -half, half, 0.0), wall)
        for x, half in ((0.0, 100.0), (100.0, 50.0))
    ]
    (shape,) = bay_shapes(sections)
    depth, slope, section, by_wall = shape.depth(np.array([[50.0, 60.0, 0.0]]))
    # the wall at y = 75, sloping 1 in 2: 15 mm in the section, 15 / sqrt(1.25) square to it
    assert depth[0] == pytest.approx(15.0 / np.sqrt(1.25))
    assert np.linalg.norm(slope[0]) == pytest.approx(1.0)
    # half way between them, both walls count half of it
    assert section[0] == 0
    assert by_wall[0] == pytest.approx([0.5 / np.sqrt(1.25)] * 2)


def test_a_neck_between_the_corners() -> None:
    """A long box whose corners fit is caught where the bay is narrow between them."""
    bay = '[[bay]]\nid = "body"\n' + "".join(
        f'[[section]]\nid = "s{x}"\nbay = "body"\nx_mm = {x}\nhalf_width_mm = {half}\n'
        "top_mm = 100\nbottom_mm = -100\n"
        for x, half in ((-200, 100), (0, 30), (200, 100))
    )
    found = results(
        built(item("a", "plank", "[0, 0, 0]"), part("plank", size="[300, 70, 10]"), bay)
    )
    one = figure(found, "fit.bay-gap@a+body")
    assert one.value == pytest.approx(-5.0)


def test_outside_any_bay_is_said() -> None:
    """An item whose middle lies in no bay is named, not passed."""
    found = results(built(item("a", "box", "[0, 2500, 0]"), part("box")))
    assert found["fit.containment"].outside_bays == ("a",)


@pytest.mark.parametrize("turn", [0, 90])
def test_uncertainty_of_the_tray_edge(turn: int) -> None:
    """U of the edge's spare: place 0.3, half of the size's 0.15, edge 0.25, whichever way it lies."""
    tray = (
        '[[tray]]\nid = "tray"\noutline_mm = [[-100, -50], [100, -50], [100, 50], [-100, 50]]\n'
        "top_z_mm = 0\n"
    )
    body = tray + item("a", "box", "[80, 0]", f'on = "tray"\nturn_deg = {turn}')
    one = figure(results(built(body, part("box"))), "fit.tray-edge@a")
    assert one.value == pytest.approx(10.0)
    assert one.u == pytest.approx(np.sqrt(0.3**2 + 0.075**2 + 0.25**2), rel=1e-4)
