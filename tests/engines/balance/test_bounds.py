from __future__ import annotations

from math import inf

import pytest

from hardstand.engines.balance.bounds import high_of, limit_words, low_of, spare
from hardstand.findings import Limit, judge


@pytest.mark.parametrize(
    "low, high, words",
    [
        (8.0, 15.0, "8 to 15 %"),
        (None, 2.0, "at most 2 %"),
        (3.0, None, "at least 3 %"),
        (-3.0, 3.0, "at most 3 % to either side"),
        (None, None, "none"),
    ],
)
def test_any_limit_has_words_and_ends(low: float | None, high: float | None, words: str) -> None:
    """Also one of which the builder set only the other end."""
    limit = Limit("balance.nose-share", "pct", low, high)
    assert limit_words(limit) == words
    assert (low_of(limit), high_of(limit)) == (
        -inf if low is None else low,
        inf if high is None else high,
    )


@pytest.mark.parametrize("value", [-4.0, 1.0, 2.0, 9.0])
def test_what_is_spare_has_the_sign_of_the_verdict(value: float) -> None:
    """Negative outside, positive inside, as judged without uncertainty."""
    limit = Limit("balance.nose-share", "pct", 0.5, 8.0)
    assert (spare(value, limit) >= 0.0) == (judge(value, 0.0, limit) == "inside")
