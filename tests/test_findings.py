"""How limits are judged (ISO 14253-1, decision rules: common practice of its reading), and findings."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.changes import AddRow, Change, RemoveRow
from hardstand.figures import Figure
from hardstand.findings import SEVERITIES, Finding, Limit, Remedy, Rule, judge, worst_first

LOW = Limit("fit.box-gap", "mm", low=2.0)
HIGH = Limit("balance.level", "deg", high=2.0)
BAND = Limit("balance.lateral", "mm", low=-3.0, high=3.0)
U_STANDARD = 0.25  # U, the expanded uncertainty, is 0.5
VALUES = st.floats(-1e6, 1e6)
UNSURE = st.floats(0.0, 1e3)


@pytest.mark.parametrize(
    "value, outcome",
    [
        (2.501, "inside"), (2.5, "inside"), (2.499, "between"), (2.001, "between"), (2.0, "between"),
        (1.999, "between"), (1.5, "between"), (1.499, "outside"),
    ],
)  # fmt: skip
def test_a_lower_limit_at_itself_at_u_and_a_thousandth_beside(value: float, outcome: str) -> None:
    """Passes from U above on, fails from more than U below, and only measuring decides between."""
    assert judge(value, U_STANDARD, LOW) == outcome
    assert judge(4.0 - value, U_STANDARD, HIGH) == outcome  # an upper limit is its mirror image


@pytest.mark.parametrize(
    "value, outcome",
    [(0.0, "inside"), (2.5, "inside"), (2.501, "between"), (3.0, "between"), (3.5, "between"), (3.501, "outside"),
     (-2.5, "inside"), (-2.501, "between"), (-3.5, "between"), (-3.501, "outside")],
)  # fmt: skip
def test_a_band_is_judged_at_both_ends(value: float, outcome: str) -> None:
    """At each end as if it stood alone."""
    assert judge(value, U_STANDARD, BAND) == outcome


@pytest.mark.parametrize("value, outcome", [(1.999, "outside"), (2.0, "inside"), (2.001, "inside")])
def test_without_uncertainty_the_limit_itself_passes(value: float, outcome: str) -> None:
    """There is nothing between."""
    assert judge(value, 0.0, LOW) == outcome


@pytest.mark.parametrize("value, outcome", [(1.999, "outside"), (2.0, "inside")])
def test_a_target_is_judged_on_the_value_alone(value: float, outcome: str) -> None:
    """However unsure the value is."""
    assert judge(value, 10.0, Limit("x.y", "mm", low=2.0, target=True)) == outcome


def test_a_band_that_is_narrower_than_u_can_only_be_measured() -> None:
    """No value in it passes."""
    assert judge(0.0, 2.0, BAND) == "between"


@pytest.mark.parametrize("value, u", [(math.nan, 0.1), (2.0, math.nan), (2.0, math.inf), (math.nan, math.nan)])
def test_what_is_no_number_decides_nothing(value: float, u: float) -> None:
    """It neither passes nor fails."""
    assert judge(value, u, LOW) == "between"


def test_a_limit_without_bounds_limits_nothing() -> None:
    """Everything is inside."""
    assert judge(1e9, 5.0, Limit("x.y", "mm")) == "inside"


@given(VALUES, UNSURE, UNSURE)
def test_knowing_better_never_turns_a_pass_into_a_fail(value: float, u: float, less: float) -> None:
    """A smaller uncertainty decides what was open, and turns nothing round."""
    better = judge(value, min(u, less), BAND)
    assert judge(value, max(u, less), BAND) in (better, "between")


@given(VALUES, UNSURE, st.floats(0.0, 1e3))
def test_going_inward_never_makes_it_worse(value: float, u: float, by: float) -> None:
    """With one bound, more is better."""
    order = ["outside", "between", "inside"]
    assert order.index(judge(value + by, u, LOW)) >= order.index(judge(value, u, LOW))


def test_the_forms_of_a_finding() -> None:
    """Stage, JSON with figure, limit and remedy, and without any of them."""
    figure = Figure("fit.gap@a+b", 1.4, "mm", 0.2, "computed")
    remedy = Remedy("move b", (Change("item.b.at_mm", [1, 2], [3, 4]), RemoveRow("item", "c"),
                               AddRow("mass", {"id": "d"})), ("the CG moves by 1 mm",))  # fmt: skip
    found = Finding("fit.box-gap", "no-go", ("a", "b"), "They touch.", figure, LOW, remedy)
    form = found.as_json()
    assert found.stage == "fit"
    assert form["figure"]["value"] == 1.4
    assert (form["limit"]["value"], form["limit"]["kind"], form["limit"]["u"]) == (2.0, "default", 0.0)
    assert form["remedy"]["changes"] == [
        {"address": "item.b.at_mm", "old": [1, 2], "new": [3, 4]}, {"remove": "item", "id": "c"},
        {"add": "mass", "row": {"id": "d"}}]  # fmt: skip
    assert form["accepted"] is None
    bare = Finding("fit.x", "note", (), "So.").as_json()
    assert (bare["figure"], bare["limit"], bare["remedy"]) == (None, None, None)


@pytest.mark.parametrize("severity", SEVERITIES)
def test_accepting_lowers_a_no_go_and_hides_nothing(severity: str) -> None:
    """A no-go becomes a caution; the others stay; all say who took it on and why."""
    found = Finding("fit.x", severity, ("a",), "So.").accepted_by("owner", "trial fit")  # type: ignore[arg-type]
    assert found.severity == ("caution" if severity == "no-go" else severity)
    assert found.accepted == "trial fit (owner)"
    assert found.as_json()["accepted"] == "trial fit (owner)"


def test_the_worst_stands_first() -> None:
    """By severity, then code, then what it is about."""
    def one(code: str, severity: str, *about: str) -> Finding:
        return Finding(code, severity, about, "So.")  # type: ignore[arg-type]

    ordered = [one("b.x", "no-go"), one("a.x", "measure"), one("a.x", "caution", "a"),
               one("a.x", "caution", "b"), one("b.x", "caution"), one("a.x", "note")]  # fmt: skip
    assert worst_first(ordered[::-1]) == ordered


def test_a_builders_limit_says_so() -> None:
    """With the reason; a band shows its upper end as its value."""
    form = Limit("balance.lateral", "mm", -3.0, 3.0, by_builder=True, reason="because").as_json()
    assert (form["kind"], form["reason"], form["value"]) == ("declared", "because", 3.0)


def test_a_rule_cannot_be_accepted_unless_it_says_so() -> None:
    """The safe default."""
    assert not Rule("a.b", "title", "why", "formula", "source").acceptable
