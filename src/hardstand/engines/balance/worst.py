"""The worst of several figures against one limit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hardstand.engines.balance.bounds import spare
from hardstand.figures import Figure
from hardstand.findings import Limit, Outcome, judge

ORDER: tuple[Outcome, ...] = ("outside", "between", "inside")


def worst_of(figures: Sequence[Figure], limit: Limit) -> tuple[Figure, Outcome] | None:
    """The figure with the worst outcome, and of those the least inside; None without figures.

    >>> limit = Limit("balance.overturn", "deg", high=63.0)
    >>> near, far = Figure("a@1", 60.0, "deg", 2.0, "computed"), Figure("a@2", 61.0, "deg", 0.1, "computed")
    >>> found = worst_of([near, far], limit)
    >>> found[0].address, found[1]
    ('a@1', 'between')
    """
    judged = [(one, judge(one.value, one.u, limit)) for one in figures]
    return min(
        judged,
        key=lambda one: (ORDER.index(one[1]), spare(one[0].value, limit)),
        default=None,
    )


def flown_states(slices: Any, known: Sequence[str]) -> list[str]:
    """The ids of the states that are flown, of those that are known."""
    return [state.id for state in slices.states if state.flown and state.id in known]
