"""Wheel loads, tip-back, overturn and braking of a tricycle gear, with source and grade of each."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from hardstand.engines.balance.wheels import braking_nose_load_n, wheel_figures

DATA = Path(__file__).parent / "data" / "landing_gear.toml"
CASES: dict[str, dict[str, Any]] = {
    case["id"]: case for case in tomllib.loads(DATA.read_text(encoding="utf-8"))["case"]
}
STANDARD_GRAVITY_M_S2 = 9.80665  # exact, conventional


def test_lg_01_static_wheel_loads() -> None:
    """Nose share and loads from wheelbase and CG; the loads are printed to 0.01 N.

    Static moment balance, as in M. H. Sadraey, Aircraft Design: A Systems Engineering Approach,
    chapter 9; formula seen, numbers recomputed.
    """
    given, expected = CASES["lg-01"]["inputs"], CASES["lg-01"]["expected"]
    wheelbase_mm = given["wheelbase_mm"]
    contacts = [[0, 0, 0], [wheelbase_mm, -300, 0], [wheelbase_mm, 300, 0]]
    cg_mm = [[wheelbase_mm - given["cg_ahead_of_mains_mm"], 0.0, 320.0]]
    share = wheel_figures(cg_mm, contacts).load_share[0]
    assert round(float(share[0]), 4) == expected["nose_fraction"]
    assert round(float(share[0]) * given["weight_N"], 2) == expected["nose_load_N"]
    assert round(float(share[1:].sum()) * given["weight_N"], 2) == expected["mains_load_N"]


def test_lg_03_tip_back_and_overturn() -> None:
    """Both angles from coordinates, by the textbook's definitions, to the printed digit.

    Definitions as in D. P. Raymer, Aircraft Design: A Conceptual Approach, landing-gear chapter;
    value from memory, closed form.
    """
    given, expected = CASES["lg-03"]["inputs"], CASES["lg-03"]["expected"]
    half_track_mm, main_x_mm = given["track_mm"] / 2.0, given["main_x_mm"]
    contacts = [
        [given["nose_x_mm"], 0, 0],
        [main_x_mm, -half_track_mm, 0],
        [main_x_mm, half_track_mm, 0],
    ]
    found = wheel_figures([[given["cg_x_mm"], 0.0, given["cg_height_mm"]]], contacts)
    assert round(float(found.nose_share[0]), 4) == expected["nose_fraction"]
    assert round(float(found.tip_back_deg[0]), 2) == expected["tipback_angle_deg"]
    assert round(float(found.overturn_deg[0]), 2) == expected["overturn_angle_deg"]
    distance_mm = found.height_mm[0] / np.tan(np.radians(found.overturn_deg[0]))
    assert round(float(distance_mm), 2) == expected["distance_cg_to_nose_main_line_mm"]


def test_lg_04_nose_load_under_braking() -> None:
    """What 0.3 g of braking adds to the nose wheel.

    Rigid-body moment about the main contact line; value from memory, closed form.
    """
    given, expected = CASES["lg-04"]["inputs"], CASES["lg-04"]["expected"]
    load_n = braking_nose_load_n(
        1000.0 * given["weight_N"] / STANDARD_GRAVITY_M_S2,
        given["cg_height_mm"],
        given["wheelbase_mm"],
        given["deceleration_g"] * STANDARD_GRAVITY_M_S2,
    )
    assert float(load_n) == pytest.approx(expected["extra_nose_load_N"], rel=1e-3)
