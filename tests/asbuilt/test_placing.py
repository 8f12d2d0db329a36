from __future__ import annotations

import pytest

from hardstand.asbuilt import AsBuilt, build
from hardstand.asbuilt.value import MassPoint, PlacedItem
from tests.description.reading import HEAD, read

MAIN = (
    HEAD
    + """
[[tray]]
id = "t"
outline_mm = [[0, -50], [300, -50], [300, 50], [0, 50]]
top_z_mm = -20
tol_mm = 0.5
[[item]]
id = "a"
part = "box"
on = "t"
at_mm = [100, 10]
turn_deg = 90
raise_mm = 3
{more}
[[item]]
id = "b"
part = "my-receiver"
at_mm = [200, 0, 5]
[[item]]
id = "c"
part = "receiver-12-channel"
at_mm = [400, 0, 5]
mass_g = 25
"""
)
PARTS = """
[[part]]
id = "box"
size_mm = [60, 40, 20]
mass_g = 100
cg_offset_mm = [5, 2, 1]
[[port]]
part = "box"
id = "out"
count = 2
face = "front"
[[port]]
part = "box"
id = "in"
face = "back"
[[part]]
id = "my-receiver"
extends = "receiver-12-channel"
mass_g = 19
mass_tol_g = 2
"""
LEAD = '[[lead]]\nid = "L1"\nfrom = "a.out-2"\nto = "plug"\n'


def made(more: str = "", end: str = "", measurements: str = "") -> AsBuilt:
    """The as-built aeroplane with these lines in item a, and these at the end."""
    return build(read(MAIN.format(more=more) + end, measurements, PARTS).description)


def item(asbuilt: AsBuilt, name: str) -> PlacedItem:
    """An item by its id."""
    return next(one for one in asbuilt.items if one.id == name)


def mass(asbuilt: AsBuilt, name: str) -> MassPoint:
    """An item's mass by its id."""
    return next(one for one in asbuilt.masses if one.id == name)


def test_an_item_on_a_tray_stands_on_its_top() -> None:
    """Top of the tray, what it is raised by, half its height."""
    a = item(made(), "a")
    assert a.centre_mm == (100.0, 10.0, -20.0 + 3.0 + 10.0)
    assert (a.turn_deg, a.tilt_deg, a.on) == (90.0, (0.0, 0.0), "t")
    assert a.height_u_mm == pytest.approx(0.25)
    assert a.place_u_mm == pytest.approx(0.3)
    assert a.size_u_mm == pytest.approx(0.15)
    assert not a.assumed_size


def test_a_tilted_item_stands_by_its_upright_extent() -> None:
    """On its side the width is its height."""
    a = item(made("tilt_deg = [90, 0]"), "a")
    assert a.centre_mm[2] == pytest.approx(-20.0 + 3.0 + 20.0)


def test_the_mass_centre_turns_with_the_box() -> None:
    """A quarter turn from x to y takes (5, 2) to (-2, 5)."""
    at = [one.value for one in mass(made(), "a").at]
    assert at == pytest.approx([98.0, 15.0, -6.0])
    assert [one.value for one in mass(made("cg_offset_mm = [0, 0, 0]"), "a").at] == [
        100.0,
        10.0,
        -7.0,
    ]


def test_whose_figures_count() -> None:
    """The item's own before the part's, the builder's part before the catalogue's; only the last is assumed."""
    asbuilt = made()
    a, b, c = (mass(asbuilt, name).mass for name in "abc")
    assert (a.value, a.u, a.kind, a.stands_at) == (100.0, 2.5, "declared", "part.box.mass_g")
    assert (b.value, b.u, b.kind, b.stands_at) == (19.0, 1.0, "declared", "part.my-receiver.mass_g")
    assert (c.value, c.kind) == (25.0, "declared")
    assert c.u == pytest.approx((4 + 0.25) / 2)
    assert [item(asbuilt, name).assumed_size for name in "abc"] == [False, True, True]
    assert item(asbuilt, "b").size_u_mm == 1.0
    bare = made("", '[[item]]\nid = "d"\npart = "receiver-12-channel"\nat_mm = [1, 2, 3]\n')
    assert mass(bare, "d").mass.kind == "assumed"


def test_inertia_of_a_box_turned() -> None:
    """Extents 40 along x and 60 along y after a quarter turn, 100 g."""
    assert mass(made(), "a").own_kgm2 == pytest.approx(
        (
            0.1 / 12 * (0.06**2 + 0.02**2),
            0.1 / 12 * (0.04**2 + 0.02**2),
            0.1 / 12 * (0.04**2 + 0.06**2),
        )
    )


def test_which_ports_are_used() -> None:
    """All of them where no lead touches the item, else those that leads name."""
    free, led = item(made(), "a"), item(made("", LEAD), "a")
    assert [(one.name, one.used) for one in free.ports] == [
        ("out-1", True),
        ("out-2", True),
        ("in", True),
    ]
    assert not free.ports_known
    assert [(one.name, one.used) for one in led.ports] == [
        ("out-1", False),
        ("out-2", True),
        ("in", False),
    ]
    assert led.ports_known
    assert (free.faces_used(), led.faces_used()) == (("front", "back"), ("front",))


def test_a_port_that_an_unknown_lead_may_have_is_kept_free() -> None:
    """What it may be counts as used."""
    end = '[[lead]]\nid = "L1"\nfrom = "plug"\nto = "unknown"\nmay_be = ["a.in", "a.out-1"]\n'
    assert [one.used for one in item(made("", end), "a").ports] == [True, False, True]


def test_tolerances_of_place_and_size_may_be_given_or_measured() -> None:
    """Given in the file, and by a measurement of the place and of the size."""
    assert item(made("place_tol_mm = 2"), "a").place_u_mm == 1.0
    measured = ('[[measurement]]\nid = "p"\naddress = "item.a.at_mm"\nvalue = [101, 11]\ntol = 0.2\n'
                'declared = [100, 10]\n[[measurement]]\nid = "s"\naddress = "part.box.size_mm"\n'
                'value = [60, 40, 22]\ntol = 0.1\ndeclared = [60, 40, 20]\n')  # fmt: skip
    a = item(made(measurements=measured), "a")
    assert a.place_u_mm == pytest.approx(0.1)
    assert a.size_u_mm == pytest.approx(0.05)
    assert a.centre_mm == (101.0, 11.0, -6.0)
    assert {one.kind for one in (*a.place, *a.size)} == {"measured"}


PLACE_MEASURED = (
    '[[measurement]]\nid = "p"\naddress = "item.a.at_mm"\nvalue = [101, 11]\ntol = 0.2\n'
    "declared = [100, 10]\n"
)


@pytest.mark.parametrize("more, u", [("", 2.0), ("station_tol_mm = 3", 1.5)])
def test_a_measured_place_does_not_tell_where_in_the_box_the_mass_centre_is(
    more: str, u: float
) -> None:
    """The mass centre moves with the box and stays as unsure as it was."""
    at = mass(made(more, measurements=PLACE_MEASURED), "a").at
    assert [one.value for one in at][:2] == pytest.approx([99.0, 16.0])
    assert [(one.u, one.kind) for one in at] == [(u, "measured")] * 3


def test_a_size_measured_on_the_item_is_its_own() -> None:
    """A measurement at the item's own address: value, tolerance, kind, and no longer typical only."""
    declared = list(item(made(), "b").size_mm)
    text = ('[[measurement]]\nid = "s"\naddress = "item.b.size_mm"\nvalue = [49, 31, 17]\ntol = 0.1\n'
            f"declared = {declared}\n")  # fmt: skip
    b = item(made(measurements=text), "b")
    assert (b.size_mm, b.size_u_mm, b.assumed_size) == ((49.0, 31.0, 17.0), 0.05, False)
    assert {one.kind for one in b.size} == {"measured"}


def test_an_item_off_a_tray_has_no_tray_height_to_be_unsure_of() -> None:
    """Its z is as written."""
    b = item(made(), "b")
    assert (b.height_u_mm, b.centre_mm, b.on) == (0.0, (200.0, 0.0, 5.0), None)


def test_misalignment_is_an_angle_with_its_tolerance() -> None:
    """About x, y, z; half a degree where nothing is said."""
    given = item(
        made("misalignment_deg = [0.1, 0.2, 0.3]\nmisalignment_tol_deg = 0.4"), "a"
    ).misalignment
    usual = item(made("misalignment_deg = [0.1, 0.2, 0.3]"), "a").misalignment
    assert given is not None
    assert usual is not None
    assert [(one.value, one.unit, one.u) for one in given] == [
        (0.1, "deg", 0.2),
        (0.2, "deg", 0.2),
        (0.3, "deg", 0.2),
    ]
    assert usual[0].u == 0.25
    assert item(made(), "a").misalignment is None
