from __future__ import annotations

from pathlib import Path

import pytest

import hardstand
from hardstand.description.read import read_folder
from tests.aeroplanes import PARTS, SMALL, WEIGHED, swapped
from tests.description.reading import line_of, only, problems

LIMIT = '[[limit]]\nid = "{}"\nreason = "so"\n{}\n'
WEIGHING = WEIGHED.format(nose=1000, left=4000, right=4000)
ONE_READING = WEIGHING[WEIGHING.index('[[reading]]\nid = "r-left"') :]


@pytest.mark.parametrize("name", ["s0", "s1", "s2"])
def test_the_demo_is_whole(name: str) -> None:
    """Nothing is wrong with it, with each of its options and without."""
    folder = Path(hardstand.__file__).parent / "data" / "demo" / name
    for option in ("", *(row.id for row in read_folder(folder).description.option)):
        assert read_folder(folder, [option] if option else []).description.aeroplane.name


@pytest.mark.parametrize(
    "old, new, what",
    [
        ("x_mm = 700", "x_mm = 1900", "bay fuselage already has a section at station 1900"),
        ('cg_range_state = "empty"\n', "", "cg_range_mm belongs to one loading state: which?"),
        ("inside_mm = [250, 100, 60]\n", "inside_mm = [250, 100, 59]\n",
         "a box of inside_mm holds 1475 ml, less than capacity_ml"),
        ("inside_mm = [250, 100, 60]\n", "", ""),
        ("capacity_ml = 1500\ninside_mm = [250, 100, 60]\n", "capacity_ml = 2010\n",
         "a box of the size of tank-main holds 2002 ml, less than capacity_ml"),
    ],
)  # fmt: skip
def test_contradictions_between_rows_are_told(old: str, new: str, what: str) -> None:
    """Each once; what agrees is silent."""
    found = problems(swapped(SMALL, old, new))
    assert [one.what for one in found] == ([what] if what else [])


def test_a_cylinder_holds_less_than_its_box() -> None:
    """By pi over four."""
    parts = swapped(PARTS, 'kind = "tank"', 'kind = "tank"\nshape = "cylinder"')
    assert only(parts=parts).what == "a cylinder of inside_mm holds 1178 ml, less than capacity_ml"


def test_an_item_has_one_tank() -> None:
    """A second tank in the same item is a slip."""
    main = f'{SMALL}[[tank]]\nid = "again"\nitem = "tank-main"\ncapacity_ml = 100\n'
    assert only(main).what == "item tank-main already has a tank"


def test_a_bay_needs_two_sections() -> None:
    """One that has a single one, and one that has none."""
    main = f'{SMALL}[[bay]]\nid = "nose"\n[[bay]]\nid = "tail"\n[[section]]\nid = "t"\nbay = "tail"\nx_mm = 5\n'
    found = problems(main + "half_width_mm = 5\nbottom_mm = -5\ntop_mm = 5\n")
    assert [one.what for one in found] == [
        "bay nose has 0 of the two or more sections that it needs",
        "bay tail has 1 of the two or more sections that it needs",
    ]


def test_a_range_without_a_mark_cannot_be_measured() -> None:
    """The range and the target are both measured from it."""
    mark = SMALL[SMALL.index("[cg_mark]") : SMALL.index("[ground]")]
    assert [one.where for one in problems(swapped(SMALL, mark, ""))] == ["aeroplane", "aeroplane"]


@pytest.mark.parametrize(
    "limit, values, what",
    [
        ("fit.box-gap", "low = 1", ""),
        ("balance.lateral", "low = -4\nhigh = 4", ""),
        ("fit.box-gpa", "low = 1", "there is no limit fit.box-gpa"),
        ("balance.lateral", "low = 4", "limit balance.lateral: low 4 would be above high 3"),
        ("balance.lateral", "high = -4", "limit balance.lateral: low -3 would be above high -4"),
        ("balance.lateral", "low = 4\nhigh = 1", "low 4 is above high 1"),
        ("balance.lateral", "", "a limit needs low, high or both"),
    ],
)
def test_a_limit_of_the_builders_own(limit: str, values: str, what: str) -> None:
    """It names one that there is, and leaves a range."""
    found = problems(SMALL + LIMIT.format(limit, values))
    assert [one.what for one in found] == ([what] if what else [])


@pytest.mark.parametrize(
    "measurements, what",
    [
        (WEIGHING, ""),
        (WEIGHING[: WEIGHING.index('[[reading]]\nid = "r-left"')],
         "1 reading belongs to this weighing; two or three scales are needed"),
        (WEIGHING + ONE_READING.replace("r-", "s-"),
         "5 readings belong to this weighing; two or three scales are needed"),
        (swapped(WEIGHING, 'under = "nose-leg"', ""),
         "say where the scale stood: under = a leg, or at_mm, not both"),
        (swapped(WEIGHING, 'under = "nose-leg"', 'under = "nose-leg"\nat_mm = [1, 2, 3]'),
         "say where the scale stood: under = a leg, or at_mm, not both"),
        (swapped(WEIGHING, 'under = "nose-leg"', 'under = "nsoe-leg"'), "there is no leg nsoe-leg"),
        ('[[weighing]]\nid = "w"\nstate = "empty"\nmethod = "stand"\n',
         'on a stand, give stand_x_mm and tips ("nose", "tail" or "level")'),
        ('[[weighing]]\nid = "w"\nstate = "empty"\nmethod = "stand"\nstand_x_mm = 950\ntips = "nose"\n', ""),
    ],
)  # fmt: skip
def test_a_weighing_is_whole(measurements: str, what: str) -> None:
    """Two or three scales, each under a leg or at a place; a stand with its place."""
    found = problems(measurements=measurements)
    assert [one.what for one in found] == ([what] if what else [])


@pytest.mark.parametrize(
    "parts, what",
    [
        ('[[part]]\nid = "a"\nextends = "b"\n[[part]]\nid = "b"\nextends = "a"\n', "extends in a circle"),
        ('[[part]]\nid = "a"\nextends = "strutt"\n', "there is no part strutt"),
        ('[[part]]\nid = "a"\nextends = "receiver-12-channel"\nhigh_v = 1\nlow_v = 3\n', "low_v 3 is above high_v 1"),
        ('[[part]]\nid = "a"\nshape = "ring"\nsize_mm = [1, 2, 2]\nmass_g = 1\n', "a ring also needs inside_mm"),
        ('[[part]]\nid = "a"\nshape = "ring"\nsize_mm = [1, 2, 2]\ninside_mm = 2\nmass_g = 1\n',
         "inside_mm 2 is not less than the outside diameter 2"),
        ('[[part]]\nid = "a"\nmass_g = 1\n', "a part that extends no other needs size_mm and mass_g"),
    ],
)  # fmt: skip
def test_a_part_can_be_made_whole(parts: str, what: str) -> None:
    """With what it extends, each part told of once."""
    found = problems(parts=PARTS + parts)
    assert found
    assert what in found[0].what
    assert len(found) <= 2


def test_a_tailless_aeroplane_has_no_tail() -> None:
    """One that is called so while panels of a tail are described contradicts itself, at its line."""
    main = f"{SMALL}[stability]\ntailless = true\n"
    found = only(main)
    assert found.what == "it is called tailless, and there are panels of a tail"
    assert found.line == line_of(main, "tailless = true")
