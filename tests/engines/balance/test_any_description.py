"""Nothing raises, and every number is finite, for any description that can be read."""

from __future__ import annotations

import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hardstand.asbuilt import build
from hardstand.assessment import Assessment, assess
from hardstand.description.problems import UnreadableError
from hardstand.description.read import read_texts
from hardstand.engines.balance import STAGE as BALANCE
from hardstand.engines.balance.rule_texts import RULES
from hardstand.engines.fuel.stage import STAGE as FUEL
from tests.aeroplanes import MEMORY, PARTS, SMALL, WEIGHED, swapped, texts

EXTRAS = """
[[tank]]
id = "trap"
item = "trap"
capacity_ml = 100
header = true
[[item]]
id = "trap"
part = "main-tank"
at_mm = [700, 0, 20]
[[item]]
id = "pack-a"
part = "pack"
at_mm = [300, 40, 0]
move_x_mm = [250, 380]
[[item]]
id = "pack-b"
part = "pack"
at_mm = [300, -40, 0]
move_x_mm = [250, 380]
mass_g = 260
[[on_hand]]
id = "spare"
part = "light-pack"
count = 2
[[ballast_place]]
id = "tail"
at_mm = [1850, 0, 0]
most_g = 400
[[mass]]
id = "lead"
mass_g = 50
at_mm = [1850, 0, 0]
zone = "ballast"
[stability]
speed_m_s = 60
"""
MORE_PARTS = """
[[part]]
id = "pack"
kind = "pack"
size_mm = [130, 40, 20]
mass_g = 250
cells = 2
chemistry = "li-po"
capacity_mah = 5000
[[part]]
id = "light-pack"
extends = "pack"
mass_g = 160
capacity_mah = 3600
"""
ROW = re.compile(r"\[\[\w+\]\]\n(?:(?!\[).*\n)*")
NUMBER = re.compile(r"(?<![\w.\"-])-?\d+(?:\.\d+)?(?![\w.\"])")
WILD = st.sampled_from([0.0, 1e-9, 1e-3, 0.1, 0.5, 0.9, 1.1, 2.0, 10.0, 1000.0, -1.0])
LEVELLED = WEIGHED.format(nose=1080, left=3910, right=3910)
STAND = """
[[weighing]]
id = "stand"
state = "low"
method = "stand"
stand_x_mm = 958
tips = "tail"
weight_g = 50
weight_x_mm = 0
"""


@st.composite
def mutated(draw: st.DrawFn, text: str) -> str:
    """The text with a few rows gone and a few numbers many times larger, smaller, nothing or turned."""
    rows = ROW.findall(text)
    for row in draw(st.lists(st.sampled_from(rows), max_size=2, unique=True)):
        text = text.replace(row, "", 1)
    numbers = list(NUMBER.finditer(text))
    picked = draw(st.lists(st.sampled_from(range(1, len(numbers))), max_size=4, unique=True))
    for index in sorted(picked, reverse=True):
        found = numbers[index]
        value = float(found.group()) * draw(WILD)
        text = f"{text[: found.start()]}{value:g}{text[found.end() :]}"
    off = draw(st.sampled_from(["", "gear-nose", "tank-main", "body", "pack-a", "trap"]))
    if off:
        text = text.replace(
            "[[state]]\n", f'[[state]]\nwithout = ["{off}"]\n', draw(st.sampled_from([1, 3]))
        )
    return text


def assessed_or_refused(main: str, measurements: str) -> Assessment | None:
    """The assessment, or None where the description cannot be read."""
    try:
        read = read_texts(texts(main, measurements, PARTS + MORE_PARTS))
    except UnreadableError:
        return None
    return assess(build(read.description), (FUEL, BALANCE), MEMORY)


def check(found: Assessment) -> None:
    """Every figure is a finite number with a finite uncertainty, every finding one that is known."""
    for figures in found.figure_sets():
        assert np.all(np.isfinite(figures.values)), figures.addresses
        assert np.all(np.isfinite(figures.u)), figures.addresses
        assert len(set(figures.addresses)) == len(figures.addresses)
        assert len({one.address for one in figures.inputs}) == len(figures.inputs)
    codes = {rule.code for rule in RULES}
    known = set(found.addresses())
    inputs = {one.address for figures in found.figure_sets() for one in figures.inputs}
    for one in found.findings:
        assert one.code in codes
        assert one.text.endswith(".")
        assert "nan" not in one.text
        assert one.figure is None or one.figure.address in known | inputs
        assert one.as_json()["code"] == one.code


@settings(max_examples=60)
@given(mutated(SMALL + EXTRAS), mutated(LEVELLED + STAND))
def test_any_description_that_can_be_read_is_assessed(main: str, measurements: str) -> None:
    """A few rows gone, a few numbers absurd, something off in a state: a verdict all the same."""
    found = assessed_or_refused(main, measurements)
    if found is not None:
        check(found)


@settings(max_examples=40)
@given(st.data())
def test_an_aeroplane_with_few_tables_is_assessed(data: st.DataObject) -> None:
    """Any choice of tables, down to none: what is missing is said and nothing raises."""
    rows = ROW.findall(SMALL + EXTRAS)
    gone = data.draw(st.sets(st.sampled_from(rows)))
    text = SMALL + EXTRAS
    for row in gone:
        text = text.replace(row, "", 1)
    found = assessed_or_refused(text, data.draw(st.sampled_from(["", LEVELLED, STAND])))
    if found is not None:
        check(found)


DESCRIPTIONS = {
    "as it is": SMALL,
    "one state": re.sub(r'\[\[state\]\]\nid = "(full|low)"\n(?:(?!\[).*\n)*', "", SMALL),
    "nothing on board": swapped(
        SMALL, 'id = "full"', 'id = "full"\nwithout = ["body", "nose", "tail", "tank-main", '
        '"gear-nose", "gear-left", "gear-right"]'),
    "a leg off": swapped(SMALL, 'id = "full"', 'id = "full"\nwithout = ["gear-left"]'),
    "a nose wheel off on the ground": swapped(SMALL, 'id = "empty"', 'id = "empty"\nwithout = ["gear-nose"]'),
    "CG under the ground": SMALL.replace("-260]", "260]"),
    "three wheels in a line": SMALL.replace("contact_mm = [1030, -250", "contact_mm = [1030, 0").replace(
        "contact_mm = [1030, 250", "contact_mm = [1030, 0"),
    "tail wheel": SMALL.replace('place = "nose"', 'place = "tail"'),
    "canard": SMALL.replace('surface = "tail"', 'surface = "canard"').replace(
        "root_mm = [1700, 60, 60]", "root_mm = [200, 60, 60]").replace("tip_mm = [1800", "tip_mm = [260"),
    "fin alone": SMALL.replace('surface = "wing"', 'surface = "fin"').replace(
        'surface = "tail"', 'surface = "fin"'),
    "tailless": SMALL.replace('surface = "tail"', 'surface = "fin"'),
    "tail in the wing's plane": SMALL.replace("[1700, 60, 60]", "[1700, 60, 0]").replace(
        "[1800, 350, 60]", "[1800, 350, 0]"),
    "tail on top of the wing": SMALL.replace("[1700, 60, 60]", "[750, 0, 0]").replace(
        "[1800, 350, 60]", "[1050, 900, 0]"),
    "tail that widens outward": SMALL.replace("root_chord_mm = 260", "root_chord_mm = 10").replace(
        "tip_chord_mm = 150", "tip_chord_mm = 400"),
    "wing from the fuselage side": SMALL.replace("root_mm = [750, 0, 0]", "root_mm = [750, 90, 0]"),
    "wing that widens outward": SMALL.replace("root_mm = [750, 0, 0]", "root_mm = [750, 400, 0]").replace(
        "root_chord_mm = 500", "root_chord_mm = 20"),
    "wing as thin as a hair": SMALL.replace("root_chord_mm = 500", "root_chord_mm = 1e-6").replace(
        "tip_chord_mm = 250", "tip_chord_mm = 1e-6"),
    "range without its values": SMALL.replace("cg_range_mm = [135, 175]\n", "").replace(
        "cg_target_mm = [148, 164]\n", ""),
    "more swings than there is": SMALL.replace("moving_g = 200", "moving_g = 20000"),
    "tail strike ahead of the mains": SMALL.replace("[1900, 0, -60]", "[900, 0, -60]"),
    "tail strike under the ground": SMALL.replace("[1900, 0, -60]", "[1900, 0, -600]"),
    "faster than sound": SMALL + "[stability]\nspeed_m_s = 400\n",
    "no mark": SMALL[: SMALL.index("cg_range_mm")] + SMALL[SMALL.index("[ground]") :],
}  # fmt: skip
WEIGHINGS = {
    "none": "",
    "level": LEVELLED,
    "nothing read": WEIGHED.format(nose=0, left=0, right=0),
    "a scale that reads nothing": WEIGHED.format(nose=0, left=4450, right=4450),
    "exact twice and apart": "".join(
        LEVELLED.replace('"first"', f'"{n}"').replace('"r-', f'"{n}-').replace(
            "reading_g = 1080", f"reading_g = {1080 + n}").replace(
            'state = "empty"', 'state = "empty"\npitch_tol_deg = 0\nstation_tol_mm = 0').replace(
            "weighing =", "reading_tol_g = 0\nweighing =") for n in (1, 2)),
    "gear up": LEVELLED.replace('"empty"', '"full"'),
    "nose far up": LEVELLED.replace('state = "empty"', 'state = "empty"\npitch_deg = 45'),
    "one leg twice": LEVELLED.replace("left-leg", "right-leg"),
    "two scales, both mains on one": LEVELLED[: LEVELLED.rindex("[[reading]]")].replace("3910", "7820"),
    "two scales under the mains": LEVELLED.replace(
        LEVELLED[LEVELLED.index("[[reading]]") : LEVELLED.index("[[reading]]", 90)], ""),
    "stand that levels": STAND,
    "stand without a station for its weight": STAND.replace("weight_x_mm = 0\n", ""),
    "stand with a weight on the wrong side": STAND.replace('"tail"', '"nose"'),
    "stand that only tips": STAND.replace("weight_g = 50\nweight_x_mm = 0\n", ""),
    "stand that tips the wrong way": STAND.replace("958", "1200").replace("weight_g = 50\n", ""),
    "stand with a heavy weight": STAND.replace("weight_g = 50", "weight_g = 9000"),
    "stand with a weight of nothing": STAND.replace("weight_g = 50", "weight_g = 0"),
}  # fmt: skip


@pytest.mark.parametrize("name", DESCRIPTIONS)
@pytest.mark.parametrize("weighed", ["none", "level", "stand that levels"])
def test_odd_aeroplanes_are_assessed(name: str, weighed: str) -> None:
    """Every odd aeroplane gets a verdict, weighed or not."""
    found = assessed_or_refused(DESCRIPTIONS[name], WEIGHINGS[weighed])
    if found is None:
        assert name == "no mark" or weighed != "none"
        return
    check(found)


@pytest.mark.parametrize("name", WEIGHINGS)
def test_odd_weigh_ins_are_assessed(name: str) -> None:
    """Every odd weigh-in is used, doubted or named as unusable."""
    found = assessed_or_refused(SMALL, WEIGHINGS[name])
    assert found is not None
    check(found)


UNUSABLE = ["nothing read", "gear up", "one leg twice", "two scales under the mains",
            "stand without a station for its weight", "stand with a weight on the wrong side",
            "stand with a heavy weight"]  # fmt: skip


@pytest.mark.parametrize("name", WEIGHINGS)
def test_only_what_cannot_be_is_unusable(name: str) -> None:
    """Weigh-ins that contradict themselves are left out, and no other is."""
    found = assessed_or_refused(SMALL, WEIGHINGS[name])
    assert found is not None
    said = [one for one in found.findings if one.code == "balance.weigh-in-unusable"]
    assert bool(said) == (name in UNUSABLE)


SAYS = {
    "nothing on board": ("balance.missing", "full"),
    "CG under the ground": ("balance.missing", "leg"),
    "three wheels in a line": ("balance.missing", "leg"),
    "tail wheel": ("balance.missing", "leg"),
    "fin alone": ("balance.missing", "wing"),
    "tailless": ("balance.missing", "tail"),
    "tail that widens outward": ("balance.missing", "tail"),
    "wing as thin as a hair": ("balance.missing", "wing"),
    "more swings than there is": ("balance.missing", "gear-nose"),
    "tail strike ahead of the mains": ("balance.missing", "leg"),
    "tail strike under the ground": ("balance.missing", "leg"),
    "range without its values": ("balance.missing", "cg_range"),
    "wing from the fuselage side": ("balance.assumption", "aeroplane"),
    "wing that widens outward": ("balance.assumption", "aeroplane"),
    "faster than sound": ("balance.assumption", "aeroplane"),
}


@pytest.mark.parametrize("name", SAYS)
def test_what_could_not_be_worked_out_is_said(name: str) -> None:
    """Nothing is left out in silence."""
    found = assessed_or_refused(DESCRIPTIONS[name], "")
    assert found is not None
    assert SAYS[name] in {(one.code, about) for one in found.findings for about in one.about}
