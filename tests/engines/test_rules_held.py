"""No rule without a test: every code of every stage stands in the tests of that stage."""

from __future__ import annotations

from pathlib import Path

import pytest

from hardstand.stages import stages

STAGES = {one.name: one for one in stages() if one.rules}


@pytest.mark.parametrize("stage", STAGES)
def test_every_rule_is_held_by_a_test(stage: str) -> None:
    """A rule that joins a stage without a test of its own is named here."""
    texts = [one.read_text(encoding="utf-8") for one in (Path(__file__).parent / stage).rglob("*.py")]
    held = "".join(texts)
    codes = [rule.code for rule in STAGES[stage].rules]
    names = {one: (f'"{one}"', f'"{one.partition(".")[2]}"') for one in codes}  # some tests leave the stage out
    assert [one for one in codes if not any(name in held for name in names[one])] == []
