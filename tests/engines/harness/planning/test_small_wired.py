from __future__ import annotations

from hardstand.changes import Change
from hardstand.engines.harness import planning
from hardstand.engines.harness.planning.cost import present
from tests.engines.harness.planning.planned import axes_taken, planned
from tests.engines.harness.wired import mistaken, texts

ON_ONE = (  # all of the left hub but one of the flaps
    ('from = "hub-b.out-1"\nto = "el-right.lead"', 'from = "hub-a.out-5"\nto = "el-right.lead"'),
    ('side = "right"\nat = ["hub-b.out-1"]', 'side = "right"\nat = ["hub-a.out-5"]'),
)


OTHERS = ("flap-left", "flap-right", "gear", "brake", "lights", "engine")


def test_what_hangs_on_fewer_things_is_preferred() -> None:
    """The first hub has a switch before it: what has no pair goes to the other, and pairs stay parted."""
    found = planned(texts())
    assert found.answer.proven
    assert all(found.ends[lead].startswith("hub-b.") for lead in ("C1", "C2", "C3", "T2"))
    assert found.ends["T1"] == "hub-a.out-4"  # the other way to stop the engine is on the other hub
    assert [found.ends[lead] for lead in ("S1", "S2", "F1", "F2")] == [
        "hub-a.out-1", "hub-b.out-1", "hub-a.out-2", "hub-b.out-2"]  # fmt: skip
    assert planning.left(found.made, found.plan) == ()
    assert planning.losses(found.made, present(found.made.problem), found.plan) == ()
    assert any("switch alone" in one or ("switch" in one and "gear no more" in one)
               for one in planning.gains(found.made, found.plan))  # fmt: skip


def test_one_change_parts_a_pair_that_is_on_one_hub() -> None:
    """Both elevators on one hub: a single lead goes to the other one, its channel with it."""
    found = planned(mistaken(*ON_ONE), keep=OTHERS)
    assert set(found.before.results["harness.channels"].takes) >= {"hub-a", "pack-a", "A1", "A2", "switch"}
    changes = planning.changes(found.made, found.plan)
    assert [one.address.rpartition(".")[2] for one in changes] == ["from", "at"]
    assert found.after().results["harness.channels"].takes == {}
    assert "hub-a" in planning.gains(found.made, found.plan)[0]


def test_what_is_kept_stays_and_is_told_as_the_reason() -> None:
    """With both elevators kept on one hub their being kept is what stands against parting them."""
    found = planned(mistaken(*ON_ONE), keep=("el-left", "S2"))
    assert found.ends["S1"] == "hub-a.out-1"
    assert found.ends["S2"] == "hub-a.out-5"
    left = planning.left(found.made, found.plan)
    assert left
    assert all(one.requirements == ("S1 (el-left) and S2 (el-right) stay in place",) for one in left)
    assert axes_taken(found.made, found.plan).keys() >= {"hub-a"}


def test_too_much_current_for_the_outputs_is_a_contradiction() -> None:
    """Four servos of 6 A and two outputs that carry it: the smallest set names three servos and no more."""
    found = planned(mistaken(("moving_a = 0.5", "moving_a = 6.0")))
    assert found.answer.plan is None
    assert found.answer.proven
    why, proven = planning.why_none(found.made)
    assert proven
    said = " ".join(why)
    assert "6.60 A" in said
    assert "each have an output" in said or "no more than" in said


def test_branches_get_outputs_of_their_own_where_asked() -> None:
    """Two elevators on one plug stay together unasked; asked, they part, and are branches no more."""
    ganged = mistaken(
        ('from = "hub-b.out-1"\nto = "el-right.lead"',
         'branch_of = "S1"\nfrom = "hub-a.out-1"\nto = "el-right.lead"'),
        ('side = "right"\nat = ["hub-b.out-1"]', 'side = "right"\nat = ["hub-a.out-1"]'),
    )  # fmt: skip
    together = planned(ganged)
    assert "S2" not in together.ends
    parted = planned(ganged, split=("S2",))
    assert {parted.ends["S1"].partition(".")[0], parted.ends["S2"].partition(".")[0]} == {"hub-a", "hub-b"}
    changes = planning.changes(parted.made, parted.plan)
    assert Change("lead.S2.branch_of", "S1", None) in changes
    after = parted.after()
    assert after.results["harness.channels"].takes == {}
    assert not [one for one in after.findings if one.severity == "no-go"]


def test_a_thin_bus_lead_feeds_no_servo_that_may_stick() -> None:
    """Outputs of a receiver that is fed through thin wire are barred to what draws more when stuck."""
    made = planned(texts()).made
    receivers = {c for c, place in enumerate(made.problem.places) if place.item in ("rx-a", "rx-b")}
    servo = next(one for one in made.problem.plugs if one.id == "S1")
    assert receivers & set(servo.fits)
    assert all(servo.barred[c] == "stuck" for c in receivers & set(servo.fits))


def test_channels_without_a_number_of_their_own_get_free_ones() -> None:
    """A number that two channels have stays with the first."""
    numbered = mistaken(('id = "el-left"\nfunction', 'id = "el-left"\nnumber = 1\nfunction'),
                        ('id = "el-right"\nfunction', 'id = "el-right"\nnumber = 1\nfunction'))  # fmt: skip
    found = planned(numbered)
    changes = {one.address: one.new for one in planning.changes(found.made, found.plan)}
    assert "channel.el-left.number" not in changes
    numbers = [one for address, one in changes.items() if address.endswith(".number")]
    assert sorted(numbers) == list(range(2, 10))


def test_no_channel_gets_a_number_where_none_has_one() -> None:
    """Numbers are left alone where the builder gives none."""
    found = planned(texts())
    assert not [one for one in planning.changes(found.made, found.plan) if one.address.endswith(".number")]
