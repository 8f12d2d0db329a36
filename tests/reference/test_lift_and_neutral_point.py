"""Planform, lift slope and neutral point against printed values and a general-purpose library.

Each case is read from `data/lift_and_neutral_point.toml`, where its source and grade stand.
"""

from __future__ import annotations

import math
import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from hardstand.engines.balance.fuselage import body_moment_mm3, spheroid_inertia
from hardstand.engines.balance.gross_geometry import (
    neutral_point_fraction,
    neutral_point_from_slopes,
    tail_volume,
)
from hardstand.engines.balance.lattice import solve_lattice
from hardstand.engines.balance.lattice_strips import Mesh, Surface
from hardstand.engines.balance.lift_slope import (
    datcom_lift_slope,
    straight_wing_lift_slope,
    swept_wing_lift_slope,
)
from hardstand.engines.balance.panel import Panel, Section, carried_to_centreline
from hardstand.engines.balance.planform import planform

DATA = Path(__file__).parent / "data" / "lift_and_neutral_point.toml"


def _case(wanted: str) -> tuple[dict[str, Any], dict[str, Any], dict[str, Any]]:
    cases = tomllib.loads(DATA.read_text(encoding="utf-8"))["case"]
    case = next(case for case in cases if case["id"] == wanted)
    return case["inputs"], case["expected"], case["tolerance"]


def _panel(*numbers: float) -> Panel:
    return Panel(Section(*numbers[:4]), Section(*numbers[4:]))


def test_mean_aerodynamic_chord() -> None:
    """Grade seen, ln-01: Public Domain Aeronautical Software, example 1."""
    given, expected, tolerance = _case("ln-01")
    tip_x, semispan = given["tip_leading_edge_x"], given["semispan"]
    shape = planform([_panel(0, 0, 0, given["root_chord"], tip_x, semispan, 0, given["tip_chord"])])
    close = tolerance["abs"]
    assert shape.area_mm2 / 2.0 == pytest.approx(expected["semispan_area"], abs=close)
    assert shape.mac_mm == pytest.approx(expected["mac"], abs=close)
    assert shape.mac_y_mm == pytest.approx(expected["mac_y"], abs=close)
    assert shape.mac_x_mm == pytest.approx(expected["mac_leading_edge_x"], abs=close)
    assert shape.x_at(0.25) == pytest.approx(expected["mac_quarter_chord_x"], abs=close)


def test_swept_wing_of_four_vortices() -> None:
    """Grade memory, ln-02: Bertin and Smith, example 7.2, one row of four vortices a half."""
    given, expected, tolerance = _case("ln-02")
    semispan = 500.0 * given["aspect_ratio"]
    tip_x = semispan * math.tan(math.radians(given["sweep_deg"]))
    wing = [_panel(0, 0, 0, 1000, tip_x, semispan, 0, 1000)]
    mesh = Mesh(given["spanwise_panels_per_half"], given["chordwise_panels"], "uniform")
    slope = solve_lattice([wing], mesh).lift_slope(2e3 * semispan)
    assert slope == pytest.approx(expected["lift_slope_per_rad"], rel=tolerance["rel"])


def test_swept_tapered_check_wing() -> None:
    """Grade seen, ln-03: Mason, Applied Computational Aerodynamics, lift and moment slopes."""
    given, expected, tolerance = _case("ln-03")
    semispan = 1000.0 * given["semispan"]
    root, tip = 1000.0 * given["root_chord"], 1000.0 * given["tip_chord"]
    half_chord = semispan * math.tan(math.radians(given["half_chord_sweep_deg"]))
    wing = [_panel(0, 0, 0, root, 0.5 * (root - tip) + half_chord, semispan, 0, tip)]
    flow = solve_lattice([wing])
    area = 1e6 * given["reference_area"]
    moment = float(flow.moment_mm3.sum()) / area / (1000.0 * given["reference_chord"])
    assert wing[0].tip.x_mm / semispan == pytest.approx(
        math.tan(math.radians(given["leading_edge_sweep_deg"])), rel=1e-3
    )
    # The run mesh is well inside the 1.5 % that lattices are granted.
    assert tolerance["rel"] == pytest.approx(0.015)
    assert flow.lift_slope(area) == pytest.approx(expected["lift_slope_per_rad"], rel=0.003)
    assert moment == pytest.approx(expected["moment_slope_per_rad"], rel=0.005)


def test_straight_wing_formula() -> None:
    """Grade seen, ln-04: Anderson, Aircraft Performance and Design, example 2.8."""
    given, expected, tolerance = _case("ln-04")
    slope = straight_wing_lift_slope(given["aspect_ratio"], given["section_slope_per_rad"])
    assert slope == pytest.approx(expected["lift_slope_per_rad"], abs=tolerance["abs"])


def test_swept_wing_formulas() -> None:
    """Grade seen, ln-05: Anderson, equation 2.19, and the DATCOM form of it."""
    given, expected, tolerance = _case("ln-05")
    cases = zip(
        given["aspect_ratio"],
        given["half_chord_sweep_deg"],
        expected["lift_slope_per_rad"],
        strict=True,
    )
    for aspect, sweep, slope in cases:
        ours = swept_wing_lift_slope(aspect, sweep, given["section_slope_per_rad"])
        assert ours == pytest.approx(slope, abs=tolerance["abs"])
        assert datcom_lift_slope(aspect, sweep) == pytest.approx(slope, abs=tolerance["abs"])


def test_neutral_point_of_a_wind_tunnel_model() -> None:
    """Grade seen, ln-06: Anderson, Introduction to Flight, examples 7.4 to 7.7."""
    given, expected, tolerance = _case("ln-06")
    volume = tail_volume(
        1e6 * given["tail_area_m2"],
        1e3 * given["tail_arm_m"],
        1e6 * given["wing_area_m2"],
        1e3 * given["chord_m"],
    )
    ratio = given["tail_slope_per_deg"] / given["wing_body_slope_per_deg"]
    point = neutral_point_fraction(
        given["aerodynamic_centre_fraction"], volume, ratio, given["downwash_derivative"]
    )
    margin = point - given["cg_fraction"]
    close = tolerance["rel"]
    assert volume == pytest.approx(expected["tail_volume"], rel=close)
    assert point == pytest.approx(expected["neutral_point_fraction"], rel=close)
    assert margin == pytest.approx(expected["static_margin"], rel=close)
    slope = -given["wing_body_slope_per_deg"] * margin
    assert slope == pytest.approx(expected["cm_slope_per_deg"], rel=close)


def test_neutral_point_from_whole_aeroplane_slopes() -> None:
    """Grade seen, ln-07: Nelson, Flight Stability and Automatic Control, appendix B."""
    given, expected, tolerance = _case("ln-07")
    point = neutral_point_from_slopes(
        given["cg_fraction"], given["cm_alpha_per_rad"], given["cl_alpha_per_rad"]
    )
    assert point == pytest.approx(expected["neutral_point_fraction"], abs=tolerance["abs"])
    margin = point - given["cg_fraction"]
    assert margin == pytest.approx(expected["static_margin"], abs=tolerance["abs"])


@pytest.mark.parametrize("spacing", ["uniform", "cosine"])
def test_rectangular_wings(spacing: Any) -> None:
    """Grade seen, ln-08: rectangular wings by lattice, on the textbook mesh and on the run mesh."""
    given, expected, tolerance = _case("ln-08")
    run_mesh = spacing == "cosine"
    strips, boxes = given["spanwise_panels_per_half"], given["chordwise_panels"]
    mesh = Mesh() if run_mesh else Mesh(strips, boxes, spacing)
    close = tolerance["rel"] if run_mesh else 3e-4
    place_close = tolerance["per_key"]["aerodynamic_centre_fraction"]["abs"]
    cases = zip(
        given["aspect_ratio"],
        expected["lift_slope_per_rad"],
        expected["aerodynamic_centre_fraction"],
        strict=True,
    )
    for aspect, slope, place in cases:
        flow = solve_lattice([[_panel(0, 0, 0, 1000, 0, 500 * aspect, 0, 1000)]], mesh)
        assert flow.lift_slope(1e6 * aspect) == pytest.approx(slope, rel=close)
        assert flow.neutral_x_mm() / 1000.0 == pytest.approx(place, abs=place_close)


@pytest.mark.parametrize(
    "fineness, k1, k2",
    [
        (1.50, 0.305, 0.621),
        (2.00, 0.209, 0.702),
        (2.99, 0.122, 0.803),
        (3.99, 0.082, 0.860),
        (4.99, 0.059, 0.895),
        (6.01, 0.045, 0.918),
        (8.01, 0.029, 0.945),
        (9.97, 0.021, 0.960),
    ],
)
def test_inertia_factors_of_spheroids(fineness: float, k1: float, k2: float) -> None:
    """Grade memory: Munk, NACA Report 184, table of k1 and k2 over length by diameter.

    The table is worked by hand: at a fineness of 2 its 0.702 is 0.704 by the formula.
    """
    assert spheroid_inertia(fineness) == pytest.approx((k1, k2), abs=0.0025)


_SWEEP = math.tan(math.radians(35.0))
_WING = [_panel(980, 0, -25, 560, 1500, 1000, -25, 200)]
_TAIL = [_panel(1960, 95, 55, 310, 2160, 480, 55, 140)]
AEROPLANES: dict[str, list[Surface]] = {
    "swept wing and tail": [
        [_panel(900, 0, 0, 550, 900 + 1000 * _SWEEP, 1000, 20, 220)],
        [_panel(2000, 0, 150, 300, 2000 + 450 * _SWEEP, 450, 150, 140)],
    ],
    "straight wing and tail": [
        [_panel(800, 0, 0, 360, 840, 1000, 50, 240)],
        [_panel(1750, 0, 100, 220, 1790, 400, 100, 160)],
    ],
    "canard and delta": [
        [_panel(900, 0, 0, 1100, 1800, 800, 0, 200)],
        [_panel(450, 0, 100, 250, 600, 350, 100, 120)],
    ],
    "delta": [[_panel(500, 0, 0, 1200, 1450, 750, 0, 250)]],
    "jet, tail carried to the centreline": [_WING, carried_to_centreline(_TAIL)],
    "jet, tail exposed": [_WING, _TAIL],
}


def _library(surfaces: list[Surface], spanwise: int) -> tuple[float, float]:
    """Return neutral point in % MAC and lift slope per radian by the library's lattice."""
    asb = pytest.importorskip("aerosandbox", reason="aerosandbox is not installed")
    shape = planform(surfaces[0])
    wings = [
        asb.Wing(
            symmetric=True,
            xsecs=[
                asb.WingXSec(
                    xyz_le=[end.x_mm / 1e3, end.y_mm / 1e3, end.z_mm / 1e3],
                    chord=end.chord_mm / 1e3,
                    airfoil=asb.Airfoil("naca0006"),
                )
                for end in (surface[0].root, *(panel.tip for panel in surface))
            ],
        )
        for surface in surfaces
    ]
    aeroplane = asb.Airplane(
        xyz_ref=[shape.x_at(0.25) / 1e3, 0.0, 0.0],
        s_ref=shape.area_mm2 / 1e6,
        c_ref=shape.mac_mm / 1e3,
        b_ref=shape.span_mm / 1e3,
        wings=wings,
    )
    result = asb.VortexLatticeMethod(
        airplane=aeroplane,
        op_point=asb.OperatingPoint(velocity=50.0, alpha=0.0),
        spanwise_resolution=spanwise,
        chordwise_resolution=4,
        spanwise_spacing_function=np.linspace,
        chordwise_spacing_function=np.linspace,
    ).run_with_stability_derivatives(alpha=True, beta=False, p=False, q=False, r=False)
    station = 1e3 * float(np.squeeze(result["x_np"]))
    return 100.0 * shape.fraction_at(station), float(np.squeeze(result["CLa"]))


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize("name", AEROPLANES)
def test_lattice_against_a_library(name: str) -> None:
    """Within 1 % MAC and 2 % lift slope of the library's lattice, carried to a fine mesh.

    The library's equal strips err in proportion to their width, so its value for none is taken
    from two meshes (Richardson).
    """
    surfaces = AEROPLANES[name]
    shape = planform(surfaces[0])
    flow = solve_lattice(surfaces)
    coarse, fine = (np.array(_library(surfaces, spanwise)) for spanwise in (8, 16))
    place, slope = 2.0 * fine - coarse
    assert 100.0 * shape.fraction_at(flow.neutral_x_mm()) == pytest.approx(place, abs=1.0)
    assert flow.lift_slope(shape.area_mm2) == pytest.approx(slope, rel=0.02)


@pytest.mark.filterwarnings("ignore")
def test_body_alone_against_a_library() -> None:
    """Within 1 per cent of the library's slender body, which leaves the inertia factor at one."""
    asb = pytest.importorskip("aerosandbox", reason="aerosandbox is not installed")
    station = np.linspace(0.0, 2400.0, 81)
    radius = np.maximum(140.0 * np.sqrt(np.clip(1 - (station / 1200 - 1) ** 4, 0, 1)), 1.0)
    body = asb.Fuselage(
        xsecs=[
            asb.FuselageXSec(xyz_c=[x / 1e3, 0.0, 0.0], radius=r / 1e3)
            for x, r in zip(station.tolist(), radius.tolist(), strict=True)
        ]
    )
    area, chord = 0.77, 0.409
    aeroplane = asb.Airplane(
        xyz_ref=[1.2, 0.0, 0.0], s_ref=area, c_ref=chord, b_ref=2.0, fuselages=[body]
    )
    result = asb.AeroBuildup(
        airplane=aeroplane, op_point=asb.OperatingPoint(velocity=50.0, alpha=0.0)
    ).run_with_stability_derivatives(alpha=True, beta=False, p=False, q=False, r=False)
    ours = body_moment_mm3(station, 2.0 * radius, inertia_factor=1.0) / 1e9 / area / chord
    assert ours == pytest.approx(float(np.squeeze(result["Cma"])), rel=0.01)
