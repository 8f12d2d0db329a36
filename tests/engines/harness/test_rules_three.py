"""Each judged rule on three aeroplanes: failing by the smallest margin, undecided, and clear."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import pi

import pytest

from hardstand.engines.harness import STAGE
from hardstand.engines.harness.supply import WIRE_A_MM2
from hardstand.standards.limits import BY_ID
from tests.engines.harness.wired import Texts, assessed, findings, mistaken, texts

THOUSANDTH = 0.001


@dataclass(frozen=True)
class Case:
    """A rule's figure, and the aeroplane in which it has a given value."""

    code: str
    address: str
    files: Callable[[float], Texts]


def servo(moving_a: float, stall_a: float = 3.0, may_a: float = 4.0) -> Texts:
    """Every servo draws this, over pins and wires that stand it but those that are judged."""
    return mistaken(("moving_a = 0.5\nstall_a = 3.0", f"moving_a = {moving_a!r}\nstall_a = {stall_a!r}"),
                    ("current_a = 4", f"current_a = {may_a!r}"))  # fmt: skip


def thin(value: float) -> Texts:
    """A lead whose wire carries 0.5 A at this share of what it may."""
    area = 0.5 / WIRE_A_MM2 * 100.0 / value
    return mistaken(('"flap-left.lead"\nlength_mm = 1200\nawg = 20',
                     f'"flap-left.lead"\nlength_mm = 1200\narea_mm2 = {area!r}'))  # fmt: skip


def long(value: float) -> Texts:
    """A lead with this to spare over the 666.03 mm between its ports' faces."""
    straight = assessed(texts()).results["harness.lengths"].straight_mm["S1"]
    return mistaken(('"el-left.lead"\nlength_mm = 1200',
                     f'"el-left.lead"\nlength_mm = {straight + value!r}'))  # fmt: skip


def rail(value: float) -> Texts:
    """Units rated so that what hangs on them is this share of it: two servos and both receivers."""
    drawn = 2.0 * 0.5 + 0.1
    return mistaken(("rated_a = 15", f"rated_a = {drawn * 100.0 / value!r}"))


CASES = (
    Case("harness.wire-load", "harness.wire-load@F1", thin),
    Case("harness.pin-load", "harness.pin-load@el-left.lead",
         lambda v: servo(1.0, may_a=100.0 / v)),
    Case("harness.pin-peak", "harness.pin-peak@el-left.lead",
         lambda v: servo(0.1, stall_a=10.0, may_a=1000.0 / v)),
    Case("harness.rail-load", "harness.rail-load@hub-b.rail", rail),
    Case("harness.spare-length", "harness.spare-length@S1", long),
)  # fmt: skip


def severities(files: Texts, case: Case) -> list[str]:
    """The severities with which a rule speaks of its figure."""
    return [one.severity for one in findings(files)
            if one.code == case.code and one.figure and one.figure.address == case.address]  # fmt: skip


def test_no_judged_rule_is_left_out() -> None:
    """Every rule with a limit has its aeroplanes here."""
    assert {case.code for case in CASES} == {rule.code for rule in STAGE.rules if rule.limit}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.code)
def test_three_aeroplanes(case: Case) -> None:
    """Outside by U and a thousandth fails, at the limit only measuring decides, inside passes."""
    limit = BY_ID[case.code]
    bound, inward = (limit.low, 1.0) if limit.low is not None else (limit.high, -1.0)
    assert bound is not None
    figure = assessed(case.files(bound)).figure(case.address)
    assert figure.value == pytest.approx(bound, abs=1e-6)
    assert figure.u > 0.0
    # a share of a current has an uncertainty in proportion to it
    share = figure.expanded / figure.value if figure.unit == "pct" else 0.0
    beyond = figure.expanded + THOUSANDTH
    fails = bound * (1 + THOUSANDTH) / (1 - share) if share else bound - inward * beyond
    clear = bound * (1 - THOUSANDTH) / (1 + share) if share else bound + inward * beyond
    assert len(found := severities(case.files(fails), case)) == 1
    assert found[0] in ("no-go", "caution")
    assert severities(case.files(bound), case) == ["measure"]
    assert severities(case.files(clear), case) == []


def test_the_section_of_a_gauge_is_that_of_its_diameter() -> None:
    """AWG 20 is 0.812 mm across (ASTM B258, table of diameters; value from memory): 0.518 mm2."""
    lead = assessed(texts()).results["harness.netlist"].leads["S1"]
    assert lead.area_mm2 == pytest.approx(pi / 4.0 * 0.8118**2, rel=1e-3)


def test_currents_are_the_sums_by_hand() -> None:
    """Each way into a hub carries all that hangs on it: two servos, and the receiver that it feeds."""
    supply = assessed(texts()).results["harness.supply"]
    assert supply.lasting_a["A2"] == pytest.approx(0.5 + 0.5 + 0.1)
    assert supply.lasting_a["B1"] == pytest.approx(0.5 + 0.5 + 0.1)
    assert supply.stall_a["S1"] == pytest.approx(3.0)
    assert supply.lasting_a["G3"] == pytest.approx(0.4)
    assert supply.lasting_a["E1"] == pytest.approx(2.3)
    assert supply.stall_a["E1"] == pytest.approx(9.0)
