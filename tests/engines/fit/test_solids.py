"""Items, plugs, trays and keep-outs as convex solids."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fit.body import aabb
from hardstand.engines.fit.item_solids import ring_corners
from hardstand.engines.fit.model import Clearances
from hardstand.engines.fit.outlines import convex_pieces
from hardstand.engines.fit.solids import solids
from tests.engines.fit.small_aeroplane import built, item, part, results


def _pieces(body: str, parts: str, role: str) -> list[tuple[str, list[float], list[float]]]:
    found = solids(built(body, parts), {}).pieces
    ends = [(piece.subject, *aabb(piece.body)) for piece in found if piece.role == role]
    return [(name, low.round(6).tolist(), high.round(6).tolist()) for name, low, high in ends]


PORT = '[[port]]\npart = "box"\nid = "{}"\nface = "{}"\nkind = "signal"\n{}\n'
SIZE = part("box", size="[50, 30, 20]")


def test_default_plug_zone() -> None:
    """Without a stated row a zone takes the face's whole width, 10 mm from the base, 40 mm out."""
    found = _pieces(item("a", "box", "[0, 0, 0]"), SIZE + PORT.format("p", "front", ""), "zone")
    assert found == [("a.front", [-65.0, -15.0, -10.0], [-25.0, 15.0, 0.0])]


def test_turned_plug_zone() -> None:
    """A quarter turn carries the front from the nose to port."""
    body = item("a", "box", "[0, 0, 0]", "turn_deg = 90")
    found = _pieces(body, SIZE + PORT.format("p", "front", "row_mm = [20, 6]"), "zone")
    assert found == [("a.front", [-10.0, -65.0, -10.0], [10.0, -25.0, -4.0])]


def test_zone_on_top_is_counted_from_the_aft_edge() -> None:
    """Leads that leave upward at the aft end need their bend there, and no room for a plug."""
    more = "row_mm = [12, 8]\nplug_mm = 0\nbend_mm = 15"
    found = _pieces(item("a", "box", "[0, 0, 0]"), SIZE + PORT.format("p", "top", more), "zone")
    assert found == [("a.top", [17.0, -6.0, 10.0], [25.0, 6.0, 25.0])]


def test_rows_side_by_side_and_rows_that_are_the_same() -> None:
    """Rows that fit the face add up, also where only one is in use; wider ones are one stretch."""
    two = PORT.format("p", "left", "row_mm = [20, 8]") + PORT.format(
        "q", "left", "row_mm = [16, 8]"
    )
    lead = '[[lead]]\nid = "w"\nfrom = "a.p"\nto = "b.p"\n'
    body = item("a", "box", "[0, 0, 0]") + item("b", "box", "[200, 0, 0]") + lead
    assert _pieces(body, SIZE + two, "zone")[0][1:] == ([-18.0, -55.0, -10.0], [18.0, -15.0, -2.0])
    wide = two.replace("[16, 8]", "[40, 8]")
    assert _pieces(body, SIZE + wide, "zone")[0][1:] == ([-20.0, -55.0, -10.0], [20.0, -15.0, -2.0])


def test_hot_length() -> None:
    """Of a turbine only the part behind `hot_from_mm` is hot, along its own length."""
    parts = part(
        "case", "turbine", "[100, 40, 40]", 'shape = "cylinder"\nhot_degc = 500\nhot_from_mm = 70'
    )
    found = _pieces(item("a", "case", "[0, 0, 0]", "turn_deg = 90"), parts, "hot")
    assert found == [("a.hot", [-20.0, 20.0, -20.0], [20.0, 50.0, 20.0])]


@given(st.floats(5.0, 60.0), st.floats(0.3, 0.95), st.floats(0.0, 2 * np.pi), st.floats(0.0, 1.0))
def test_ring_wedges_hold_the_ring(outer: float, share: float, angle: float, where: float) -> None:
    """Every point of the ring lies in a wedge, and no wedge reaches 0.5 % beyond it."""
    inner = outer * share
    wedges = ring_corners(10.0, 2.0 * outer, 2.0 * inner)
    radius = inner + where * (outer - inner)
    point = np.array([radius * np.cos(angle), radius * np.sin(angle)])
    k = int(angle / (2.0 * np.pi / len(wedges))) % len(wedges)
    from scipy.spatial import ConvexHull

    hull = ConvexHull(wedges[k][:, :2])
    assert (hull.equations @ np.append(point, 1.0)).max() <= 1e-9
    corners = np.linalg.norm(wedges[k][:, :2], axis=1)
    assert corners.max() <= outer * 1.005
    middle = wedges[k][wedges[k][:, 2] > 0][[0, 2], :2].mean(axis=0)
    assert inner * 0.995 <= np.linalg.norm(middle) <= inner


def test_convex_pieces_cover_a_plate_with_holes() -> None:
    """Pieces of a plate with two openings are convex and have its area."""
    from shapely import MultiPoint, Point, Polygon

    corners = [(0, 0), (100, 0), (100, 40), (60, 40), (60, 80), (0, 80)]
    plate = Polygon(corners, [Point(*at).buffer(8).exterior for at in ((20, 20), (40, 60))])
    areas = [MultiPoint(one).convex_hull.area for one in convex_pieces(plate)]
    assert sum(areas) == pytest.approx(plate.area, rel=1e-9)


def test_through_an_opening_of_a_tray() -> None:
    """A rod may pass a tray through an opening; without the opening it hits the plate."""
    tray = (
        '[[tray]]\nid = "tray"\noutline_mm = [[-100, -50], [100, -50], [100, 50], [-100, 50]]\n'
        "top_z_mm = 0\n"
    )
    rod = item("rod", "rod", "[10, 0, 0]")
    parts = part("rod", size="[10, 10, 60]")
    hole = '[[hole]]\nid = "h"\ntray = "tray"\nat_mm = [10, 0]\ndiameter_mm = 40\n'

    def gap(body: str) -> float:
        found: Clearances = results(built(body, parts))["fit.clearances"]
        return float(found.figures.figure("fit.structure-gap@rod+tray").value)

    assert gap(tray + rod) < 0.0
    # the rod's corner lies 7.071 mm out; the opening is taken up to 0.5 % small
    assert gap(tray + hole + rod) == pytest.approx(20.0 - 7.071, abs=0.1)


def test_an_item_may_touch_what_it_is_mounted_on() -> None:
    """`supports` takes a pair out of the clearances, both ways."""
    parts = part("box")
    bare = item("a", "box", "[0, 0, 0]") + item("b", "box", "[20, 0, 0]")
    mounted = item("a", "box", "[0, 0, 0]") + item("b", "box", "[20, 0, 0]", 'supports = ["a"]')
    assert "fit.gap@a+b" in results(built(bare, parts))["fit.clearances"].figures.addresses
    assert "fit.gap@a+b" not in results(built(mounted, parts))["fit.clearances"].figures.addresses
