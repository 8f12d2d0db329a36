from __future__ import annotations

from hardstand.engines.balance.judged import judged_states, to_mend
from tests.aeroplanes import SMALL, as_built, assessed, of_code, swapped

APART = swapped(SMALL, 'cg_target_state = "empty"', 'cg_target_state = "full"')


def judged(text: str) -> list[tuple[str, bool, bool]]:
    """(state, has a range, has a target) of the judged states."""
    head = assessed(text).results["balance.headline"]
    found = judged_states(as_built(text), head)
    return [(one.state_id, one.range_mm is not None, one.target_mm is not None) for one in found]


def test_range_and_target_may_belong_to_one_state_or_two() -> None:
    """Each is judged in its own state, and in no other."""
    assert judged(SMALL) == [("empty", True, True)]
    assert judged(APART) == [("empty", True, False), ("full", False, True)]
    only = SMALL.replace("cg_range_mm = [135, 175]\n", "")
    assert judged(only) == [("empty", False, True)]
    assert judged(only.replace("cg_target_mm = [148, 164]\n", "")) == []


def test_a_target_in_another_state_speaks_of_that_state() -> None:
    """The target is met when empty and missed when full: the finding is about full, with a way out."""
    text = swapped(APART, "cg_target_mm = [148, 164]", "cg_target_mm = [120, 130]")
    text += '[[ballast_place]]\nid = "nose"\nat_mm = [100, 0, 0]\nmost_g = 900\n'
    (found,) = of_code(assessed(text), "balance.cg-target")
    assert found.about == ("full",)
    assert found.remedy is not None
    assert assessed(text).results["balance.trade"].state_id == "full"


def test_ways_are_sought_for_the_first_that_is_not_content() -> None:
    """A range that is kept does not hide a target that is missed."""
    text = swapped(APART, "cg_target_mm = [148, 164]", "cg_target_mm = [120, 130]")
    head = assessed(text).results["balance.headline"]
    mended = to_mend(judged_states(as_built(text), head))
    assert mended is not None
    assert mended.state_id == "full"
    assert to_mend(()) is None


def test_other_states_are_not_judged_by_the_range() -> None:
    """A range that only the full state would miss raises nothing: it belongs to the empty one."""
    found = assessed()
    aft = max(found.figure(f"balance.cg@{one}").value for one in ("full", "low"))
    empty = found.figure("balance.cg@empty")
    between = 0.5 * (aft + empty.value + empty.expanded)
    text = swapped(SMALL, "cg_range_mm = [135, 175]", f"cg_range_mm = [100, {between}]")
    assert empty.value + empty.expanded < between < aft
    assert of_code(assessed(text), "balance.cg-range") == []
