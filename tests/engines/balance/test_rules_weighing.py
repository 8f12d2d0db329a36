from __future__ import annotations

import pytest

from tests.aeroplanes import SMALL, assessed, of_code, weighed_as

CG = (955.0, 1.5, -12.0)


@pytest.mark.parametrize(
    "pitch, words", [(1.0, "nose up"), (-1.0, "nose down"), (8.0, None), (-8.0, None), (0.1, None)]
)
def test_a_nose_raised_on_purpose_is_not_off_level(pitch: float, words: str | None) -> None:
    """A degree is noted with its way; eight were meant, a tenth is level."""
    said = of_code(assessed(SMALL, weighed_as(8950.0, CG, pitch_deg=pitch)), "balance.level")
    assert len(said) == (words is not None)
    assert words is None or words in said[0].text


def test_a_measurement_of_a_point_is_shown_as_three_numbers() -> None:
    """A stale place says then and now as a builder would write them."""
    row = (
        '[[measurement]]\nid = "m1"\naddress = "mass.nose.at_mm"\nvalue = [301, 0, 0]\n'
        "declared = [290, 0, 0]\n"
    )
    (said,) = of_code(assessed(SMALL, row), "balance.stale")
    assert "when 290, 0, 0 was declared; now it is 300, 0, 0" in said.text
