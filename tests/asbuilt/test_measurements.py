from __future__ import annotations

from typing import Any

import pytest

from hardstand.asbuilt import AsBuilt, build
from tests.aeroplanes import SMALL, swapped
from tests.description.reading import read


def measured(address: str, value: str, declared: str = "", more: str = "", name: str = "m") -> str:
    """One measurement."""
    said = f"declared = {declared}\n" if declared else ""
    return f'[[measurement]]\nid = "{name}"\naddress = "{address}"\nvalue = {value}\n{said}{more}'


def made(measurements: str, main: str = SMALL) -> AsBuilt:
    """The as-built aeroplane with these measurements."""
    return build(read(main, measurements).description)


def mass(asbuilt: AsBuilt, name: str) -> Any:
    """The input of a mass by its id."""
    return next(one.mass for one in asbuilt.masses if one.id == name)


def test_a_measurement_overrides_what_it_was_taken_of() -> None:
    """Value, kind, tolerance and place; the description itself stays as read."""
    asbuilt = made(measured("mass.body.mass_g", "6020", "6000", "tol = 4\n"))
    body = mass(asbuilt, "body")
    assert (body.value, body.u, body.kind, body.stands_at) == (
        6020.0,
        2.0,
        "measured",
        "measurement.m.value",
    )
    assert asbuilt.stale == ()
    assert mass(asbuilt, "nose").kind == "declared"


def test_after_a_change_of_the_declared_value_it_is_stale() -> None:
    """It no longer counts and is told of with both values."""
    asbuilt = made(measured("mass.body.mass_g", "6020", "5990"))
    assert mass(asbuilt, "body").value == 6000.0
    (stale,) = asbuilt.stale
    assert (stale.id, stale.address, stale.declared_then, stale.declared_now) == (
        "m", "mass.body.mass_g", 5990.0, 6000.0)  # fmt: skip


@pytest.mark.parametrize("part, in_force", [("strut", True), ("main-tank", False), ("", True)])
def test_after_a_change_of_part_it_is_stale(part: str, *, in_force: bool) -> None:
    """The same number of another part is another measurement."""
    text = measured("item.gear-left.mass_g", "390", "400", f'part = "{part}"\n' if part else "")
    asbuilt = made(text)
    assert bool(asbuilt.stale) != in_force
    assert mass(asbuilt, "gear-left").value == (390.0 if in_force else 400.0)


def test_where_an_item_gives_nothing_its_parts_figure_is_what_was_declared() -> None:
    """The part's size counts as the item's."""
    text = measured("item.gear-left.size_mm", "[81, 30, 120]", "[80, 30, 120]")
    asbuilt = made(text)
    assert asbuilt.stale == ()
    assert next(one for one in asbuilt.items if one.id == "gear-left").size_mm == (
        81.0,
        30.0,
        120.0,
    )
    assert next(one for one in asbuilt.items if one.id == "gear-right").size_mm == (
        80.0,
        30.0,
        120.0,
    )


def test_a_part_measured_counts_in_every_item_made_of_it() -> None:
    """Three struts, whose masses are given here and not by the part: their size is the part's."""
    asbuilt = made(measured("part.strut.size_mm", "[82, 31, 121]", "[80, 30, 120]", "tol = 0.2\n"))
    struts = [one for one in asbuilt.items if one.part.id == "strut"]
    assert [one.size_mm for one in struts] == [(82.0, 31.0, 121.0)] * 3
    assert [one.size_u_mm for one in struts] == [0.1] * 3


def test_the_later_of_two_measurements_wins() -> None:
    """Of one address; of two addresses in one row both count."""
    text = (measured("mass.body.mass_g", "6020", "6000") + measured("mass.body.mass_g", "6030", "6000", name="n")
            + measured("mass.body.at_mm", "[991, 0, 0]", "[990, 0, 0]", name="p"))  # fmt: skip
    asbuilt = made(text)
    assert mass(asbuilt, "body").value == 6030.0
    assert mass(asbuilt, "body").stands_at == "measurement.n.value"
    assert asbuilt.masses[0].at[0].value == 991.0


def test_tables_that_stand_once_are_measured_too() -> None:
    """The CG mark and the fuel's density."""
    text = (measured("cg_mark.at_mm", "[801, 100, 0]", "[800, 100, 0]", "tol = 0.4\n")
            + measured("fuel.density_kg_m3", "795", "800", name="d"))  # fmt: skip
    asbuilt = made(text)
    assert asbuilt.cg_mark is not None
    assert asbuilt.fuel_density is not None
    assert (asbuilt.cg_mark[0].value, asbuilt.cg_mark[0].u, asbuilt.cg_mark[0].kind) == (
        801.0,
        0.2,
        "measured",
    )
    assert asbuilt.fuel_density.kind == "measured"


def test_what_was_measured_before_it_was_ever_declared() -> None:
    """It holds until something is declared there."""
    text = measured("mass.body.ixx_kgm2", "0.02")
    assert made(text).stale == ()
    assert made(text).masses[0].own_kgm2[0] == 0.02
    main = swapped(SMALL, "mass_g = 6000", "mass_g = 6000\nixx_kgm2 = 0.03")
    assert made(text, main).stale[0].declared_then is None
