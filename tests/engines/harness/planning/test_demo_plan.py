from __future__ import annotations

from functools import cache

import pytest

from hardstand.engines.harness import planning
from hardstand.engines.harness.planning.cost import evaluate, present
from hardstand.engines.harness.planning.problem import ANEW
from tests.engines.harness.planning.planned import Planned, axes_taken, demo, planned, scrambled

HUBS = ("hub-left", "hub-right")
TWO = ("two-hubs",)


@cache
def shuffled(seed: int) -> Planned:
    """The demo with two hubs, what is plugged into them in a random order, and the plan found for it."""
    return planned(scrambled(demo(), TWO, HUBS, seed), TWO)


@cache
def at_best() -> Planned:
    """The demo with two hubs as described."""
    return planned(demo(), TWO)


def unit(end: str) -> str:
    """The item that an output belongs to."""
    return end.partition(".")[0]


def test_one_distribution_unit_keeps_its_plan() -> None:
    """With one unit nothing can be gained: nothing is changed, and the reason is that unit."""
    found = planned(demo())
    assert found.answer.proven
    assert planning.changes(found.made, found.plan) == ()
    left = planning.left(found.made, found.plan)
    assert {one.failures for one in left} == {("distribution-unit",)}
    assert {"pitch altogether", "roll altogether"} <= set(left[0].takes)
    assert left[0].requirements == ("every output hangs on it",)
    assert "second distribution unit" in left[0].helps[0]


def test_two_hubs_part_the_tailerons() -> None:
    """With two hubs the halves of every pair are on different ones, and nothing takes an axis."""
    found = at_best()
    assert found.answer.proven
    for left, right in (("H15", "H16"), ("H09", "H10"), ("H09-flap", "H10-flap")):
        assert {unit(found.ends[left]), unit(found.ends[right])} == set(HUBS)
    assert planning.left(found.made, found.plan) == ()
    assert found.after().results["harness.channels"].takes == {}


@pytest.mark.parametrize("seed", range(12))
def test_a_scrambled_plan_becomes_as_good_as_the_best(seed: int) -> None:
    """Whatever order the plugs are in, the plan found loses no more to single failures than the best one."""
    best = at_best().answer.cost
    found = shuffled(seed)
    assert best is not None
    assert found.answer.cost is not None
    assert found.answer.proven
    assert found.answer.cost.failures == best.failures
    assert found.answer.cost.changes <= evaluate(found.made.problem, present(found.made.problem)).changes + 6
    after = found.after()
    assert after.results["harness.channels"].takes == {}
    assert not [one for one in after.findings if one.severity == "no-go"]


@pytest.mark.parametrize("seed", range(3))
def test_counted_anew_a_scrambled_plan_costs_the_same_as_any_other(seed: int) -> None:
    """With changes last, failures, lengths and even load come to the same wherever it begins."""
    best = planned(demo(), TWO, order=ANEW).answer.cost
    found = planned(scrambled(demo(), TWO, HUBS, seed), TWO, order=ANEW).answer.cost
    assert best is not None
    assert found is not None
    assert found.ranked(ANEW)[:3] == best.ranked(ANEW)[:3]


@pytest.mark.parametrize("seed", range(12))
def test_single_failures_are_those_that_the_harness_counts(seed: int) -> None:
    """On plans in any order the planner and the harness name the same failures with the same axes."""
    found = shuffled(seed)
    takes = found.before.results["harness.channels"].takes
    assert axes_taken(found.made, present(found.made.problem)) == {
        name: set(axes) for name, axes in takes.items()
    }


def test_scrambles_do_harm_before_they_are_planned() -> None:
    """Among the scrambled plans some let one hub take an axis, so that there is something to mend."""
    harmed = [seed for seed in range(12)
              if shuffled(seed).before.results["harness.channels"].takes]
    assert len(harmed) >= 3


def test_what_is_gained_is_said() -> None:
    """The gains name the hub, and the pair or the axis that it takes no more."""
    found = next(one for seed in range(12) if "pitch" in str(
        (one := shuffled(seed)).before.results["harness.channels"].takes))
    gains = planning.gains(found.made, found.plan)
    assert any(one.endswith("alone takes pitch altogether no more") for one in gains)
    assert any("alone takes both taileron-left and taileron-right no more" in one for one in gains)


def test_plugs_exchanged_without_their_channels_are_put_right() -> None:
    """Where leads were replugged and the channels forgotten, each channel comes out where its item is."""
    texts = scrambled(demo(), TWO, HUBS, 4, channels=False)
    found = planned(texts, TWO)
    assert any(one.code == "harness.wrong-item" for one in found.before.findings)
    assert found.made.guessed == ("throttle commands turbine-control-unit.in",
                                  "engine-aux commands turbine-control-unit.aux")  # fmt: skip
    assert not [one for one in found.after().findings if one.severity == "no-go"]
