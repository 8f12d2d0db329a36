from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.asbuilt.bays import bay_section, rounded_outline
from hardstand.description.aeroplane import Section
from hardstand.description.outlines import area_mm2

SIZE = st.floats(1.0, 300.0)


@given(SIZE, SIZE, st.floats(0.0, 400.0))
def test_a_rounded_section_lies_within_its_rectangle_and_misses_little(
    half_width: float, height: float, corner: float
) -> None:
    """Area: the rectangle less the four corners, and never more than that (the safe side)."""
    points = rounded_outline(half_width, 0.0, height, corner)
    radius = min(corner, half_width, height / 2.0)
    exact = 2.0 * half_width * height - (4.0 - math.pi) * radius**2
    area = area_mm2(points)
    assert area <= exact * (1 + 1e-12)
    # Six chords to a quarter of a circle: their polygon has 12 sin 15° of pi's area.
    assert (
        area >= exact - (math.pi - 12.0 * math.sin(math.radians(15.0))) * radius**2 - 1e-9 * exact
    )
    assert all(
        abs(y) <= half_width * (1 + 1e-12) and -1e-9 <= z <= height + 1e-9 for y, z in points
    )


def test_a_section_by_its_measures() -> None:
    """Half width, top, bottom; the usual tolerance is halved."""
    made = bay_section(Section(id="a", bay="b", x_mm=10, half_width_mm=5, top_mm=4, bottom_mm=-6))
    assert made.outline_mm == ((5.0, -6.0), (5.0, 4.0), (-5.0, 4.0), (-5.0, -6.0))
    assert (made.id, made.bay, made.x_mm, made.wall.u) == ("a", "b", 10.0, 1.0)
    assert made.wall.u_from == "class default: inside of a shell by ruler, 2 mm"


def test_a_section_by_its_outline() -> None:
    """As it stands, with the tolerance given."""
    outline = ((0.0, 0.0), (5.0, 0.0), (0.0, 5.0))
    made = bay_section(Section(id="a", bay="b", x_mm=10, outline_mm=outline, tol_mm=0.8))
    assert made.outline_mm == outline
    assert made.wall.u == pytest.approx(0.4)
    assert made.wall.address == made.wall.stands_at == "section.a.tol_mm"
