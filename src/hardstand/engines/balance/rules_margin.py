"""Rules on the static margin: its limit by chance, and the wish for a first flight."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.bounds import high_of, limit_words, low_of
from hardstand.engines.balance.model import Margins
from hardstand.engines.balance.worst import flown_states
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit
from hardstand.standards.units import show


def margin_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """The state with the greatest chance of too little; nothing without a neutral point."""
    margins: Margins | None = earlier["balance.margins"]
    if margins is None:
        return
    flown = flown_states(slices, margins.state_ids)
    if not flown:
        return
    aft = max(
        flown,
        key=lambda one: (
            float(margins.chance[margins.state_ids.index(one)]),
            -float(margins.margin_pct[margins.state_ids.index(one)]),
        ),
    )
    chance = 100.0 * float(margins.chance[margins.state_ids.index(aft)])
    allowed = high_of(slices.limits["balance.margin-chance"])
    limit: Limit = slices.limits["balance.static-margin"]
    figure = margins.figures.figure(f"balance.static-margin@{aft}")
    stands = (
        f"In state {aft}, of those flown the one with the least, the static margin is "
        f"{show(figure.value, 'pct', figure.u)} of the mean chord ({limit_words(limit)}). The chance "
        f"that it is less than that is {percent(chance)}"
    )
    if chance >= 100.0 - allowed:
        text = f"{stands}: it would hardly be stable in pitch."
        yield Finding("balance.static-margin", "no-go", (aft,), text, figure, limit)
    elif chance > allowed:
        text = (
            f"{stands}, and {allowed:g} % is allowed. Keep to the forward half of the CG range until the "
            "first flight has measured it: trim at two speeds."
        )
        yield Finding("balance.static-margin", "measure", (aft,), text, figure, limit)
    else:
        yield from _target(slices, aft, figure)


def percent(chance: float) -> str:
    """A chance in per cent that claims neither certainty.

    >>> percent(0.01), percent(4.62), percent(99.95)
    ('under 0.1 %', '4.6 %', 'over 99.9 %')
    """
    if chance < 0.1:
        return "under 0.1 %"
    return "over 99.9 %" if chance > 99.9 else f"{chance:.1f} %"


def _target(slices: Any, aft: str, figure: Figure) -> Iterator[Finding]:
    wish: Limit = slices.limits["balance.static-margin-target"]
    if low_of(wish) <= figure.value <= high_of(wish):
        return
    than = "less steady" if figure.value < low_of(wish) else "more nose-heavy"
    yield Finding(
        "balance.static-margin-target",
        "note",
        (aft,),
        f"The static margin in state {aft} is {show(figure.value, 'pct', figure.u)} of the mean chord; for "
        f"a first flight {limit_words(wish)} is wished for (judged on the value alone). It is {than}.",
        figure,
        wish,
    )
