"""For each rule of the balance three aeroplanes: failing by the smallest margin, undecided, clear.

The limit is moved to the aeroplane: to where its figure lies a thousandth beyond U outside, exactly
on it, and a thousandth beyond U inside.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from hardstand.engines.balance.rule_texts import RULES
from tests.aeroplanes import SMALL, WEIGHED, assessed, of_code, swapped, without_rows

STEP = 0.001
LEVEL = WEIGHED.format(nose=1080, left=3910, right=3910)


def with_limit(text: str, code: str, end: str, value: float) -> str:
    """The aeroplane with the builder's own limit."""
    return f'{text}\n[[limit]]\nid = "{code}"\n{end} = {value:.9f}\nreason = "test"\n'


def severities(text: str, code: str, measurements: str = "") -> set[str]:
    """The severities with which a code speaks about an aeroplane."""
    return {one.severity for one in of_code(assessed(text, measurements), code)}


def figure(address: str, text: str = SMALL, measurements: str = "") -> tuple[float, float]:
    """Value and U of a figure."""
    found = assessed(text, measurements).figure(address)
    return found.value, found.expanded


LIMITED = [
    ("balance.lateral", "high", "balance.cg-y@low", "caution"),
    ("balance.nose-share", "high", "balance.nose-share@empty", "caution"),
    ("balance.nose-share", "low", "balance.nose-share@empty", "caution"),
    ("balance.overturn", "high", "balance.overturn@empty", "caution"),
    ("balance.tip-back-spare", "low", "balance.tip-back-spare@empty", "caution"),
]
LOPSIDED = swapped(SMALL, "at_mm = [1600, 0, 40]", "at_mm = [1600, 40, 40]")


@pytest.mark.parametrize("code, end, address, fails_as", LIMITED)
def test_a_limit_is_judged_with_the_expanded_uncertainty(
    code: str, end: str, address: str, fails_as: str
) -> None:
    """Outside by U and a thousandth fails, on the limit only measuring decides, inside is silent."""
    value, expanded = figure(address, LOPSIDED)
    inward = 1.0 if end == "high" else -1.0
    beyond = expanded + STEP
    assert severities(with_limit(LOPSIDED, code, end, value - inward * beyond), code) == {fails_as}
    assert severities(with_limit(LOPSIDED, code, end, value), code) == {"measure"}
    assert severities(with_limit(LOPSIDED, code, end, value + inward * beyond), code) == set()


def test_the_cg_range_is_judged_with_the_expanded_uncertainty() -> None:
    """The aft end of the designer's range a thousandth inside, at and outside CG less and plus U."""
    value, expanded = figure("balance.cg@empty")

    def at(aft_end: float) -> set[str]:
        text = swapped(SMALL, "cg_range_mm = [135, 175]", f"cg_range_mm = [100, {aft_end:.9f}]")
        return severities(text, "balance.cg-range")

    assert at(value - expanded - STEP) == {"no-go"}
    assert at(value) == {"measure"}
    assert at(value + expanded + STEP) == set()


TARGETS = [
    ("balance.cg-target", "caution"),
    ("balance.static-margin-target", "note"),
]


def _target_text(code: str, high: float) -> str:
    if code == "balance.cg-target":
        return swapped(SMALL, "cg_target_mm = [148, 164]", f"cg_target_mm = [100, {high:.9f}]")
    return with_limit(SMALL, code, "high", high)


@pytest.mark.parametrize("code, fails_as", TARGETS)
def test_a_target_is_judged_on_the_value_alone(code: str, fails_as: str) -> None:
    """A thousandth beyond it speaks, a thousandth inside is silent, whatever the uncertainty."""
    address = "balance.cg@empty" if code == "balance.cg-target" else "balance.static-margin@full"
    value, _ = figure(address)
    assert severities(_target_text(code, value - STEP), code) == {fails_as}
    assert severities(_target_text(code, value), code) == set()
    assert severities(_target_text(code, value + STEP), code) == set()


def _bisected(chance_of: Callable[[float], float], wanted: float) -> float:
    low, high = -40.0, 60.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if chance_of(middle) > wanted else (middle, high)
    return 0.5 * (low + high)


def test_the_static_margin_is_judged_by_its_chance() -> None:
    """Limits at which the chance of less is just over 97.5 %, 50 %, just under 2.5 %."""
    from hardstand.engines.balance.static_margin import chance_margin_below

    found = assessed()
    head = found.results["balance.headline"]
    row = head.row("full")
    point = found.results["balance.stability"].point
    u_x = found.figure("balance.cg-mac@full").u / 100.0 * point.reference.mac_mm

    def chance(limit: float) -> float:
        return float(chance_margin_below(point, head.cg_mm[row, 0], u_x, limit))

    def speaks(wanted: float) -> set[str]:
        limit = _bisected(chance, wanted)
        text = with_limit(SMALL, "balance.static-margin", "low", limit)
        return severities(text, "balance.static-margin")

    assert speaks(0.9751) == {"no-go"}
    assert speaks(0.5) == {"measure"}
    assert speaks(0.0249) == set()


def test_a_range_that_the_planform_contradicts_is_doubted() -> None:
    """The aft end where stability would surely be lost, where it may be, and where it is kept."""
    code = "balance.range-doubtful"

    def at(aft_end: float) -> set[str]:
        text = swapped(SMALL, "cg_range_mm = [135, 175]", f"cg_range_mm = [135, {aft_end}]")
        return severities(text, code)

    assert at(275) == {"no-go"}  # 157 with another mark 118 mm farther aft
    assert at(205) == {"caution"}
    assert at(185) == set()


def test_a_range_far_ahead_of_anything_flown_is_doubted() -> None:
    """A slipped digit forward, 15 for 150, is spoken of; 100 is not."""
    code = "balance.range-doubtful"
    for forward_end, spoken in ((15, {"caution"}), (100, set())):
        text = swapped(SMALL, "cg_range_mm = [135, 175]", f"cg_range_mm = [{forward_end}, 175]")
        assert severities(text, code) == spoken


def test_fuel_travel_is_judged_with_the_expanded_uncertainty() -> None:
    """A tank far aft: a thousandth beyond U outside its limit, at it, a thousandth beyond U inside."""
    text = swapped(SMALL, "at_mm = [960, 0, 20]", "at_mm = [1300, 0, 20]")
    code = "balance.fuel-travel"
    value, expanded = figure("balance.fuel-travel@gear-up", text)
    for by, speaks in (
        (-expanded - STEP, {"caution"}),
        (0.0, {"measure"}),
        (expanded + STEP, set()),
    ):
        assert severities(with_limit(text, code, "high", value + by), code) == speaks


def _residual(code: str, measurements: str) -> tuple[float, float]:
    weighed = assessed(SMALL, measurements).results["balance.weighings"].weighed[0]
    if code == "balance.weigh-in-mass":
        return abs(weighed.residual_g), weighed.u_residual_g
    return abs(weighed.residual_mm), weighed.u_residual_mm


@pytest.mark.parametrize("code", ["balance.weigh-in-mass", "balance.weigh-in-cg"])
def test_a_weigh_in_that_disagrees_asks_for_a_measurement(code: str) -> None:
    """Beyond the limit it asks and names a suspect, at and inside it is silent."""
    measurements = WEIGHED.format(nose=1080, left=3930, right=3930)
    residual, u = _residual(code, measurements)
    assert 0.01 < residual < 3.0 * u
    for by, speaks in ((-STEP, {"measure"}), (0.0, set()), (STEP, set())):
        text = with_limit(SMALL, code, "high", residual + by + 1e-9)
        assert severities(text, code, measurements) == speaks


def test_beyond_three_sigma_a_weigh_in_asks_whatever_the_limit() -> None:
    """Half a kilogram more than the parts is never within a generous limit."""
    measurements = WEIGHED.format(nose=1140, left=4130, right=4130)
    text = with_limit(SMALL, "balance.weigh-in-mass", "high", 5000.0)
    found = of_code(assessed(text, measurements), "balance.weigh-in-mass")
    assert [one.severity for one in found] == ["measure"]
    assert "likeliest" in found[0].text


def test_an_aeroplane_never_weighed_is_to_be_weighed() -> None:
    """Without a weigh-in it speaks; with one it does not."""
    assert severities(SMALL, "balance.not-weighed") == {"measure"}
    assert severities(SMALL, "balance.not-weighed", LEVEL) == set()


def test_off_level_weighing_is_noted() -> None:
    """The limit for level is a target: a thousandth more speaks, on it is silent."""
    for pitch, speaks in ((0.2 + STEP, {"note"}), (0.2, set()), (0.2 - STEP, set())):
        measurements = LEVEL.replace('state = "empty"', f'state = "empty"\npitch_deg = {pitch}')
        assert severities(SMALL, "balance.level", measurements) == speaks


def test_a_measurement_of_what_has_changed_is_stale() -> None:
    """The declared value then and now: the same is used, another is stale."""
    row = '[[measurement]]\nid = "m1"\naddress = "mass.nose.mass_g"\nvalue = 990\ndeclared = {}\n'
    assert severities(SMALL, "balance.stale", row.format(1000)) == set()
    assert severities(SMALL, "balance.stale", row.format(1001)) == {"caution"}
    assert assessed(SMALL, row.format(1000)).figure("balance.mass@empty").value == 8890.0
    assert assessed(SMALL, row.format(1001)).figure("balance.mass@empty").value == 8900.0


def test_much_ballast_is_a_caution() -> None:
    """The share of ballast a thousandth beyond U over its limit, at it, a thousandth beyond U under."""
    text = SMALL + '[[mass]]\nid = "lead"\nmass_g = 100\nat_mm = [950, 0, 0]\nzone = "ballast"\n'
    code = "balance.ballast-share"
    value, expanded = figure("balance.ballast-share@aeroplane", text)
    assert value == pytest.approx(100.0 * 100.0 / 9000.0)
    for by, speaks in (
        (-expanded - STEP, {"caution"}),
        (0.0, {"measure"}),
        (expanded + STEP, set()),
    ):
        assert severities(with_limit(text, code, "high", value + by), code) == speaks


def test_a_weigh_in_that_cannot_be_is_named_and_left_out() -> None:
    """A little under twice the parts' mass it is used and doubted; twice and over it is unusable."""
    code = "balance.weigh-in-unusable"
    for share, speaks in (
        (1.999, set()),
        (2.001, {"measure"}),
        (0.501, set()),
        (0.499, {"measure"}),
    ):
        grams = {"nose": 1000 * share, "left": 3950 * share, "right": 3950 * share}
        measurements = WEIGHED.format(**grams)
        assert severities(SMALL, code, measurements) == speaks
        updated = assessed(SMALL, measurements).results["balance.headline"].updated
        assert updated is (speaks == set())


@pytest.mark.parametrize(
    "table, about",
    [("state", "state"), ("panel", "wing"), ("leg", "leg")],
)
def test_what_is_not_described_is_named(table: str, about: str) -> None:
    """A missing table is a finding that says what cannot be answered; the whole one is silent."""
    text = without_rows(SMALL, table)
    if table == "state":
        text = "\n".join(line for line in text.splitlines() if not line.startswith("cg_"))
    found = of_code(assessed(text), "balance.missing")
    assert (about,) in {one.about for one in found}
    assert severities(SMALL, "balance.missing") == set()


def test_a_tail_efficiency_that_is_assumed_is_named() -> None:
    """The default is noted; a declared one is not."""
    assert severities(SMALL, "balance.assumption") == {"note"}
    declared = SMALL + "[stability]\ntail_efficiency = 0.95\n"
    assert severities(declared, "balance.assumption") == set()


def test_a_derived_tank_inside_is_noted() -> None:
    """Without inside_mm the outside is shrunk, and that is said."""
    text = swapped(SMALL, "inside_mm = [250, 100, 60]\n", "")
    assert severities(text, "balance.tank-inside") == {"note"}
    assert severities(SMALL, "balance.tank-inside") == set()


def test_no_rule_is_left_out_here() -> None:
    """Every code that the engine can say stands somewhere in this file."""
    here = Path(__file__).read_text(encoding="utf-8")
    assert [rule.code for rule in RULES if f'"{rule.code}"' not in here] == []
