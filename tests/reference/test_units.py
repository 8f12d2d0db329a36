"""Conversions against the definitions of the units, as NIST SP 811 (appendix B) lists them."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from hardstand.standards.units import UNITS, from_text

DATA = Path(__file__).parent / "data" / "units_and_servo_signal.toml"


def _case(wanted: str) -> Any:
    cases = tomllib.loads(DATA.read_text(encoding="utf-8"))["case"]
    return next(case for case in cases if case["id"] == wanted)


def test_torque_units() -> None:
    """Grade seen, us-01: NIST SP 811, B.8, kilogram-force, ounce-force and pound-force torques."""
    case = _case("us-01")
    expected, rel = case["expected"], case["tolerance"]["rel"]
    kgf_cm, ozf_in, lbf_in = (from_text(f"1 {u}", "nm") for u in ("kgf cm", "ozf in", "lbf in"))
    assert kgf_cm == pytest.approx(expected["kgf_cm_in_N_m"], rel=rel)
    assert ozf_in == pytest.approx(expected["ozf_in_in_N_m"], rel=rel)
    assert lbf_in == pytest.approx(expected["lbf_in_in_N_m"], rel=rel)
    assert kgf_cm / ozf_in == pytest.approx(expected["kgf_cm_in_ozf_in"], rel=rel)
    assert kgf_cm / lbf_in == pytest.approx(expected["kgf_cm_in_lbf_in"], rel=rel)
    assert UNITS["nm"].imperial[0].size == pytest.approx(expected["lbf_in_in_N_m"], rel=rel)


def test_other_units() -> None:
    """Grade seen, us-02: exact definitions of pound, ounce, inch, foot, knot and pound-force."""
    case = _case("us-02")
    expected, rel = case["expected"], case["tolerance"]["rel"]
    assert from_text("1 lb", "g") / 1000.0 == pytest.approx(expected["pound_kg"], rel=rel)
    assert from_text("1 oz", "g") == pytest.approx(expected["ounce_g"], rel=rel)
    assert from_text("1 in", "mm") == pytest.approx(expected["inch_mm"], rel=rel)
    assert from_text("1 ft", "mm") / 1000.0 == pytest.approx(expected["foot_m"], rel=rel)
    assert from_text("1 kt", "m_s") == pytest.approx(expected["knot_m_s"], rel=1e-9 + rel)
    assert from_text("1 lbf", "n") == pytest.approx(expected["lbf_N"], rel=rel)
    shown = [UNITS[unit].imperial for unit in ("g", "mm", "n")]
    assert shown[0][0].size == pytest.approx(expected["ounce_g"], rel=rel)
    assert shown[0][1].size == pytest.approx(1000.0 * expected["pound_kg"], rel=rel)
    assert shown[1][0].size == pytest.approx(expected["inch_mm"], rel=rel)
    assert shown[2][0].size == pytest.approx(expected["lbf_N"], rel=rel)


@pytest.mark.parametrize("unit", [unit for unit in UNITS if UNITS[unit].imperial])
def test_display_factors_are_the_librarys(unit: str) -> None:
    """Each imperial display factor equals the general-purpose unit library's (seen, by running)."""
    spelled = {"mm": "in", "g": "oz", "n": "lbf", "nm": "lbf in", "kpa": "psi", "ml": "US fl oz",
               "ml_min": "US fl oz/min", "m_s": "mph", "degc": "°F", "kgm2": "lb ft^2", "mm2": "in^2"}  # fmt: skip
    one = from_text(f"1 {spelled[unit]}", unit, difference=True)
    assert UNITS[unit].imperial[0].size == pytest.approx(one, rel=1e-9)
