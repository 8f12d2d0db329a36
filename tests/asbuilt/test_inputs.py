from __future__ import annotations

import pytest

from hardstand.asbuilt.inputs import Maker, Measured
from hardstand.standards.tolerances import BOX, CATALOGUE_MASS, ClassDefault

MAKER = Maker({"item.rx.at_mm": Measured("m1", 0.4), "item.rx.mass_g": Measured("m2", None),
               "part.box.mass_g": Measured("m3", 2.0)})  # fmt: skip


def test_a_tolerance_in_the_file_is_halved_once() -> None:
    """The half-width of 95 % is two standard uncertainties."""
    made = Maker({}).scalar("mass.a.mass_g", 500.0, "g", 6.0, BOX)
    assert (made.u, made.u_from, made.kind) == (3.0, "tolerance in the file", "declared")
    assert made.stands_at == "mass.a.mass_g"


def test_the_class_default_is_a_width_and_a_share() -> None:
    """4 g + 15 % of 200 g, halved; the default is named."""
    made = Maker({}).scalar(
        "item.a.mass_g", 200.0, "g", None, CATALOGUE_MASS, "assumed", "part.x.mass_g"
    )
    assert made.u == pytest.approx(17.0)
    assert made.u_from == "class default: mass typical of the class, 4 g + 15 %"
    assert (made.kind, made.stands_at) == ("assumed", "part.x.mass_g")


def test_a_tolerance_of_zero_is_not_a_missing_one() -> None:
    """Exactly known stays exactly known."""
    assert Maker({}).scalar("mass.a.mass_g", 5.0, "g", 0.0, BOX).u == 0.0


def test_a_measurement_wins_over_file_and_default() -> None:
    """Its tolerance, its kind, its place; without a tolerance of its own that of the file stands."""
    x, y, z = MAKER.point("item.rx.at_mm", (1.0, 2.0, 3.0), 9.0, BOX)
    assert [one.u for one in (x, y, z)] == [0.2, 0.2, 0.2]
    assert [one.address for one in (x, y, z)] == [
        "item.rx.at_mm.x",
        "item.rx.at_mm.y",
        "item.rx.at_mm.z",
    ]
    assert (x.kind, x.stands_at) == ("measured", "measurement.m1.value")
    mass = MAKER.scalar("item.rx.mass_g", 20.0, "g", 3.0, BOX)
    assert (mass.u, mass.kind) == (1.5, "measured")


def test_a_measured_part_reaches_the_items_made_of_it() -> None:
    """By where the number stands, not by whose it is."""
    made = MAKER.scalar("item.one.mass_g", 30.0, "g", None, BOX, "declared", "part.box.mass_g")
    assert (made.u, made.kind, made.stands_at) == (1.0, "measured", "measurement.m3.value")


def test_what_only_follows_a_measurement_keeps_its_own_tolerance() -> None:
    """Measured in value and kind, with the tolerance given, else the default."""
    given = MAKER.point("item.rx.at_mm", (1.0, 2.0, 3.0), 9.0, BOX, takes_tol=False)
    assert [(one.u, one.kind) for one in given] == [(4.5, "measured")] * 3
    usual = MAKER.scalar("item.rx.at_mm.x", 1.0, "mm", None, BOX, takes_tol=False)
    assert (usual.u, usual.stands_at) == (BOX.fixed / 2.0, "measurement.m1.value")


def test_points_take_a_unit_and_a_default() -> None:
    """Angles are points too."""
    default = ClassDefault("by square", "deg", 0.5)
    (x, *_) = Maker({}).point("item.a.misalignment_deg", (0.1, 0.2, 0.3), None, default, unit="deg")
    assert (x.unit, x.u) == ("deg", 0.25)
