from __future__ import annotations

from math import atan2, degrees, hypot

import pytest

from hardstand.engines.balance.model import OnWheels
from tests.aeroplanes import SMALL, WEIGHED, assessed, swapped

NOSE = "contact_mm = [400, 0, -260]"


def stance(text: str = SMALL, measurements: str = "") -> OnWheels | None:
    """How an aeroplane stands."""
    found: OnWheels | None = assessed(text, measurements).results["balance.wheels"]
    return found


def test_the_figures_by_hand() -> None:
    """Lever, tip-back and overturn on level ground, and the nozzle's angle, with the trigonometry."""
    found = assessed()
    x, y, z = (found.figure(f"balance.cg-{axis}@empty").value for axis in "xyz")
    assert found.figure("balance.nose-share@empty").value == pytest.approx(
        100.0 * (1030.0 - x) / 630.0
    )
    assert found.figure("balance.tip-back@empty").value == pytest.approx(
        degrees(atan2(1030.0 - x, z + 260.0))
    )
    # distance of the foot of the CG from the line of the nose wheel and the main wheel it is nearer to
    ahead, side = x - 400.0, abs(y)
    distance = (ahead * 250.0 - side * 630.0) / hypot(630.0, 250.0)
    overturn = found.figure("balance.overturn@empty").value
    assert overturn == pytest.approx(degrees(atan2(z + 260.0, distance)))
    strike = degrees(atan2(200.0, 1900.0 - 1030.0))
    spare = found.figure("balance.tip-back-spare@empty").value
    assert spare == pytest.approx(found.figure("balance.tip-back@empty").value - strike)


@pytest.mark.parametrize(
    "address, old, new",
    [
        ("leg.nose-leg.contact_mm.x", NOSE, "contact_mm = [{}, 0, -260]"),
        ("leg.nose-leg.contact_mm.z", NOSE, "contact_mm = [400, 0, {}]"),
        ("mass.nose.mass_g", "mass_g = 1000", "mass_g = {}"),
        ("ground.tail_strike_mm.z", "[1900, 0, -60]", "[1900, 0, {}]"),
    ],
)
@pytest.mark.parametrize("measurements", ["", WEIGHED.format(nose=1085, left=3935, right=3925)])
def test_slopes_are_differences(address: str, old: str, new: str, measurements: str) -> None:
    """Also where a weigh-in used the same contact point: then both ways of its effect count."""
    if measurements and address.startswith("mass"):
        return  # a mass also moves the least-squares fit itself, which is straight only to first order
    base = assessed(SMALL, measurements)
    value = next(
        one.value
        for one in base.set_of("balance.nose-share@empty").inputs
        if one.address == address
    )
    ends = [
        assessed(swapped(SMALL, old, new.format(value + by)), measurements) for by in (-0.4, 0.4)
    ]
    for name in ("nose-share", "tip-back", "overturn", "tip-back-spare"):
        figure = f"balance.{name}@empty"
        slope = dict(base.figure(figure).parents).get(address, 0.0)
        difference = (ends[1].figure(figure).value - ends[0].figure(figure).value) / 0.8
        assert slope == pytest.approx(difference, rel=2e-2, abs=2e-5), name


def test_only_states_that_stand_are_judged() -> None:
    """Gear up has no stance, nor has a state with a leg off."""
    found = stance()
    assert found is not None
    assert found.state_ids == ("empty",)
    off = swapped(SMALL, 'id = "empty"', 'id = "empty"\nwithout = ["gear-left"]')
    assert stance(off) is None


def test_a_sloping_stance_counts() -> None:
    """A nose wheel 30 mm lower lifts the nose: less tip-back, as the ground slopes under it."""
    level, raised = stance(), stance(swapped(SMALL, NOSE, "contact_mm = [400, 0, -290]"))
    assert level is not None
    assert raised is not None
    assert level.tip_back_deg[0] - raised.tip_back_deg[0] == pytest.approx(
        degrees(atan2(30.0, 630.0)), abs=0.4
    )


def test_three_wheels_on_a_hair() -> None:
    """Three contact points a thousandth apart stand on a triangle only until one is moved a step."""
    text = swapped(SMALL, NOSE, "contact_mm = [1030.001, -249.999, -259.999]")
    text = swapped(text, "contact_mm = [1030, 250, -260]", "contact_mm = [1030, -249.998, -260]")
    found = stance(text)
    assert found is not None
    assert found.state_ids == ()
    assert "triangle" in found.problem
