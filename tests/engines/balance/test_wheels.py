from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.wheels import braking_nose_load_n, tail_strike_deg, wheel_figures

CONTACTS = np.array([[560.0, 0.0, -314.0], [1392.0, -300.0, -314.0], [1392.0, 300.0, -314.0]])


@given(st.floats(600.0, 1380.0), st.floats(-60.0, 60.0), st.floats(-250.0, 100.0))
def test_wheel_loads_balance_the_weight(x_mm: float, y_mm: float, z_mm: float) -> None:
    """Shares add up to one and their centre of load is under the CG."""
    found = wheel_figures([[x_mm, y_mm, z_mm]], CONTACTS)
    assert found.load_share.sum() == pytest.approx(1.0)
    assert (found.load_share[0] @ CONTACTS)[:2] == pytest.approx([x_mm, y_mm])


@given(st.floats(-8.0, 8.0))
def test_figures_do_not_depend_on_how_the_aeroplane_is_drawn(turn_deg: float) -> None:
    """Turning CG, wheels and tail together about the y axis changes none of the figures."""
    angle = np.radians(turn_deg)
    turn = np.array(
        [[np.cos(angle), 0, np.sin(angle)], [0, 1, 0], [-np.sin(angle), 0, np.cos(angle)]]
    )
    cg, tail = np.array([[1295.0, 4.0, -6.0], [1299.0, 4.0, 8.0]]), np.array([[2300.0, 0.0, -40.0]])
    here, there = wheel_figures(cg, CONTACTS), wheel_figures(cg @ turn.T, CONTACTS @ turn.T)
    for name in ("load_share", "height_mm", "tip_back_deg", "overturn_deg"):
        assert getattr(there, name) == pytest.approx(getattr(here, name), abs=1e-8)
    strike = tail_strike_deg(tail @ turn.T, CONTACTS @ turn.T)
    assert strike == pytest.approx(tail_strike_deg(tail, CONTACTS), abs=1e-8)


@pytest.mark.parametrize("y_mm", [-20.0, 20.0])
def test_the_worse_side_decides_the_overturn_angle(y_mm: float) -> None:
    """A CG off the centreline is nearer to one line, and both signs give the same, bigger angle."""
    middle = wheel_figures([[1295.0, 0.0, -6.0]], CONTACTS).overturn_deg[0]
    off = wheel_figures([[1295.0, y_mm, -6.0]], CONTACTS).overturn_deg[0]
    # 20 mm sideways is 20 cos(atan(300 / 832)) nearer to that line.
    sine, cosine = 300.0 / np.hypot(300.0, 832.0), 832.0 / np.hypot(300.0, 832.0)
    assert off > middle
    assert off == pytest.approx(np.degrees(np.arctan2(308.0, 735.0 * sine - 20.0 * cosine)))


def test_a_cg_behind_the_mains_shows_as_negative() -> None:
    """The nose wheel would lift: its share and the tip-back angle are negative."""
    found = wheel_figures([[1400.0, 0.0, 0.0]], CONTACTS)
    assert found.nose_share[0] < 0.0
    assert found.tip_back_deg[0] == pytest.approx(-np.degrees(np.arctan2(8.0, 314.0)))


def test_turning_by_the_tail_strike_angle_puts_the_tail_on_the_ground() -> None:
    """Rotating the tail point about the main contact line by the angle found ends at the ground."""
    tail = np.array([[2300.0, 0.0, -40.0], [2000.0, 0.0, 90.0]])
    angle = np.radians(tail_strike_deg(tail, CONTACTS))
    arm = tail - CONTACTS[1]
    height = arm[:, 2] * np.cos(angle) - arm[:, 0] * np.sin(angle)
    assert np.min(np.abs(height)) == pytest.approx(0.0, abs=1e-9)
    assert np.all(height > -1e-9)


def test_arrangements_that_cannot_stand_are_refused() -> None:
    """Wheels in one line, a CG under the ground and a tail ahead of the mains raise."""
    with pytest.raises(ValueError, match="three corners"):
        wheel_figures([[0, 0, 10]], [[0, 0, 0], [1, 0, 0], [2, 0, 0]])
    with pytest.raises(ValueError, match="above the ground"):
        wheel_figures([[1295.0, 0.0, -400.0]], CONTACTS)
    with pytest.raises(ValueError, match="behind the main wheels"):
        tail_strike_deg([[100.0, 0.0, 0.0]], CONTACTS)


def test_braking_load_grows_with_all_but_the_wheelbase() -> None:
    """Twice the stop is twice the load; twice the wheelbase is half of it."""
    load = braking_nose_load_n(16_000.0, 308.0, [832.0, 1664.0], 3.0)
    assert load[0] == pytest.approx(2.0 * load[1])
    assert braking_nose_load_n(16_000.0, 308.0, 832.0, 6.0) == pytest.approx(2.0 * load[0])
