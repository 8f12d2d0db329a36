"""Rule on how far the CG travels as the fuel burns."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.bounds import limit_words
from hardstand.engines.balance.model import Travel
from hardstand.findings import Finding, Limit, judge
from hardstand.standards.units import show


def travel_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """The largest travel of each run, of the mean chord; nothing without fuel or a wing."""
    travel: Travel | None = earlier["balance.travel"]
    if travel is None:
        return
    limit: Limit = slices.limits["balance.fuel-travel"]
    for locus in travel.loci:
        address = f"balance.fuel-travel@gear-{locus.gear}"
        if address not in travel.figures.addresses:
            continue
        figure = travel.figures.figure(address)
        outcome = judge(figure.value, figure.u, limit)
        if outcome == "inside":
            continue
        stands = (
            f"With the gear {locus.gear} the CG travels {show(locus.travel_mm, 'mm')}, "
            f"{show(figure.value, 'pct', figure.u)} of the mean chord, from full to the reserve "
            f"({limit_words(limit)})"
        )
        outside = outcome == "outside"
        yield Finding(
            "balance.fuel-travel",
            "caution" if outside else "measure",
            (locus.base,),
            f"{stands}: the trim changes as the fuel burns."
            if outside
            else f"{stands}: too near to the limit to tell. Measure where the tanks are, and what they hold.",
            figure,
            limit,
        )
