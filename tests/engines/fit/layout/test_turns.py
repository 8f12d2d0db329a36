from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.fit.layout.turns import Way, first_goes_on

_ROUNDS = st.lists(st.tuples(st.floats(1.0, 2000.0), st.floats(0.0, 50.0)), max_size=30)


def test_the_first_goes_on_alone_as_long_as_it_rises() -> None:
    """While a kind's latest yield keeps up with its average the other gets no turn."""
    one, other = Way(0.0), Way(0.0)
    for number in range(1, 20):
        assert first_goes_on(one, other)
        one.did(500.0, 100.0 * number**0.5)
    assert first_goes_on(one, other)


def test_the_better_yield_goes_on_and_the_other_keeps_a_share() -> None:
    """A first kind that stands still gives way to one that rises, but gets an eighth of the work."""
    one, other = Way(0.0), Way(0.0)
    one.did(500.0, 10.0)
    one.did(500.0, 10.0)
    turns = []
    for number in range(1, 60):
        first = first_goes_on(one, other)
        turns.append(first)
        if first:
            one.did(500.0, 10.0)
        else:
            other.did(1000.0, 5.0 * number)
    assert not any(turns[:7])
    assert any(turns)
    assert 0.1 < one.work / (one.work + other.work) < 0.15


def test_two_kinds_that_stand_still_share_the_work_evenly() -> None:
    """Where neither yields anything the one that has had less work is next."""
    one, other = Way(5.0), Way(5.0)
    for _ in range(80):
        (one if first_goes_on(one, other) else other).did(500.0, 5.0)
    assert one.work == other.work


@given(_ROUNDS, _ROUNDS)
def test_no_kind_is_left_without_work(
    ones: list[tuple[float, float]], others: list[tuple[float, float]]
) -> None:
    """Whatever both yield, once the first is slow the kind with far less work is next."""
    one, other = Way(0.0), Way(0.0)
    for way, rounds in ((one, ones), (other, others)):
        for work, rise in rounds:
            way.did(work, way.least + rise)
    if one.work and one.slow:
        if one.work > 10.0 * other.work:
            assert not first_goes_on(one, other)
        if other.work > 10.0 * one.work:
            assert first_goes_on(one, other)
    else:
        assert first_goes_on(one, other)
