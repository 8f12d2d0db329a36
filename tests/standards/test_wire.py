"""Wire by gauge."""

import pytest

from hardstand.standards.wire import conductor_diameter_mm, outside_diameter_mm


@pytest.mark.parametrize("awg", range(4, 38))
def test_three_gauges_up_is_half_the_area_and_the_insulation_goes_round(awg: int) -> None:
    """The next size but two has half the copper, and every wire is thicker than its copper."""
    assert (conductor_diameter_mm(awg + 3) / conductor_diameter_mm(awg)) ** 2 == pytest.approx(0.499, abs=1e-3)
    assert outside_diameter_mm(awg) > conductor_diameter_mm(awg) + 0.6
