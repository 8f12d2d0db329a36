"""Rule on the CG sideways, in every state that is flown."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.bounds import limit_words
from hardstand.engines.balance.model import Headline
from hardstand.engines.balance.worst import flown_states, worst_of
from hardstand.findings import Finding, Limit
from hardstand.standards.units import show


def lateral_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """The CG sideways, in the worst of the flown states."""
    head: Headline = earlier["balance.headline"]
    limit: Limit = slices.limits["balance.lateral"]
    figures = [
        head.figures.figure(f"balance.cg-y@{one}") for one in flown_states(slices, head.state_ids)
    ]
    found = worst_of(figures, limit)
    if found is None or found[1] == "inside":
        return
    figure, outcome = found
    state = figure.address.partition("@")[2]
    side = "starboard" if figure.value > 0 else "port"
    stands = (
        f"In state {state} the CG is {show(abs(figure.value), 'mm', figure.u)} to {side} "
        f"({limit_words(limit)})"
    )
    outside = outcome == "outside"
    yield Finding(
        "balance.lateral",
        "caution" if outside else "measure",
        (state,),
        f"{stands}: it rolls that way, the more the slower it flies."
        if outside
        else f"{stands}: too near to the limit to tell. Weigh it on three scales, level sideways too.",
        figure,
        limit,
    )
