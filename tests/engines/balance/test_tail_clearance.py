from __future__ import annotations

from math import atan2, degrees

import pytest

from hardstand.engines.balance.model import OnWheels
from tests.aeroplanes import SMALL, assessed, of_code, swapped

TAIL = "tail_strike_mm = [1900, 0, -60]"


def stance(text: str) -> OnWheels:
    """How an aeroplane stands."""
    found: OnWheels = assessed(text).results["balance.wheels"]
    return found


def test_the_angle_is_that_of_the_lowest_point_behind_the_mains() -> None:
    """200 mm above the ground, 870 mm behind the main wheels."""
    assert stance(SMALL).tail_strike_deg == pytest.approx(degrees(atan2(200.0, 870.0)))


@pytest.mark.parametrize("point, says", [("[900, 0, -60]", "ahead of the main wheels"),
                                         ("[1900, 0, -300]", "under the ground")])  # fmt: skip
def test_a_point_that_cannot_touch_first_is_said(point: str, says: str) -> None:
    """There is no spare then, and the other angles stay."""
    text = swapped(SMALL, TAIL, f"tail_strike_mm = {point}")
    found = stance(text)
    assert found.tail_strike_deg is None
    assert says in found.problem
    assert not any("spare" in one for one in found.figures.addresses)
    assert found.tip_back_deg == pytest.approx(stance(SMALL).tip_back_deg)
    assert any(says in one.text for one in of_code(assessed(text), "balance.missing"))


def test_without_a_ground_nothing_is_asked() -> None:
    """No [ground]: no tail-strike angle and no complaint."""
    text = SMALL.replace(f"[ground]\n{TAIL}\n", "")
    assert (stance(text).tail_strike_deg, stance(text).problem) == (None, "")
