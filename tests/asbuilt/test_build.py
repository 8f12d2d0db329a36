from __future__ import annotations

import math
from pathlib import Path

import pytest

import hardstand
from hardstand.asbuilt import build
from hardstand.description.read import read_folder
from hardstand.standards import limits
from tests.aeroplanes import SMALL, WEIGHED, swapped
from tests.description.reading import HEAD, read

DEMO = Path(hardstand.__file__).parent / "data" / "demo"


def test_the_least_aeroplane_is_built() -> None:
    """Nothing but a name."""
    asbuilt = build(read(HEAD, parts="").description)
    assert asbuilt.masses == ()
    assert asbuilt.cg_mark is None
    assert asbuilt.fuel_density is None
    assert asbuilt.limits == limits.BY_ID


@pytest.mark.parametrize("name", ["s0", "s1", "s2"])
def test_the_demo_is_built_alike_each_time(name: str) -> None:
    """Twice from the files, to the bit; airframe masses first, then items."""
    one, other = (build(read_folder(DEMO / name).description) for _ in range(2))
    assert one == other
    tables = [point.table for point in one.masses]
    assert tables == sorted(tables, key=["mass", "item"].index)
    assert len(one.items) == tables.count("item")


def test_every_input_says_where_it_stands() -> None:
    """In a file, or in the catalogue; and where its uncertainty came from."""
    asbuilt = build(read_folder(DEMO / "s1").description)
    for point in asbuilt.masses:
        for one in (point.mass, *point.at):
            assert one.stands_at
            assert one.u > 0.0
            assert one.u_from
            assert math.isfinite(one.value)


def test_tanks_take_their_inside_or_the_shape_of_their_item() -> None:
    """A stated inside stays; else the outside is shrunk alike in all directions until it holds as much."""
    stated = build(read().description).tanks[0]
    assert (stated.inside_mm, stated.shrunk) == ((250.0, 100.0, 60.0), False)
    shrunk = build(read(swapped(SMALL, "inside_mm = [250, 100, 60]\n", "")).description).tanks[0]
    length, width, height = shrunk.inside_mm
    assert shrunk.shrunk
    assert length * width * height / 1000.0 == pytest.approx(1500.0)
    assert (length / width, width / height) == pytest.approx((260 / 110, 110 / 70))


def test_tank_and_item_are_equally_unsure_of_their_place() -> None:
    """One place, one uncertainty, whichever engine asks."""
    main = swapped(SMALL, 'part = "main-tank"\n', 'part = "main-tank"\nstation_tol_mm = 1\n')
    asbuilt = build(read(main).description)
    tank = asbuilt.tanks[0].centre[0]
    item = next(one for one in asbuilt.masses if one.id == "tank-main").at[0]
    assert (tank.address, tank.u) == (item.address, item.u) == ("item.tank-main.mass_centre_mm.x", 0.5)


def test_a_limit_of_the_builders_own_keeps_the_side_it_does_not_set() -> None:
    """With its reason; the others stay as they are."""
    own = '[[limit]]\nid = "balance.lateral"\nlow = -5\nreason = "one wing is heavier"\n'
    found = build(read(SMALL + own).description).limits
    assert (found["balance.lateral"].low, found["balance.lateral"].high) == (-5.0, 3.0)
    assert found["balance.lateral"].by_builder
    assert found["balance.lateral"].reason == "one wing is heavier"
    assert found["fit.box-gap"] == limits.BY_ID["fit.box-gap"]


def test_a_weigh_in_stands_under_its_legs() -> None:
    """Each reading at its wheel's contact point, with the station's tolerance, all measured."""
    text = WEIGHED.format(nose=1000, left=4000, right=4010)
    text = swapped(text, 'state = "empty"', 'state = "empty"\nstation_tol_mm = 3')
    (weighing,) = build(read(measurements=text).description).weighings
    assert [one.reading.value for one in weighing.readings] == [1000.0, 4000.0, 4010.0]
    assert [one.at[0].value for one in weighing.readings] == [400.0, 1030.0, 1030.0]
    assert {one.at[0].u for one in weighing.readings} == {1.5}
    assert {one.reading.kind for one in weighing.readings} == {"measured"}
    assert weighing.readings[0].at[0].address == "leg.nose-leg.contact_mm.x"


def test_an_airframe_pieces_own_inertia() -> None:
    """As given, else that of its box, else none."""
    main = swapped(
        SMALL, "mass_g = 6000\n", "mass_g = 6000\nsize_mm = [1000, 200, 100]\niyy_kgm2 = 0.7\n"
    )
    body, nose, _ = build(read(main).description).masses[:3]
    assert body.own_kgm2 == pytest.approx(
        (6.0 / 12 * (0.2**2 + 0.1**2), 0.7, 6.0 / 12 * (1.0 + 0.2**2))
    )
    assert nose.own_kgm2 == (0.0, 0.0, 0.0)


def test_place_and_mass_centre_are_two_inputs() -> None:
    """The one is known as its box stands, the other as its mass lies in it; both lead to the line."""
    main = swapped(SMALL, 'part = "main-tank"\n', 'part = "main-tank"\nstation_tol_mm = 6\nplace_tol_mm = 1\n')
    asbuilt = build(read(main).description)
    box = next(one for one in asbuilt.items if one.id == "tank-main").place[0]
    mass = next(one for one in asbuilt.masses if one.id == "tank-main").at[0]
    assert (box.address, box.u) == ("item.tank-main.at_mm.x", 0.5)
    assert (mass.address, mass.u) == ("item.tank-main.mass_centre_mm.x", 3.0)
    assert (mass.stands_at, box.stands_at) == ("item.tank-main.at_mm", "item.tank-main.at_mm")
