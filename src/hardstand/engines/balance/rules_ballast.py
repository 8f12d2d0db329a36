"""Rule on how much of the aeroplane is ballast."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.bounds import limit_words
from hardstand.engines.balance.model import Ballast
from hardstand.findings import Finding, Limit, judge
from hardstand.standards.units import show


def ballast_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """Ballast as a share of the lightest state's mass; nothing without ballast."""
    ballast: Ballast | None = earlier["balance.ballast"]
    if ballast is None:
        return
    limit: Limit = slices.limits["balance.ballast-share"]
    figure = ballast.figures.figure("balance.ballast-share@aeroplane")
    outcome = judge(figure.value, figure.u, limit)
    if outcome == "inside":
        return
    stands = (
        f"{show(ballast.total_g, 'g')} of ballast is {ballast.share_pct:.2f} % of the aeroplane "
        f"({limit_words(limit)})"
    )
    outside = outcome == "outside"
    yield Finding(
        "balance.ballast-share",
        "caution" if outside else "measure",
        ballast.pieces,
        f"{stands}: look for another place for what is heavy first."
        if outside
        else f"{stands}: too near to the limit to tell. Weigh the ballast.",
        figure,
        limit,
    )
