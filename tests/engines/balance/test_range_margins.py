from __future__ import annotations

import pytest

from tests.aeroplanes import SMALL, assessed, of_code, swapped


def test_the_margin_at_an_end_is_that_of_a_cg_there() -> None:
    """Neutral point less mark and end of the range, of the MAC."""
    found = assessed()
    point, mac = (found.figure(f"balance.{one}@wing").value for one in ("neutral-point", "mac"))
    for end, aft in (("forward", 135.0), ("aft", 175.0)):
        margin = found.figure(f"balance.range-margin@{end}").value
        assert margin == pytest.approx(100.0 * (point - 800.0 - aft) / mac)


def test_another_mark_in_the_manual_is_caught() -> None:
    """The same range from the leading edge on the centreline, 50 mm ahead, against 150 mm behind it."""
    assert of_code(assessed(), "balance.range-doubtful") == []
    other = swapped(SMALL, "at_mm = [800, 100, 0]", "at_mm = [950, 400, 0]")
    (said,) = of_code(assessed(other), "balance.range-doubtful")
    assert said.severity == "no-go"
    assert "another mark" in said.text
    assert said.figure is not None
    assert said.figure.address == "balance.range-margin@aft"


def test_without_a_range_or_a_mark_there_is_nothing_to_compare() -> None:
    """No result, no finding."""
    text = SMALL.replace("cg_range_mm = [135, 175]\n", "")
    assert assessed(text).results["balance.range"] is None
