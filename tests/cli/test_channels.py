from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from hardstand import channel_plan
from hardstand.channel_plan_value import Checked
from hardstand.findings import Finding
from tests.engines.harness.planning.planned import demo, scrambled
from tests.engines.harness.wired import mistaken, texts
from tests.small_aeroplane import laid_out, ran

ON_ONE = (
    ('from = "hub-b.out-1"\nto = "el-right.lead"', 'from = "hub-a.out-5"\nto = "el-right.lead"'),
    ('side = "right"\nat = ["hub-b.out-1"]', 'side = "right"\nat = ["hub-a.out-5"]'),
)
KEEP = "flap-left,flap-right,gear,brake,lights,engine"


def folder(path: Path, files: dict[str, str]) -> Path:
    """An aeroplane's files in a folder, which is returned."""
    for name, text in files.items():
        (path / name).parent.mkdir(parents=True, exist_ok=True)
        (path / name).write_text(text, encoding="utf-8")
    return path


def main_text(path: Path) -> str:
    """What the aeroplane's file says."""
    return (path / "aeroplane.toml").read_text(encoding="utf-8")


def test_the_page_has_both_plans_gains_and_check(tmp_path: Path) -> None:
    """A person reads what is plugged where and is to be, what that gains, and what the stages say."""
    jet = folder(tmp_path / "jet", mistaken(*ON_ONE))
    before = main_text(jet)
    status, out, err = ran("channels", jet, "--keep", KEEP)
    assert status == 0
    for words in ("1 to replug", "proven", "What it gains", "alone take pitch altogether no more",
                  "Assessed by all stages", "kept"):
        assert words in " ".join(out.split())
    assert "Nothing was written" in err
    assert main_text(jet) == before


def test_a_plan_is_written_as_one_revision_that_undo_takes_back(tmp_path: Path) -> None:
    """--write changes lead and channel together, the failure is gone, and undo brings the old text back."""
    jet = folder(tmp_path / "jet", mistaken(*ON_ONE))
    before = main_text(jet)
    form = json.loads(ran("channels", jet, "--keep", KEEP, "--write", "--json")[1])
    assert form["revision"].startswith("r")
    assert form["changes"] == form["plan"]["changes"]
    assert {one["address"] for one in form["changes"]} in (
        {"lead.S1.from", "channel.el-left.at"}, {"lead.S2.from", "channel.el-right.at"})
    assert form["after"]["no-go"] < form["before"]["no-go"]
    after = json.loads(ran("check", jet, "--json")[1])
    assert not [one for one in after["findings"] if one["code"] == "harness.single-failure"]
    assert ran("undo", jet)[0] == 0
    assert main_text(jet) == before


def test_a_scrambled_demo_with_two_hubs_is_put_right_in_the_option(tmp_path: Path) -> None:
    """What is found is written into the option that set it: fewer no-gos, and undo takes it back."""
    files = dict(scrambled(demo(), ("two-hubs",), ("hub-left", "hub-right"), 2))
    jet = folder(tmp_path / "jet", files)
    form = json.loads(ran("channels", jet, "--option", "two-hubs", "--write", "--json")[1])
    plan = form["plan"]
    assert plan["ending"] == "proven"
    assert plan["now"]["takes"]
    assert not plan["found"]["takes"]
    found = {one["items"][0]: one["found"].partition(".")[0] for one in plan["plugs"]}
    assert found["servo-taileron-left"] != found["servo-taileron-right"]
    assert form["after"]["no-go"] < form["before"]["no-go"]
    assert main_text(jet).partition("[option.set]")[0] == files["aeroplane.toml"].partition("[option.set]")[0]
    again = json.loads(ran("channels", jet, "--option", "two-hubs", "--json")[1])
    assert not any(one["moved"] for one in again["plugs"])
    assert ran("undo", jet)[0] == 0
    assert main_text(jet) == files["aeroplane.toml"]


def test_a_plan_that_is_there_already_changes_nothing(tmp_path: Path) -> None:
    """Written twice, the second time there is nothing to do, and it says so."""
    jet = folder(tmp_path / "jet", mistaken(*ON_ONE))
    assert ran("channels", jet, "--keep", KEEP, "--write")[0] == 0
    status, _, err = ran("channels", jet, "--keep", KEEP, "--write")
    assert status == 0
    assert "Nothing was changed" in err


def test_no_plan_says_what_contradicts(tmp_path: Path) -> None:
    """Exit status 1 and the requirements in words where the outputs do not carry what they should."""
    jet = folder(tmp_path / "jet", mistaken(("moving_a = 0.5", "moving_a = 6.0")))
    before = main_text(jet)
    status, out, _ = ran("channels", jet, "--write")
    assert status == 1
    assert "These cannot all be had" in out
    assert "6.60 A" in out
    assert main_text(jet) == before


def test_a_plan_that_fails_its_assessment_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the stages find a new no-go in the plan, --write writes nothing and the page says so."""
    real = channel_plan._checked

    def sagging(*words: Any) -> Checked:
        return replace(real(*words), new=(Finding("power.rail", "no-go", ("hub-z",), "It sags."),))

    monkeypatch.setattr(channel_plan, "_checked", sagging)
    jet = folder(tmp_path / "jet", mistaken(*ON_ONE))
    before = main_text(jet)
    status, out, _ = ran("channels", jet, "--keep", KEEP, "--write")
    assert status == 1
    assert "Refused" in out
    assert "It sags." in out
    assert main_text(jet) == before


def test_worse_is_a_new_no_go_or_one_failure_more() -> None:
    """A plan passes only without a no-go more, with no more axes lost, those of pitch for themselves."""
    other = Finding("power.rail", "no-go", ("hub-b",), "It sags.")
    two = Finding("power.single-failure", "no-go", ("A", "B"), "They take pitch.")
    one = Finding("power.single-failure", "no-go", ("C",), "It takes pitch.")
    bad = Finding("power.rail", "no-go", ("hub-a",), "It sags.")
    assert not Checked((bad,), (), {}, {}).passed
    assert not Checked((), (), {"hub": ("roll",)}, {"hub": ("pitch",)}).passed
    assert not Checked((), (), {}, {"hub": ("roll",)}).passed
    assert Checked((bad,), (other,), {}, {}).passed
    assert not Checked((two,), (one,), {}, {}).passed
    assert Checked((one,), (two,), {}, {}).passed
    assert Checked((), (bad,), {"hub": ("pitch", "roll")}, {"hub": ("roll",)}).passed


def test_names_that_nothing_has_are_refused(tmp_path: Path) -> None:
    """A name to keep that belongs to nothing plugged in is refused with the nearest one."""
    jet = folder(tmp_path / "jet", texts())
    status, _, err = ran("channels", jet, "--keep", "el-lefft")
    assert status == 3
    assert "Did you mean el-left?" in err


def test_an_aeroplane_without_leads_has_nothing_to_plan(tmp_path: Path) -> None:
    """Without leads from outputs there is nothing to do, and what to describe is said."""
    status, _, err = ran("channels", laid_out(tmp_path / "jet"))
    assert status == 3
    assert "There is nothing to plan" in err
