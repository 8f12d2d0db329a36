"""Published weighing, loading, shift, ballast and chord examples, each with its source and grade.

Pounds and inches are turned into grams and millimetres on the way in and back on the way out.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from hardstand.engines.balance.chord import percent_of_chord, station_of_percent
from hardstand.engines.balance.load_line import load_line
from hardstand.engines.balance.moments import roll_up
from hardstand.engines.balance.shifts import (
    after_adding,
    after_removing,
    ballast_to_reach_g,
    mass_to_move_g,
)

G_PER_LB = 453.59237  # exact, international pound
MM_PER_IN = 25.4  # exact
DATA = Path(__file__).parent / "data" / "weight_and_balance.toml"
CASES: dict[str, dict[str, Any]] = {
    case["id"]: case for case in tomllib.loads(DATA.read_text(encoding="utf-8"))["case"]
}


def _case(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """Return a case's inputs and expected values."""
    return CASES[name]["inputs"], CASES[name]["expected"]


def _cg_of_wheels_in(loads_lb: list[float], arms_in: list[float]) -> float:
    """Return the CG (in) of a level weighing with loads at arms."""
    contact = np.zeros((len(arms_in), 3))
    contact[:, 0] = np.array(arms_in) * MM_PER_IN
    return float(load_line(np.array(loads_lb) * G_PER_LB, contact).centre_mm[0]) / MM_PER_IN


def _loading(items: list[dict[str, Any]]) -> tuple[float, float, float]:
    """Return total weight (lb), total moment (lb in) and CG (in) of a loading table."""
    at_mm = np.zeros((len(items), 3))
    at_mm[:, 0] = [item["arm_in"] * MM_PER_IN for item in items]
    state = roll_up([i["weight_lb"] * G_PER_LB for i in items], at_mm, np.ones((1, len(items))))
    weight, cg = float(state.mass_g[0]) / G_PER_LB, float(state.cg_mm[0, 0]) / MM_PER_IN
    return weight, weight * cg, cg


def test_wb_01_nose_wheel_weighing() -> None:
    """Nose load at its arm from the mains; printed to 0.1 in, reproduced to the printed digit.

    FAA-H-8083-1B, Aircraft Weight and Balance Handbook (2016), electronic-calculator example; seen.
    """
    given, expected = _case("wb-01")
    nose = given["nose_load_lb"]
    cg_in = _cg_of_wheels_in(
        [nose, given["total_weight_lb"] - nose], [given["nose_arm_from_mains_in"], 0.0]
    )
    assert round(cg_in, 1) == expected["cg_from_mains_in"]
    assert round(cg_in * MM_PER_IN, 1) == expected["cg_from_mains_mm"]


def test_wb_02_tail_wheel_weighing() -> None:
    """A tail-wheel type with the datum ahead of and behind the mains; to the printed digit.

    FAA-H-8083-1A, Aircraft Weight and Balance Handbook (2007), chapter 3; value from memory.
    """
    given, expected = _case("wb-02")
    tail = given["tail_load_lb"]
    loads = [given["total_weight_lb"] - tail, tail]
    for mains_in, key in (
        (given["mains_aft_of_first_datum_in"], "cg_aft_of_first_datum_in"),
        (-given["mains_ahead_of_second_datum_in"], "cg_from_second_datum_in"),
    ):
        arms = [mains_in, mains_in + given["mains_to_tail_wheel_in"]]
        assert round(_cg_of_wheels_in(loads, arms), 1) == expected[key]


def test_wb_03_most_forward_loading() -> None:
    """Total, moment and CG of the forward check; to the printed digit, and inside the limit.

    FAA AC 43.13-1B, chapter 10, figure 10-10, page 10-13; seen.
    """
    given, expected = _case("wb-03")
    weight, moment, cg_in = _loading(given["items"])
    assert weight == pytest.approx(expected["total_weight_lb"], abs=1e-9)
    assert round(moment) == expected["total_moment_lb_in"]
    assert round(cg_in, 1) == expected["cg_in"]
    within = cg_in >= given["forward_limit_in"] and weight <= given["maximum_weight_lb"]
    assert within is expected["within_limits"]


def test_wb_04_most_passengers() -> None:
    """The moment is as printed; the quotient is the recomputed 18.32 in, not the misprinted 18.6.

    FAA AC 43.13-1B, chapter 10, figure 10-13, page 10-17; seen, expected value recomputed.
    """
    given, expected = _case("wb-04")
    weight, moment, cg_in = _loading(given["items"])
    assert weight == pytest.approx(expected["total_weight_lb"], abs=1e-9)
    assert round(moment) == expected["total_moment_lb_in"]
    assert round(cg_in, 2) == expected["cg_in"]


def test_wb_05_load_to_move() -> None:
    """How much to move between two stations to reach the limit; exact.

    FAA-H-8083-25, Pilot's Handbook of Aeronautical Knowledge, weight-shift example; seen.
    """
    given, expected = _case("wb-05")
    moved = mass_to_move_g(
        given["total_weight_lb"] * G_PER_LB,
        given["cg_in"] * MM_PER_IN,
        given["aft_limit_in"] * MM_PER_IN,
        given["from_station_in"] * MM_PER_IN,
        given["to_station_in"] * MM_PER_IN,
    )
    assert float(moved) / G_PER_LB == pytest.approx(expected["weight_to_move_lb"], rel=1e-9)


def test_wb_06_adding_and_removing() -> None:
    """The CG after adding and after removing a load; to the printed digit.

    FAA-H-8083-25, weight addition or removal; value from memory.
    """
    given, expected = _case("wb-06")
    added, removed = given["add"], given["remove"]
    after = after_adding(
        added["total_weight_lb"], added["cg_in"], added["added_lb"], added["station_in"]
    )
    assert round(float(after.cg_mm), 1) == expected["cg_after_adding_in"]
    after = after_removing(
        removed["total_weight_lb"], removed["cg_in"], removed["removed_lb"], removed["station_in"]
    )
    assert round(float(after.cg_mm), 1) == expected["cg_after_removing_in"]


def test_wb_07_least_ballast() -> None:
    """The ballast that brings the CG to the forward limit; to the printed digit, lb and kg.

    FAA Aviation Maintenance Technician Handbook - General, ballast example; seen.
    """
    given, expected = _case("wb-07")
    ballast_g = float(
        ballast_to_reach_g(
            given["loaded_weight_lb"] * G_PER_LB,
            given["cg_in"] * MM_PER_IN,
            given["forward_limit_in"] * MM_PER_IN,
            given["ballast_station_in"] * MM_PER_IN,
        )
    )
    assert round(ballast_g / G_PER_LB, 2) == expected["ballast_lb"]
    assert round(ballast_g / 1000.0, 2) == expected["ballast_kg"]


def test_wb_08_percent_of_chord() -> None:
    """The CG in per cent of the mean aerodynamic chord; to two decimals, and back.

    Airline transport pilot mass-and-balance question set, question 3; question seen, recomputed.
    """
    given, expected = _case("wb-08")
    edge_mm = given["mac_leading_edge_in"] * MM_PER_IN
    chord_mm = given["mac_trailing_edge_in"] * MM_PER_IN - edge_mm
    station_mm = given["cg_station_in"] * MM_PER_IN
    percent = percent_of_chord(station_mm, edge_mm, chord_mm)
    assert round(float(percent), 2) == expected["cg_percent_mac"]
    assert station_of_percent(percent, edge_mm, chord_mm) == pytest.approx(station_mm)


def test_wb_09_negligible_change_as_a_yardstick() -> None:
    """The rule's 0.05 % of a chord of 0.5 m is 0.25 mm, which the CG is far more finely computed to.

    FAA AC 43.13-1B, chapter 10, paragraph 10-2c; seen; the 0.25 mm is the collection's own note.
    """
    _, expected = _case("wb-09")
    percent = expected["negligible_cg_change_percent_mac"]
    assert station_of_percent(percent, 0.0, 500.0) == pytest.approx(0.25)
    # A thousandth of that change is still told apart.
    before, after = roll_up([8e3, 5e3], [[0, 0, 0], [650, 0, 0]], [[1, 1]]), 250.0 + 0.25e-3
    moved = after_adding(before.mass_g, before.cg_mm[:, 0], 13e3 * 0.25e-3 / 400.0, after + 400.0)
    assert moved.cg_mm[0] == pytest.approx(after, abs=1e-9)
