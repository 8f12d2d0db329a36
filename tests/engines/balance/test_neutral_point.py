"""The neutral point put together, its uncertainty and the chance of too small a margin."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ndtr

from hardstand.engines.balance.body_flow import BodyMoment, body_moment
from hardstand.engines.balance.geometry_sensitivity import geometry_sensitivity
from hardstand.engines.balance.lattice import solve_lattice
from hardstand.engines.balance.lattice_strips import Mesh
from hardstand.engines.balance.neutral_point import neutral_point
from hardstand.engines.balance.neutral_point_model import NeutralPoint, Tail
from hardstand.engines.balance.panel import Panel, Section, carried_to_centreline
from hardstand.engines.balance.static_margin import (
    chance_margin_below,
    static_margin_pct,
    static_margin_u_pct,
)
from hardstand.engines.balance.uniform_normal import chance_below

WING = (Panel(Section(980, 0, -25, 560), Section(1500, 1000, -25, 200)),)
EXPOSED = (Panel(Section(1960, 95, 55, 310), Section(2160, 480, 55, 140)),)
CANARD = (Panel(Section(450, 80, 60, 250), Section(600, 350, 60, 120)),)
STATION = np.linspace(0.0, 2325.0, 25)
WIDTH = 250.0 * np.sqrt(np.clip(1.0 - (2.0 * STATION / 2325.0 - 1.0) ** 4, 0.0, 1.0))


def _whole(efficiency_u: float = 0.0) -> NeutralPoint:
    body = body_moment(solve_lattice([WING]), WING, STATION, WIDTH)
    return neutral_point(WING, Tail(EXPOSED, efficiency_u=efficiency_u), body)


def test_bounds_are_the_two_ways_of_drawing_the_root() -> None:
    """Without body the ends are the lattice of exposed halves and of a tail carried through."""
    point = neutral_point(WING, Tail(EXPOSED))
    ends = [
        100.0 * point.reference.fraction_at(solve_lattice([WING, tail]).neutral_x_mm())
        for tail in (EXPOSED, carried_to_centreline(EXPOSED))
    ]
    assert [point.lower_pct, point.upper_pct] == pytest.approx(ends)
    assert point.value_pct == pytest.approx(sum(ends) / 2.0)
    assert point.u_pct == pytest.approx((ends[1] - ends[0]) / math.sqrt(12.0))


def test_contributions_add_up() -> None:
    """Wing, tail and body sum to the value; the tail moves it aft and the body forward."""
    point = _whole()
    assert point.wing_pct + point.tail_pct + point.body_pct == pytest.approx(point.value_pct)
    assert point.tail_pct > 5.0
    assert -15.0 < point.body_pct < -5.0
    assert 20.0 < point.wing_pct < 30.0
    assert point.x_mm == pytest.approx(point.reference.x_at(point.value_pct / 100.0))
    assert point.u_mm == pytest.approx(point.u_pct * point.reference.mac_mm / 100.0)


def test_a_canard_moves_the_point_forward() -> None:
    """With the small surface in front the bounds change places and stay in order."""
    point = neutral_point(WING, Tail(CANARD))
    assert point.tail_pct < 0.0
    assert point.lower_pct < point.upper_pct < point.wing_pct


def test_tailless_and_carried_tails_have_no_range() -> None:
    """When there is one way of drawing the tail, the range is a point."""
    alone = neutral_point(WING)
    carried = neutral_point(WING, Tail(carried_to_centreline(EXPOSED)))
    assert alone.lower_pct == alone.upper_pct == pytest.approx(alone.wing_pct)
    assert alone.tail_pct == pytest.approx(0.0)
    assert carried.lower_pct == carried.upper_pct
    assert carried.u_pct == 0.0


def test_body_moment_moves_the_point_by_moment_over_lift() -> None:
    """The shift is the body's moment over lift slope, area and chord."""
    plain = neutral_point(WING)
    volume = plain.lift_slope * plain.reference.area_mm2 * plain.reference.mac_mm
    point = neutral_point(WING, body=BodyMoment(0.1 * volume, 0.02 * volume, 0.0, 0.0))
    assert point.value_pct == pytest.approx(plain.value_pct - 10.0)
    assert point.u_pct == pytest.approx(2.0)
    assert point.body_u_pct == pytest.approx(2.0)


def test_tail_efficiency_sensitivity_is_the_slope() -> None:
    """The stated movement per unit of efficiency foretells a changed efficiency."""
    point = neutral_point(WING, Tail(EXPOSED))
    weaker = neutral_point(WING, Tail(EXPOSED, efficiency=0.95))
    foretold = point.value_pct - 0.05 * point.per_efficiency_pct
    assert weaker.value_pct == pytest.approx(foretold, abs=0.05)
    unsure = neutral_point(WING, Tail(EXPOSED, efficiency_u=0.05))
    assert unsure.normal_u_pct == pytest.approx(0.05 * point.per_efficiency_pct)


def test_sampling_agrees_with_the_propagated_figures() -> None:
    """A Monte-Carlo run over bounds, body and CG gives the stated u and chance."""
    point = _whole(efficiency_u=0.04)
    cg_mm, cg_u_mm, limit_pct = 1300.0, 2.1, 3.0
    random = np.random.default_rng(7)
    count = 400_000
    place = random.uniform(point.lower_pct, point.upper_pct, count)
    place += point.normal_u_pct * random.standard_normal(count)
    cg = cg_mm + cg_u_mm * random.standard_normal(count)
    margin = place - 100.0 * (cg - point.reference.mac_x_mm) / point.reference.mac_mm
    assert margin.mean() == pytest.approx(float(static_margin_pct(point, cg_mm)), abs=0.03)
    assert margin.std() == pytest.approx(float(static_margin_u_pct(point, cg_u_mm)), rel=0.01)
    chance = float(chance_margin_below(point, cg_mm, cg_u_mm, limit_pct))
    assert np.mean(margin < limit_pct) == pytest.approx(chance, abs=0.002)


def test_chance_over_states_at_once() -> None:
    """Arrays of states give arrays of chances, larger for a CG further aft."""
    chances = chance_margin_below(_whole(), np.array([1270.0, 1300.0, 1330.0]), 2.0, 3.0)
    assert chances.shape == (3,)
    assert np.all(np.diff(chances) > 0.0)


@given(
    st.floats(-30.0, 30.0),
    st.floats(-10.0, 10.0),
    st.floats(0.01, 20.0),
    st.floats(0.5, 10.0),
)
def test_closed_form_is_the_integral(
    limit: float, lower: float, width: float, sigma: float
) -> None:
    """The closed form equals the normal distribution averaged over the range by quadrature."""
    nodes, weights = np.polynomial.legendre.leggauss(120)
    places = lower + width * 0.5 * (nodes + 1.0)
    expected = 0.5 * float(np.dot(weights, ndtr((limit - places) / sigma)))
    assert float(chance_below(limit, lower, lower + width, sigma)) == pytest.approx(
        expected, abs=1e-7
    )


@given(st.floats(-5.0, 5.0), st.floats(1e-9, 1e-2))
def test_narrow_range_runs_into_the_normal(limit: float, width: float) -> None:
    """A range that shrinks gives the plain normal chance without noise."""
    plain = float(chance_below(limit, 0.0, 0.0, 1.0))
    assert plain == pytest.approx(0.5 * math.erfc(-limit / math.sqrt(2.0)))
    near = float(chance_below(limit, -0.5 * width, 0.5 * width, 1.0))
    assert near == pytest.approx(plain, abs=width**2 + 1e-11)


def test_chance_without_normal_part() -> None:
    """Without a normal part it is the uniform's share, and a step when nothing is unsure."""
    assert chance_below([-1.0, 2.5, 11.0], 0.0, 10.0, 0.0).tolist() == [0.0, 0.25, 1.0]
    assert chance_below([2.9, 3.0, 3.1], 3.0, 3.0, 0.0).tolist() == [0.0, 0.5, 1.0]
    with pytest.raises(ValueError, match="negative"):
        chance_below(0.0, 1.0, 0.0, 1.0)
    with pytest.raises(ValueError, match="negative"):
        chance_below(0.0, 0.0, 1.0, -1.0)


def test_geometry_sensitivities_are_consistent() -> None:
    """Moving everything aft moves the point as far; each part has its expected sign."""
    slopes = geometry_sensitivity(WING, Tail(EXPOSED), Mesh(8, 3))
    assert slopes.wing_station + slopes.tail_station == pytest.approx(1.0, abs=1e-3)
    assert 0.0 < slopes.tail_station < 0.3
    assert slopes.tail_chord > 0.0
    assert slopes.wing_tip_station > 0.0
    tailless = geometry_sensitivity(WING, Tail(), Mesh(8, 3))
    assert tailless.wing_station == pytest.approx(1.0)
    assert tailless.tail_chord == 0.0


def test_the_half_mesh_moves_the_whole_by_less_than_a_third_of_a_per_cent() -> None:
    """The neutral point with body and both bounds is settled at the default mesh."""
    flow = solve_lattice([WING])
    body = body_moment(flow, WING, STATION, WIDTH)
    fine, coarse = (neutral_point(WING, Tail(EXPOSED), body, mesh) for mesh in (None, Mesh(8, 3)))
    assert fine.value_pct == pytest.approx(coarse.value_pct, abs=0.3)
    assert fine.lower_pct == pytest.approx(coarse.lower_pct, abs=0.3)
    assert fine.upper_pct == pytest.approx(coarse.upper_pct, abs=0.3)
