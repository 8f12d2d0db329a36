"""The body's moment, alone and in the wing's flow."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.body_flow import body_moment, flow_along_body
from hardstand.engines.balance.fuselage import body_moment_mm3, spheroid_inertia
from hardstand.engines.balance.lattice import solve_lattice
from hardstand.engines.balance.lattice_strips import Mesh
from hardstand.engines.balance.panel import Panel, Section

WING = [Panel(Section(980, 0, -25, 560), Section(1500, 1000, -25, 200))]
STATION = np.linspace(0.0, 2325.0, 25)
WIDTH = 250.0 * np.sqrt(np.clip(1.0 - (2.0 * STATION / 2325.0 - 1.0) ** 4, 0.0, 1.0))


@given(st.floats(1.0, 60.0), st.floats(1.001, 1.2))
def test_longer_bodies_carry_less_along_and_more_across(fineness: float, longer: float) -> None:
    """k1 falls and k2 rises with fineness, between the sphere and the endless cylinder."""
    k1, k2 = spheroid_inertia(fineness)
    k1_longer, k2_longer = spheroid_inertia(fineness * longer)
    assert 0.0 < k1_longer < k1 + 1e-6 < 0.51
    assert 0.49 < k2 - 1e-6 < k2_longer < 1.0


def test_sphere_and_its_neighbour() -> None:
    """The sphere's factors are one half and the closed form runs into them without a step."""
    assert spheroid_inertia(1.0) == (0.5, 0.5)
    assert spheroid_inertia(1.0011) == pytest.approx((0.5, 0.5), abs=1e-3)
    with pytest.raises(ValueError, match="fineness"):
        spheroid_inertia(0.9)


def test_ellipsoid_has_twice_its_volume() -> None:
    """Munk: the moment slope of a slender ellipsoid over dynamic pressure is 2 (k2 - k1) V."""
    x = np.linspace(0.0, 2000.0, 4001)
    width = 250.0 * np.sqrt(1.0 - (x / 1000.0 - 1.0) ** 2)
    k1, k2 = spheroid_inertia(8.0)
    volume = np.pi / 6.0 * 2000.0 * 250.0**2
    assert body_moment_mm3(x, width) == pytest.approx(2.0 * (k2 - k1) * volume, rel=1e-5)


@given(st.floats(0.2, 5.0))
def test_moment_scales_as_a_volume(factor: float) -> None:
    """A body drawn larger all round has a moment larger by the cube."""
    scaled = body_moment_mm3(factor * STATION, factor * WIDTH)
    assert scaled == pytest.approx(factor**3 * body_moment_mm3(STATION, WIDTH))


def test_flow_along_the_body_has_three_regions() -> None:
    """Upwash rising towards the wing, nothing along its chord, downwash behind it."""
    flow = solve_lattice([WING])
    ahead = flow_along_body(flow, WING, np.array([0.0, 500.0, 900.0]))
    assert np.all(np.diff(ahead) > 0.0)
    assert 1.0 < ahead[0] < 1.1
    assert flow_along_body(flow, WING, [1000.0, 1300.0, 1530.0]).tolist() == [0.0, 0.0, 0.0]
    behind = flow_along_body(flow, WING, [1900.0, 2300.0], z_mm=55.0)
    assert np.all((behind > 0.2) & (behind < 0.9))


def test_flow_along_the_body_is_that_of_both_halves() -> None:
    """Half model and whole model bend the stream on the centreline alike."""
    whole = [
        Panel(WING[0].root, WING[0].tip, mirrored=False),
        Panel(WING[0].root, Section(1500, -1000, -25, 200), mirrored=False),
    ]
    station = [200.0, 800.0, 2000.0]
    half_flow = flow_along_body(solve_lattice([WING]), WING, station, 20.0)
    whole_flow = flow_along_body(solve_lattice([whole]), whole, station, 20.0)
    assert half_flow == pytest.approx(whole_flow)


def test_body_moment_lies_between_its_bounds() -> None:
    """The value is the middle of the two bounds and its uncertainty holds both."""
    body = body_moment(solve_lattice([WING]), WING, STATION, WIDTH)
    assert body.in_wing_flow_mm3 < body.value_mm3 < body.alone_mm3
    assert body.value_mm3 == pytest.approx(0.5 * (body.in_wing_flow_mm3 + body.alone_mm3))
    assert abs(body.alone_mm3 - body.value_mm3) < 2.0 * body.u_mm3
    sure = body_moment(solve_lattice([WING]), WING, STATION, WIDTH, shape_u=0.0)
    spread = sure.alone_mm3 - sure.in_wing_flow_mm3
    assert sure.u_mm3 == pytest.approx(spread / np.sqrt(12.0))


def test_body_moment_does_not_hang_on_the_mesh() -> None:
    """Half the lattice and three times the stations change the moment by less than 2 per cent."""
    fine_station = np.linspace(0.0, 2325.0, 73)
    fine_width = 250.0 * np.sqrt(np.clip(1.0 - (2.0 * fine_station / 2325.0 - 1.0) ** 4, 0.0, 1.0))
    first = body_moment(solve_lattice([WING]), WING, STATION, WIDTH)
    second = body_moment(solve_lattice([WING], Mesh(8, 3)), WING, fine_station, fine_width)
    assert first.value_mm3 == pytest.approx(second.value_mm3, rel=0.02)


@pytest.mark.parametrize(
    "station, width",
    [
        ([0.0], [10.0]),
        ([0.0, 0.0, 10.0], [0.0, 5.0, 5.0]),
        ([0.0, 10.0], [0.0, -5.0]),
        ([0.0, 10.0], [0.0, 0.0]),
        ([0.0, 10.0], [5.0]),
        ([0.0, float("nan")], [5.0, 5.0]),
    ],
)
def test_impossible_bodies_are_refused(station: list[float], width: list[float]) -> None:
    """Stations that do not rise and widths that cannot be are said to be so."""
    with pytest.raises(ValueError, match="body"):
        body_moment_mm3(station, width)
