from __future__ import annotations

import pytest

from tests.aeroplanes import SMALL
from tests.description.reading import only, problems

ACCEPT = '[[accept]]\nid = "a"\ncode = "balance.lateral"\nabout = {}\nby = "me"\nreason = "so"\n'


def measured(address: str, value: str, more: str = "") -> str:
    """One measurement."""
    return f'[[measurement]]\nid = "m"\naddress = "{address}"\nvalue = {value}\n{more}'


@pytest.mark.parametrize(
    "address, value",
    [("mass.body.mass_g", "6010"), ("mass.body.at_mm", "[990, 1, 0]"), ("fuel.density_kg_m3", "795"),
     ("cg_mark.at_mm", "[800, 100, 1]"), ("part.strut.mass_g", "310"), ("tank.main.capacity_ml", "1490")],
)  # fmt: skip
def test_what_is_there_can_be_measured(address: str, value: str) -> None:
    """Rows, tables that stand once, the builder's own parts."""
    assert not problems(measurements=measured(address, value))


@pytest.mark.parametrize(
    "address, value, field, what, hint",
    [
        ("mass.bdoy.mass_g", "1", "address", "there is no mass bdoy", "did you mean body?"),
        ("mss.body.mass_g", "1", "address", "there is nothing to measure at mss.body.mass_g", "did you mean mass?"),
        ("mass.body.mass_kg", "1", "address", "mass has no measured field mass_kg", "did you mean mass_g?"),
        ("mass.body.mass_tol_g", "1", "address", "mass has no measured field mass_tol_g", ""),
        ("mass.body.name", "1", "address", "mass has no measured field name", ""),
        ("mass.mass_g", "1", "address", "there is nothing to measure at mass.mass_g", "write kind.id.field"),
        ("mass.body.at_mm.x", "1", "address", "mass.body.at_mm.x is part of a value", "give the whole value of at_mm"),
        ("stability.speed_m_s", "50", "address", "there is no [stability]", "describe [stability] first"),
        ("part.receiver-12-channel.mass_g", "9", "address", "there is no part receiver-12-channel",
         "measure the item that is made of it"),
        ("option.a.name", "1", "address", "there is nothing to measure at option.a.name", "write kind.id.field"),
        ("what?", "1", "address", '"what?" is not an address: write kind.id.field, such as item.rx-left.at_mm', ""),
        ("balance.cg-x@ref", "1", "address",
         '"balance.cg-x@ref" is a computed figure, not a field: write kind.id.field, such as item.rx-left.at_mm', ""),
        ("mass.body.mass_g", "-1", "value", "-1.0 is out of range", "it takes the place of mass.body.mass_g"),
        ("mass.body.mass_g", "[1, 2]", "value", "[1.0, 2.0] is not a number", "it takes the place of mass.body.mass_g"),
        ("mass.body.at_mm", "[1, 2]", "value", "this list has 2 entries", "it takes the place of mass.body.at_mm"),
        ("mass.body.at_mm", "1", "value", "1.0 has the wrong form", "it takes the place of mass.body.at_mm"),
        ("item.tank-main.turn_deg", "45", "value", "45 is not a multiple of 90 degrees",
         "it takes the place of item.tank-main.turn_deg"),
    ],
)  # fmt: skip
def test_a_measurement_of_what_is_not_there_is_told(
    address: str, value: str, field: str, what: str, hint: str
) -> None:
    """At the address or at the value, whichever is wrong."""
    found = only(measurements=measured(address, value))
    assert (found.what, found.hint) == (what, hint)
    assert found.file == "measurements.toml"
    assert found.where == f"measurement m, {field}"
    assert found.line == (3 if field == "address" else 4)


def test_a_slip_in_a_row_does_not_make_its_measurement_wrong() -> None:
    """One fault in a mass, none in what was measured of it; nor with the main file broken."""
    main = SMALL.replace("mass_g = 6000", "mass_g = -1")
    assert only(main, measured("mass.body.mass_g", "6000")).where == "mass body, mass_g"
    assert only(SMALL + "[[", measured("mass.body.mass_g", "6000")).file == "aeroplane.toml"


@pytest.mark.parametrize(
    "about", ['["empty"]', '["aeroplane"]', '["body", "nose"]', '["wing"]', '["4711"]']
)
def test_a_finding_is_accepted_by_what_it_is_about(about: str) -> None:
    """Rows, tables, surfaces; what is like nothing that is there is left to the findings."""
    assert not problems(SMALL + ACCEPT.format(about))


def test_a_mistyped_name_in_what_is_accepted_is_told() -> None:
    """With the nearest name."""
    found = only(SMALL + ACCEPT.format('["emtpy"]'))
    assert (found.what, found.hint) == ("there is no emtpy", "did you mean empty?")
    assert found.where == "accept a, about"


def test_a_code_has_the_form_of_a_code() -> None:
    """A stage and a slug."""
    assert (
        only(SMALL + ACCEPT.format('["empty"]').replace("balance.lateral", "lateral")).where
        == "accept a, code"
    )
