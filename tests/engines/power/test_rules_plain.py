"""Rules of the power stage that judge no figure: each speaks where it should, and is silent where not."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from hardstand.asbuilt import build
from hardstand.assessment import Assessment, assess
from hardstand.changes import Change
from hardstand.cli.begin import demo_texts
from hardstand.description.read import read_texts
from hardstand.description.write import apply_to_texts
from hardstand.engines.harness import STAGE as HARNESS
from hardstand.engines.power.rules_missing import missing_findings
from hardstand.engines.power.stage import STAGE as POWER
from tests.engines.power.test_stage_rules import assessed, flown, found


@cache
def demo(lead: str = "", end: str = "") -> Assessment:
    """The demo as built, with one lead that ends nobody knows where."""
    texts = demo_texts("as-built")
    if lead:
        texts = {**texts, **apply_to_texts(texts, [Change(f"lead.{lead}.to", end, "unknown")])}
    return assess(build(read_texts(texts).description), [HARNESS, POWER])


@pytest.mark.parametrize("loose, said", [
    ((), ["note"]), (("H08", "distribution-unit.switch"), ["caution"]),
    (("H02", "distribution-unit.pack-2"), []),
])  # fmt: skip
def test_a_redundancy_that_goes_unseen(loose: tuple[str, ...], said: list[str]) -> None:
    """Seen on a panel it is a note, unseen a caution; with one pack there is none to lose."""
    raised = [one for one in demo(*loose).findings if one.code == "power.silent-redundancy"]
    assert [one.severity for one in raised] == said


def test_servos_by_their_class() -> None:
    """Servos that draw what their class does are told of; where none draws, there is nothing to tell."""
    assert [one.about for one in found(flown(), "power.class-current")] == [("servo",)]
    currents = ("idle_a = 0.02\nmoving_a = 0.5\nstall_a = 3.0\n", "")
    assert found(flown(currents), "power.class-current") == []


@pytest.mark.parametrize("word, slip", [
    ("wire", ("awg = 20\n", "")), ("length", ("length_mm = 1200\n", "")),
])  # fmt: skip
def test_what_is_taken_as_usual_is_told(word: str, slip: tuple[str, str]) -> None:
    """A lead without its wire or its length is reckoned with the usual one, by name."""
    before = [one.about for one in found(flown(), "power.assumption")]
    assert (word,) not in before
    lead = '"el-left.lead"\nlength_mm = 1200\nawg = 20\n'
    (told,) = [one for one in found(flown((lead, lead.replace(*slip))), "power.assumption")
               if one.about == (word,)]  # fmt: skip
    assert "S1" in told.text


def test_a_stated_reset_is_not_taken_as_usual() -> None:
    """Receivers without the voltage at which they restart are told of; with it they are not."""
    assert ("reset",) in [one.about for one in found(flown(), "power.assumption")]
    volts = "low_v = 4.0\nhigh_v = 8.4\n"
    stated = flown((f"{volts}idle_a = 0.1", f"{volts}reset_v = 3.2\nidle_a = 0.1"))
    (told,) = [one.text for one in found(flown(), "power.assumption") if one.about == ("reset",)]
    assert "rx-a" in told
    assert "rx-a" not in "".join(one.text for one in found(stated, "power.assumption"))


def test_a_moment_without_a_solution_is_a_no_go() -> None:
    """What the network solver cannot settle is told as more than the packs can give; else nothing is."""
    results = assessed(flown()).results
    network, solved, net = results["power.network"], results["power.moments"], results["harness.circuit"]

    def codes(settled: bool) -> list[tuple[str, str]]:
        told = replace(solved, settled=np.full(len(solved.settled), settled))
        rows = missing_findings(network, told, net, ())
        return [(one.code, one.severity) for one in rows if one.code == "power.collapse"]

    assert codes(settled=True) == []
    assert codes(settled=False) == [("power.collapse", "no-go")]
