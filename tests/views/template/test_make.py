"""A template holds what the tray is, at its true size and place."""

import math

import pytest

from hardstand.views.template import TemplateError
from hardstand.views.template.cuts import for_machine, polygon_of
from hardstand.views.template.strokes import size_of, strokes
from hardstand.views.template.value import Ring, Round, Slot, Stroke, Word, line_of
from tests.views.template.samples import (
    MOMENTS,
    TRAYS,
    cuts_of,
    demo,
    of_demo,
    outline_of,
    own,
)


@pytest.mark.parametrize("moment", MOMENTS)
def test_every_tray_of_the_demo_has_its_outline_and_all_its_openings(moment: str) -> None:
    """The corners are the description's, and each opening is cut and listed once."""
    aeroplane, _ = demo(moment)
    for tray in aeroplane.trays:
        made = of_demo(tray.id, moment)
        assert outline_of(made).points == tray.outline_mm
        holes = [one.id for one in aeroplane.holes if one.tray == tray.id]
        assert [one.id for one in made.openings] == holes
        assert set(cuts_of(made)) == {f"tray.{tray.id}", *(f"hole.{one}" for one in holes)}
        assert made.thickness_mm == tray.thickness_mm


@pytest.mark.parametrize("tray", TRAYS)
def test_what_is_engraved_lies_on_the_plate(tray: str) -> None:
    """No mark of the engraving runs over an opening or off the edge."""
    from shapely import LineString, unary_union

    made = of_demo(tray)
    cuts = {about: polygon_of(one) for about, one in cuts_of(made).items()}
    plate = cuts.pop(f"tray.{tray}")
    solid = plate.difference(unary_union(list(cuts.values()))).buffer(1e-6)
    engraved = [one for one in made.of("engrave") if isinstance(one, Stroke)]
    assert engraved
    assert all(solid.covers(LineString(one.points)) for one in engraved)


def test_stations_stand_at_their_place() -> None:
    """The main tray reaches from 480 to 830: every tenth millimetre between is marked on both edges."""
    made = of_demo("main-tray")
    marks = [one.points for one in made.of("engrave") if isinstance(one, Stroke) and one.about == "station"]
    at = {points[0][0] for points in marks if len(points) == 2 and points[0][0] == points[1][0]}
    assert {float(x) for x in range(490, 830, 10)} <= at
    assert [x for x in at if x < 480 or x > 830] == []


def test_items_stand_where_they_are_and_bear_their_names() -> None:
    """The outline from above of each item on the tray, with its name in it."""
    aeroplane, _ = demo("s1")
    made = of_demo("main-tray")
    on = {f"item.{one.id}": one for one in aeroplane.items if one.on == "main-tray"}
    rings = {one.about: one for one in made.of("reference") if isinstance(one, Ring)}
    words = {one.about: one.text for one in made.of("reference") if isinstance(one, Word)}
    assert set(rings) == set(on)
    for about, item in on.items():
        middle = polygon_of(rings[about]).centroid
        assert (middle.x, middle.y) == pytest.approx(item.centre_mm[:2], abs=1e-6)
        assert words[about] == item.name


def test_every_opening_bears_its_number_where_it_can_be_read() -> None:
    """In the middle of an opening without a cross; beside the others, on the plate, off every opening."""
    from shapely import Point as Spot

    made = own()
    cuts = {about: polygon_of(one) for about, one in cuts_of(made).items()}
    plate = cuts.pop("tray.ell")
    words = {one.about: one for one in made.marks if isinstance(one, Word) and one.about in cuts}
    assert [words[f"hole.{one.id}"].text for one in made.openings] == ["1", "2", "3", "4"]
    assert cuts["hole.window"].contains(Spot(words["hole.window"].at))
    for about in ("hole.way", "hole.slanted", "hole.notch"):
        at = Spot(words[about].at)
        assert plate.contains(at)
        assert 2.0 < cuts[about].distance(at) < 8.0
        assert all(one.distance(at) > 2.0 for one in cuts.values())


def test_an_opening_too_narrow_for_its_leads_is_named() -> None:
    """Six leads of three wires of gauge 22 need 11.1 mm; the opening has 9."""
    made = own()
    way = made.openings[0]
    assert (way.leads, way.too_narrow) == (6, True)
    assert way.needed_mm == pytest.approx(11.07, abs=0.02)
    assert made.remarks[0].startswith("The opening way is 2.1 ")
    assert "too narrow for its 6 leads" in made.remarks[0]
    assert any("notch: not within the edge" in one for one in made.remarks)


def test_for_a_machine_the_cuts_move_by_half_the_kerf() -> None:
    """The outline outward, every opening inward; what is engraved or shown stays; paper stays true."""
    plain, moved = own(), for_machine(own(0.3))
    assert own(0.3).marks == plain.marks
    assert moved.of("engrave") == plain.of("engrave")
    before, after = cuts_of(plain), cuts_of(moved)
    for about, cut in before.items():
        one, other = polygon_of(cut), polygon_of(after[about])
        sign = 1.0 if about.startswith("tray.") else -1.0
        assert other.boundary.hausdorff_distance(one.boundary) < 0.15 * 3.2  # a sharp corner goes further
        edge = one.boundary.interpolate(0.37, normalized=True)
        assert other.boundary.distance(edge) == pytest.approx(0.15, abs=1e-3)
        assert sign * (other.area - one.area) > 0.0
    assert isinstance(after["hole.way"], Round)
    assert after["hole.way"].diameter == pytest.approx(8.7)
    assert isinstance(after["hole.slanted"], Slot)
    assert after["hole.slanted"].width == pytest.approx(3.7)
    assert any("kerf of 0.3 mm" in one for one in own(0.3).remarks)


def test_a_kerf_as_wide_as_an_opening_is_refused() -> None:
    """Nothing would be left of the slot."""
    with pytest.raises(TemplateError, match="opening slanted is 4 mm wide"):
        own(4.0)


def test_a_slot_as_a_line_is_round_at_both_ends() -> None:
    """Its area is that of the straight part and a circle; every point of the ends is on the radius."""
    slot = cuts_of(own())["hole.slanted"]
    assert isinstance(slot, Slot)
    assert polygon_of(slot).area == pytest.approx(50 * 4 + math.pi * 4, rel=1e-4)
    for x, y in line_of(slot):
        near = min(math.dist((x, y), slot.start), math.dist((x, y), slot.end))
        assert near == pytest.approx(2.0, abs=1e-9)


@pytest.mark.parametrize("text", ["0123456789", "−150", "FWD TOP"])
def test_a_text_of_strokes_fills_its_room(text: str) -> None:
    """No stroke leaves the room that the text is said to take."""
    wide, high = size_of(text, 3.0)
    points = [point for one in strokes(text, (10.0, 20.0), 3.0) for point in one]
    assert all(abs(x - 10.0) <= wide / 2 + 1e-9 and abs(y - 20.0) <= high / 2 + 1e-9 for x, y in points)
    assert max(y for _, y in points) - min(y for _, y in points) == pytest.approx(high)
