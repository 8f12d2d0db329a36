from __future__ import annotations

import pytest

from hardstand.engines.balance.usable import why_unusable
from tests.aeroplanes import SMALL, WEIGHED, as_built, assessed, of_code, swapped

LEVEL = WEIGHED.format(nose=1080, left=3910, right=3910)
STAND = """
[[weighing]]
id = "first"
state = "empty"
method = "stand"
stand_x_mm = 960
tips = "tail"
weight_g = 50
weight_x_mm = 100
"""
OFF = swapped(SMALL, 'id = "empty"', 'id = "empty"\nwithout = ["gear-left"]')


@pytest.mark.parametrize(
    "text, measurements, why",
    [
        (SMALL, WEIGHED.format(nose=108, left=391, right=391), "a slipped digit, or another unit"),
        (
            SMALL,
            LEVEL.replace("left-leg", "right-leg"),
            "two of its scales stand under the same leg",
        ),
        (SMALL, LEVEL.replace('"empty"', '"full"'), "the gear is up"),
        (OFF, LEVEL, "left-leg is off in its state"),
        (
            SMALL,
            LEVEL.replace('under = "nose-leg"', "at_mm = [1030, 0, -260]"),
            "stand at one station",
        ),
        (SMALL, STAND.replace("weight_x_mm = 100\n", ""), "weight_x_mm"),
        (
            SMALL,
            STAND.replace("weight_x_mm = 100", "weight_x_mm = 1800"),
            "behind the stand cannot level",
        ),
        (SMALL, STAND.replace('"tail"', '"nose"'), "ahead of the stand cannot level"),
        (SMALL, STAND.replace("weight_g = 50", "weight_g = 5000"), "is half of what it weighs"),
    ],
)
def test_what_cannot_be_is_said(text: str, measurements: str, why: str) -> None:
    """The reason stands in the finding, and the CG stays that of the parts."""
    found = assessed(text, measurements)
    (said,) = of_code(found, "balance.weigh-in-unusable")
    assert why in said.text
    assert found.figure("balance.cg@empty").value == assessed(text).figure("balance.cg@empty").value


@pytest.mark.parametrize("measurements", [LEVEL, STAND, STAND.replace('"tail"', '"level"')])
def test_what_can_be_is_used(measurements: str) -> None:
    """A sound weigh-in has no reason against it."""
    built = as_built(SMALL, measurements)
    assert why_unusable(built.weighings[0], built.states[0], built.legs, 8900.0) is None


def test_a_state_without_mass_cannot_be_weighed() -> None:
    """Nothing on board is nothing to weigh."""
    built = as_built(SMALL, LEVEL)
    assert why_unusable(built.weighings[0], built.states[0], built.legs, None) is not None
