"""What holds for all findings of the balance alike."""

from __future__ import annotations

import pytest

from hardstand.engines.balance.rule_texts import RULES
from hardstand.standards.limits import BY_ID
from tests.aeroplanes import SMALL, WEIGHED, assessed, of_code, swapped, without_rows

ONE_SIDED = [
    (code, end) for code in BY_ID if code.startswith("balance.") for end in ("low", "high")
]


@pytest.mark.parametrize("code, end", ONE_SIDED)
@pytest.mark.parametrize("value", [-1000.0, 0.0, 1000.0])
def test_a_builder_may_set_either_end_of_any_limit(code: str, end: str, value: float) -> None:
    """Whatever is set, every rule still speaks in whole sentences or is silent."""
    from hardstand.description.problems import UnreadableError

    text = f'{SMALL}[[limit]]\nid = "{code}"\n{end} = {value}\nreason = "test"\n'
    try:
        found = assessed(text, WEIGHED.format(nose=1140, left=4130, right=4130))
    except UnreadableError:
        return  # refused: the other end would stand on the wrong side
    for one in found.findings:
        assert "inf" not in one.text.split()
        assert "None" not in one.text


def test_nothing_is_said_of_an_aeroplane_without_mass() -> None:
    """Its stage is not assessed, and that is not a verdict."""
    text = 'format = 1\n[aeroplane]\nname = "Nothing"\n'
    found = assessed(text)
    assert found.findings == ()
    assert next(one for one in found.stages if one.name == "balance").standing == "not assessed"


def test_a_stage_says_what_is_missing() -> None:
    """Partly assessed without legs, assessed with everything described."""
    states = {text: next(one for one in assessed(text).stages if one.name == "balance")
              for text in (SMALL, without_rows(SMALL, "leg"))}  # fmt: skip
    whole, partly = states.values()
    assert (whole.standing, whole.missing) == ("assessed", ())
    assert (partly.standing, partly.missing) == ("partly", ("a nose leg and two main legs",))


def test_every_rule_says_why_how_and_from_where() -> None:
    """No empty sentence; a limit that is named exists."""
    for rule in RULES:
        assert rule.why.endswith(".")
        assert rule.formula
        assert rule.source
        for name in filter(None, rule.limit.split(", ")):
            assert name in BY_ID or name.startswith("aeroplane.cg_")
    assert len({rule.code for rule in RULES}) == len(RULES)


def test_an_aeroplane_of_typical_masses_alone_is_to_be_weighed() -> None:
    """A CG well inside its range closes nothing where every mass is only typical of its class."""
    text = """
format = 1
[aeroplane]
name = "Typical"
cg_range_mm = [-400, 400]
cg_range_state = "ref"
[cg_mark]
name = "a point"
at_mm = [500, 0, 0]
[[state]]
id = "ref"
[[item]]
id = "pack-1"
part = "pack-li-po-2s-1800"
at_mm = [510, 0, 0]
[[item]]
id = "pack-2"
part = "pack-li-po-2s-1800"
at_mm = [560, 0, 0]
"""
    (said,) = of_code(assessed(text), "balance.cg-range")
    assert said.severity == "measure"
    assert "only typical of its class" in said.text
    assert of_code(assessed(text + "mass_g = 95\n"), "balance.cg-range") == []


def test_a_static_margin_is_judged_where_it_is_least() -> None:
    """Of the states flown the one with the greatest chance of too little is named."""
    found = assessed(swapped(SMALL, "at_mm = [960, 0, 20]", "at_mm = [1300, 0, 20]"))
    margins = found.results["balance.margins"]
    said = [one for one in found.findings if one.code.startswith("balance.static-margin")]
    worst = margins.state_ids[int(margins.chance.argmax())]
    assert {one.about for one in said} == {(worst,)}
