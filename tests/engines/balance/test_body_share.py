from __future__ import annotations

import pytest

from hardstand.engines.balance.body_share import TYPICAL_PCT, TYPICAL_U_PCT, widths_mm
from hardstand.engines.balance.model import Stability
from tests.aeroplanes import SMALL, as_built, assessed, of_code, swapped, without_rows

BARE = without_rows(without_rows(SMALL, "section"), "bay")


def stability(text: str) -> Stability:
    """Planform and neutral point of an aeroplane."""
    found: Stability = assessed(text).results["balance.stability"]
    return found


def test_without_sections_the_body_is_typical_and_said_so() -> None:
    """5 to 12 % of the MAC, equally likely: the point moves forward and is less well known."""
    point = stability(BARE).point
    assert point is not None
    assert (point.body_pct, point.body_u_pct) == (TYPICAL_PCT, TYPICAL_U_PCT)
    assert point.value_pct == pytest.approx(point.wing_pct + point.tail_pct + point.body_pct)
    assert any("body" in one.text for one in of_code(assessed(BARE), "balance.assumption"))
    assert not any("body" in one.text for one in of_code(assessed(), "balance.assumption"))


def test_sections_over_a_part_of_the_body_are_no_body() -> None:
    """1900 mm of sections in 2000 mm are a body, in 2500 mm they are not."""
    for length, whole in ((2000, True), (2500, False)):
        text = swapped(SMALL, 'name = "Small"', f'name = "Small"\nlength_mm = {length}')
        point = stability(text).point
        assert point is not None
        assert (point.body_pct != TYPICAL_PCT) == whole


def test_the_builders_tolerance_of_the_body_counts() -> None:
    """`body_tol_pct` is the half-width of 95 %, with sections and without."""
    for text in (SMALL, BARE):
        one, two = (
            stability(text + f"[stability]\nbody_tol_pct = {tol}\n").point for tol in (2, 12)
        )
        assert one is not None
        assert two is not None
        assert (one.body_u_pct, two.body_u_pct) == (1.0, 6.0)
        assert two.normal_u_pct**2 - one.normal_u_pct**2 == pytest.approx(35.0)


def test_the_widest_of_bays_side_by_side_counts() -> None:
    """Two sections at one station give one width, and a skin is added on both sides."""
    sections = as_built(SMALL).sections
    assert widths_mm(sections) == {0.0: 44.0, 700.0: 184.0, 1900.0: 104.0}
    assert widths_mm((*sections, *sections[:1])) == widths_mm(sections)
