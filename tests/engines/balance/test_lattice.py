"""The vortex lattice: symmetry, similarity, limits and convergence."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from hardstand.engines.balance.horseshoe import crossflow
from hardstand.engines.balance.lattice import solve_lattice
from hardstand.engines.balance.lattice_model import Lattice
from hardstand.engines.balance.lattice_strips import Mesh, Surface, strip_places
from hardstand.engines.balance.panel import Panel, Section, carried_to_centreline
from hardstand.engines.balance.planform import planform


def _panel(*numbers: float) -> Panel:
    return Panel(Section(*numbers[:4]), Section(*numbers[4:]))


WING = [_panel(980, 0, -25, 560, 1500, 1000, -25, 200)]
TAIL = [_panel(1960, 95, 55, 310, 2160, 480, 55, 140)]
SHAPES: dict[str, list[Surface]] = {
    "tail carried": [WING, carried_to_centreline(TAIL)],
    "tail exposed": [WING, TAIL],
    "tail in the wing's plane": [WING, [_panel(1960, 95, -25, 310, 2160, 480, -25, 140)]],
    "straight": [
        [_panel(800, 0, 0, 360, 840, 1000, 50, 240)],
        [_panel(1750, 0, 100, 220, 1790, 400, 100, 160)],
    ],
    "canard": [
        [_panel(900, 0, 0, 1100, 1800, 800, 0, 200)],
        [_panel(450, 0, 100, 250, 600, 350, 100, 120)],
    ],
    "delta": [[_panel(500, 0, 0, 1200, 1450, 750, 0, 250)]],
    "pointed": [[_panel(500, 0, 0, 1200, 1500, 750, 0, 0)]],
    "cranked": [
        [_panel(500, 0, 0, 1200, 1000, 300, 0, 600), _panel(1000, 300, 0, 600, 1300, 1000, 0, 200)],
        [_panel(1900, 120, 0, 250, 2000, 480, 0, 150)],
    ],
    "butterfly tail": [WING, [_panel(1960, 95, 55, 310, 2160, 400, 360, 140)]],
}


def _pct(surfaces: list[Surface], flow: Lattice) -> float:
    return 100.0 * planform(surfaces[0]).fraction_at(flow.neutral_x_mm())


@pytest.mark.parametrize("name", SHAPES)
def test_the_mesh_is_fine_enough(name: str) -> None:
    """Half as many strips and boxes move the neutral point by less than 0.3 % MAC.

    The cranked shape has stretches that are left with two strips then, and is halved from twice
    the default.
    """
    surfaces = SHAPES[name]
    fine = Mesh(32, 12) if name == "cranked" else Mesh()
    coarse = Mesh(fine.spanwise // 2, fine.chordwise // 2)
    flows = [solve_lattice(surfaces, mesh) for mesh in (fine, coarse)]
    places = [_pct(surfaces, flow) for flow in flows]
    slopes = [flow.lift_slope(1e6) for flow in flows]
    assert abs(places[0] - places[1]) < 0.3
    assert slopes[0] == pytest.approx(slopes[1], rel=0.01)


@pytest.mark.parametrize("name", ["tail exposed", "cranked", "butterfly tail"])
def test_half_model_is_the_whole_model(name: str) -> None:
    """Solving one half with its image gives what both halves give together."""
    surfaces = SHAPES[name]
    whole = [
        [
            copy
            for panel in surface
            for copy in (
                replace(panel, mirrored=False),
                Panel(
                    replace(panel.root, y_mm=-panel.root.y_mm),
                    replace(panel.tip, y_mm=-panel.tip.y_mm),
                    mirrored=False,
                ),
            )
        ]
        for surface in surfaces
    ]
    half_flow, whole_flow = (solve_lattice(each, Mesh(8, 3)) for each in (surfaces, whole))
    assert half_flow.half_model
    assert not whole_flow.half_model
    assert half_flow.lift_mm2 == pytest.approx(whole_flow.lift_mm2, rel=1e-9)
    assert half_flow.moment_mm3 == pytest.approx(whole_flow.moment_mm3, rel=1e-9)


def test_mirrored_and_given_halves_mix() -> None:
    """A mirrored wing with a tail given half by half is the aeroplane with both mirrored."""
    panel = TAIL[0]
    port = [replace(end, y_mm=-end.y_mm) for end in (panel.root, panel.tip)]
    halves = [replace(panel, mirrored=False), Panel(port[0], port[1], mirrored=False)]
    mixed = solve_lattice([WING, halves], Mesh(8, 3))
    assert mixed.lift_mm2 == pytest.approx(solve_lattice([WING, TAIL], Mesh(8, 3)).lift_mm2)


def test_moving_the_datum_moves_the_neutral_point() -> None:
    """Shift and scale of the drawing shift and scale the station and leave the slope."""

    def changed(surface: Surface, factor: float, shift: float) -> list[Panel]:
        def section(end: Section) -> Section:
            return Section(
                end.x_mm * factor + shift,
                end.y_mm * factor,
                end.z_mm * factor,
                end.chord_mm * factor,
            )

        return [Panel(section(panel.root), section(panel.tip)) for panel in surface]

    first = solve_lattice([WING, TAIL])
    second = solve_lattice([changed(WING, 1.5, 200.0), changed(TAIL, 1.5, 200.0)])
    assert second.neutral_x_mm() == pytest.approx(1.5 * first.neutral_x_mm() + 200.0)
    assert second.lift_mm2 == pytest.approx(2.25 * first.lift_mm2)


@pytest.mark.parametrize("mach", [0.2, 0.5])
def test_mach_number_obeys_the_similarity_rule(mach: float) -> None:
    """Goethert: the slope at Mach M is 1/beta times that of the wing narrowed by beta."""
    beta = float(np.sqrt(1.0 - mach**2))
    wide = [_panel(0, 0, 0, 400, 300, 1000, 0, 200)]
    narrow = [_panel(0, 0, 0, 400, 300, 1000 * beta, 0, 200)]
    fast = solve_lattice([wide], mach=mach)
    slow = solve_lattice([narrow])
    area = planform(wide).area_mm2
    assert fast.lift_slope(area) == pytest.approx(slow.lift_slope(area * beta) / beta, rel=1e-9)
    assert fast.neutral_x_mm() == pytest.approx(slow.neutral_x_mm(), rel=1e-9)


def test_very_long_wing_is_plane_flow() -> None:
    """At an aspect ratio of 2000 the slope is 2 pi and the centre at the quarter chord."""
    long_wing = [_panel(0, 0, 0, 100, 0, 100_000, 0, 100)]
    flow = solve_lattice([long_wing], Mesh(40, 4))
    assert flow.lift_slope(2e7) == pytest.approx(2.0 * np.pi, rel=0.005)
    assert flow.neutral_x_mm() == pytest.approx(25.0, abs=0.1)


def test_very_short_wing_is_slender() -> None:
    """A narrow pointed delta tends to pi A/2, with its centre two thirds down (Jones)."""
    delta = [_panel(0, 0, 0, 1000, 1000, 20, 0, 0)]
    flow = solve_lattice([delta], Mesh(16, 24))
    assert flow.lift_slope(20e3) == pytest.approx(np.pi * 0.08 / 2.0, rel=0.03)
    assert flow.neutral_x_mm() == pytest.approx(2000.0 / 3.0, rel=0.02)


def test_strips_add_up_to_the_lift() -> None:
    """The plotted loading integrated over the span is the lift of both halves."""
    mesh = Mesh()
    flow = solve_lattice([WING], mesh)
    edges, _ = strip_places([WING], mesh)
    assert 2.0 * flow.strip_load_mm @ np.diff(edges) == pytest.approx(flow.lift_mm2[0])
    assert np.all(np.diff(flow.strip_y_mm) > 0.0)


def test_downwash_takes_lift_from_the_tail() -> None:
    """The tail behind the wing lifts less than alone, the wing hardly changes."""
    both, wing, tail = (solve_lattice(parts) for parts in ([WING, TAIL], [WING], [TAIL]))
    assert 0.3 * tail.lift_mm2[0] < both.lift_mm2[1] < 0.8 * tail.lift_mm2[0]
    assert both.lift_mm2[0] == pytest.approx(wing.lift_mm2[0], rel=0.03)


def test_nearly_equal_cuts_do_no_harm() -> None:
    """A crank a fifth of a millimetre from the tail tip leaves the result as it was."""
    middle = WING[0].section_at(480.2)
    cranked = [Panel(WING[0].root, middle), Panel(middle, WING[0].tip)]
    plain, cut = (solve_lattice([wing, TAIL]).neutral_x_mm() for wing in (WING, cranked))
    assert cut == pytest.approx(plain, abs=0.3)


def test_one_vortex_against_the_textbook_integral() -> None:
    """On the middle line of one horseshoe the downwash is (1 + sqrt(1 + (s/x)^2))/(2 pi s)."""
    s, x = 3.0, np.array([0.5, 2.0, 40.0])
    points = np.stack([x, 0 * x, 0 * x], axis=1)
    v, w = crossflow(points, np.array([[0.0, -s, 0.0]]), np.array([[0.0, s, 0.0]]))
    assert w[:, 0] == pytest.approx(-(1.0 + np.sqrt(1.0 + (s / x) ** 2)) / (2.0 * np.pi * s))
    assert v[:, 0] == pytest.approx(0.0 * x, abs=1e-15)


def test_a_point_on_the_vortex_feels_nothing() -> None:
    """Points on the bound segment and on a trailing leg stay finite and take nothing from it."""
    start, end = np.array([[0.0, 0.0, 0.0]]), np.array([[0.0, 2.0, 0.0]])
    v, w = crossflow(np.array([[0.0, 1.0, 0.0], [5.0, 0.0, 0.0]]), start, end)
    assert np.all(np.isfinite(v))
    assert np.all(np.isfinite(w))
    assert w[0, 0] == pytest.approx(-2.0 / (4.0 * np.pi))  # the two legs alone


@pytest.mark.parametrize("mach", [-0.1, 1.0, float("nan")])
def test_mach_outside_the_rule_is_refused(mach: float) -> None:
    """No lattice at or above the speed of sound."""
    with pytest.raises(ValueError, match="Mach"):
        solve_lattice([WING], mach=mach)


def test_empty_lattice_is_refused() -> None:
    """Surfaces without panels and meshes without boxes raise."""
    with pytest.raises(ValueError, match="panel"):
        solve_lattice([[]])
    with pytest.raises(ValueError, match="mesh"):
        Mesh(0, 4)
