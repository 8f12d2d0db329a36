"""Wire and cells against standards, tables, textbook examples and open data, each with its grade."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from hardstand.standards import cells, wire_resistance
from hardstand.standards.contacts import BOND_MOST_MOHM, CONTACTS
from hardstand.standards.wire import conductor_diameter_mm
from hardstand.standards.wire_current import BUNDLE_A, bundle_current_a
from hardstand.standards.wire_resistance import (
    conductor_area_mm2,
    gauge_mohm_per_m,
    loop_mohm,
    mohm_per_m,
    most_mohm_per_m,
    temperature_ratio,
)

DATA = Path(__file__).parent / "data"
CASES: dict[str, dict[str, Any]] = {
    case["id"]: case
    for name in ("copper_wire", "dc_networks_and_batteries")
    for case in tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))["case"]
}


def _case(name: str) -> tuple[dict[str, Any], dict[str, Any], dict[str, Any]]:
    """A case's inputs, expected values and tolerances."""
    return CASES[name]["inputs"], CASES[name]["expected"], CASES[name]["tolerance"]


def test_cw_01_gauge_sizes() -> None:
    """Diameter and area of American wire gauges. ASTM B258; seen."""
    given, expected, tolerance = _case("cw-01")
    sizes = given["gauge"]
    rel = tolerance["rel"]
    assert [conductor_diameter_mm(g) for g in sizes] == pytest.approx(expected["diameter_mm"], rel=rel)
    assert [conductor_area_mm2(g) for g in sizes] == pytest.approx(expected["area_mm2"], rel=rel)
    ratio = conductor_diameter_mm(20) / conductor_diameter_mm(21)
    assert ratio == pytest.approx(expected["ratio_between_sizes"], abs=1e-7)


def test_cw_02_resistance_of_solid_wire() -> None:
    """Resistance at 20 °C. NBS Handbook 100, Copper Wire Tables (1966), as reprinted; seen."""
    given, expected, tolerance = _case("cw-02")
    ours = [gauge_mohm_per_m(g, given["temperature_C"]) for g in given["gauge"]]
    assert ours == pytest.approx(expected["ohm_per_km"], rel=tolerance["rel"])
    per_1000_ft = [0.3048 * value for value in ours]
    assert per_1000_ft == pytest.approx(expected["ohm_per_1000_ft"], rel=0.001)


def test_cw_03_copper() -> None:
    """Resistivity, density and temperature coefficient. IEC 60028; seen."""
    given, expected, tolerance = _case("cw-03")
    rel = tolerance["rel"]
    resistivity = wire_resistance.RESISTIVITY
    assert 1.0 / resistivity == pytest.approx(given["conductivity_MS_per_m"])
    assert resistivity == pytest.approx(expected["resistivity_ohm_mm2_per_m"], rel=rel)
    by_mass = resistivity * wire_resistance.COPPER_KG_M3 / 1e3
    assert by_mass == pytest.approx(expected["mass_resistivity_ohm_g_per_m2"], rel=rel)
    slope = temperature_ratio(21.0) - 1.0
    assert slope == pytest.approx(expected["temperature_coefficient_at_20C_per_K"], rel=rel)
    nothing = expected["inferred_zero_resistance_C"]
    assert temperature_ratio(nothing) == pytest.approx(0.0, abs=0.1 * 0.00393)


def test_cw_04_voltage_drop() -> None:
    """Drop of four runs of wire. FAA AC 43.13-1B CHG 1, table 11-7, page 11-22; seen, recomputed.

    The table's length is that of the conductor, so it is half there and half back.
    """
    given, expected, tolerance = _case("cw-04")
    for ohm_per_ft, length_ft, drop_v in zip(
        given["ohm_per_ft"], given["length_ft"], expected["drop_V"], strict=True
    ):
        per_m = 1e3 * ohm_per_ft / 0.3048
        ohm = 1e-3 * loop_mohm(0.5 * 304.8 * length_ft, per_m)
        assert ohm * given["current_A"] == pytest.approx(drop_v, abs=tolerance["abs"])


def test_cw_05_aircraft_wire_table() -> None:
    """Highest resistance and bundle currents. FAA AC 43.13-1B CHG 1, table 11-9; seen."""
    given, expected, _ = _case("cw-05")
    sizes = given["gauge"]
    most = [0.3048 * most_mohm_per_m(g) for g in sizes]
    assert most == pytest.approx(expected["max_ohm_per_1000_ft"])
    assert [bundle_current_a(g, 105.0) for g in sizes] == expected["bundle_current_A_105C_wire"]
    assert [bundle_current_a(g, 200.0) for g in sizes] == expected["bundle_current_A_200C_wire"]
    assert sorted(BUNDLE_A) == sorted(sizes)


def test_cw_06_temperature() -> None:
    """Ratio of resistance to that at 20 °C. FAA AC 43.13-1B CHG 1, paragraph 11-66; seen."""
    given, expected, tolerance = _case("cw-06")
    ours = [temperature_ratio(t) for t in given["temperature_C"]]
    assert ours == pytest.approx(expected["ratio_to_20C"], abs=tolerance["abs"])
    lengths = [1.0 / ratio for ratio in ours]
    assert lengths == pytest.approx(expected["permitted_length_ratio"], abs=tolerance["abs"])


def test_cw_07_textbook_cable() -> None:
    """A cable by its size. J. O. Bird, Electrical Circuit Theory, chapter 3, example 7; seen.

    The textbook's copper resists 1.7e-8 ohm metres, ours 1.4 % more.
    """
    given, expected, tolerance = _case("cw-07")
    cable = given["cable"]
    area_mm2 = 0.25 * 3.141592653589793 * (1e3 * cable["diameter_m"]) ** 2
    ohm = 1e-3 * mohm_per_m(area_mm2) * cable["length_m"]
    scaled = ohm * cable["resistivity_ohm_m"] * 1e6 / wire_resistance.RESISTIVITY
    assert scaled == pytest.approx(expected["cable_ohm"], abs=tolerance["abs"])


@pytest.mark.parametrize("case, chemistry", [("dc-07", "li-ion"), ("dc-08", "li-po")])
def test_open_circuit_voltage_of_published_cells(case: str, chemistry: str) -> None:
    """Rest voltage by charge of two published cells.

    C.-H. Chen et al., J. Electrochem. Soc. 167 (2020) 080534, and W. Ai et al., ibid. 013512, by the
    open package pybamm; seen.
    """
    given, expected, tolerance = _case(case)
    ours = [cells.open_circuit_v(chemistry, charge) for charge in given["state_of_charge"]]
    assert ours == pytest.approx(expected["open_circuit_V"], abs=tolerance["abs"])
    kind = cells.CHEMISTRIES[chemistry]
    assert kind.open_v[0] == given["lower_cutoff_V"]
    assert kind.open_v[-1] == kind.full_v == given["upper_cutoff_V"]


def test_dc_09_contacts() -> None:
    """A heavy contact is no worse than a sound bond. FAA AC 43.13-1B, paragraph 11-189; seen."""
    _, expected, _ = _case("dc-09")
    assert 1e3 * expected["each_bonding_jumper_connection_ohm_max"] == BOND_MOST_MOHM
    heavy = [contact for contact in CONTACTS.values() if contact.current_a >= 30.0]
    assert len(heavy) == 3
    assert all(contact.most_mohm <= BOND_MOST_MOHM for contact in heavy)


def test_dc_10_working_limits() -> None:
    """Working limits of lithium-polymer cells; common practice."""
    _, expected, tolerance = _case("dc-10")
    kind, within = cells.LI_PO, tolerance["abs"]
    ours = (kind.full_v, kind.nominal_v, kind.storage_v, kind.stop_v, kind.cautious_stop_v)
    names = ("full_V", "nominal_V", "storage_V", "stop_discharge_V", "cautious_stop_V")
    assert ours == pytest.approx([expected[name] for name in names], abs=within)
