"""The demo at its three moments raises the findings that stand in `expected.toml`, and no other."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files

import pytest

from hardstand.asbuilt import build
from hardstand.assessment import Assessment, assess
from hardstand.changes import Change
from hardstand.cli.begin import MOMENTS, demo_texts
from hardstand.description.read import read_texts
from hardstand.stages import stages

Row = tuple[str, str, tuple[str, ...]]


@cache
def assessed(moment: str) -> Assessment:
    """The demo at a moment, assessed by every stage."""
    return assess(build(read_texts(demo_texts(moment)).description), stages())


def expected(moment: str) -> list[Row]:
    """Severity, code and subjects of every finding that may be raised."""
    folder = files("hardstand") / "data" / "demo" / MOMENTS[moment]
    data = tomllib.loads((folder / "expected.toml").read_text(encoding="utf-8"))
    return [(row["severity"], row["code"], tuple(row["about"])) for row in data["finding"]]


@pytest.mark.parametrize("moment", MOMENTS)
def test_the_findings_are_those_expected_both_ways(moment: str) -> None:
    """Nothing is raised that is not listed, and everything listed is raised."""
    raised = [(one.severity, one.code, one.about) for one in assessed(moment).findings]
    assert sorted(raised) == sorted(expected(moment))


@pytest.mark.parametrize("moment", ["as-built", "after-flights"])
def test_the_correct_build_raises_no_no_go_and_no_caution(moment: str) -> None:
    """A rule that fires on a correct aeroplane is a defect of the rule; what is accepted stays seen."""
    severities = {one.severity for one in assessed(moment).findings if not one.accepted}
    assert severities <= {"measure", "note"}


def test_the_first_layout_is_too_nose_heavy_and_has_a_way_out() -> None:
    """The way out of the first layout brings the CG into its range without ballast."""
    found = assessed("first-layout").findings[0]
    assert (found.code, found.severity) == ("balance.cg-range", "no-go")
    assert found.figure is not None
    assert found.figure.value == pytest.approx(232.0, abs=0.1)  # the scenario's own figure
    assert found.remedy is not None
    changes = [one for one in found.remedy.changes if isinstance(one, Change)]
    parts = {one.new for one in changes if one.address.endswith(".part")}
    assert parts == {"receiver-pack-3600"}


def test_stages_without_tables_are_not_assessed() -> None:
    """What no table describes is said to be not assessed, never passed over."""
    states = {one.name: one for one in assessed("as-built").stages}
    assert {name for name, one in states.items() if one.standing == "assessed"} == {
        "fit",
        "balance",
    }
    assert states["gear"].missing == ("nothing described",)
