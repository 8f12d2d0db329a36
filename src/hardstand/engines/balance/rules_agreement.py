"""Rule on weigh-ins that disagree with the parts: by how much, and what would explain it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.bounds import high_of
from hardstand.engines.balance.model import WeighedIn, Weighings
from hardstand.findings import Finding, Limit
from hardstand.standards.units import show

SIGMAS = 3.0
LIKELIEST = 3
LEAST_SHARE = 0.01  # of likelihood: what is less likely is not named
COUNTED_TWICE = "counted twice"


def agreement(one: WeighedIn, weighings: Weighings, slices: Any) -> Iterator[Finding]:
    """Weighed against built up: no more than the limit, and no more than 3 u of the difference."""
    if one.low_mm is not None or one.high_mm is not None:
        yield from _tipping(one, slices.limits["balance.weigh-in-cg"])
        return
    said = False
    for name, residual, u in (
        ("mass", one.residual_g if one.method == "scales" else None, one.u_residual_g),
        ("cg", one.residual_mm, one.u_residual_mm),
        ("cg-y", one.residual_y_mm, one.u_residual_y_mm),
    ):
        code = f"balance.weigh-in-{name.removesuffix('-y')}"
        limit: Limit = slices.limits[code]
        bound = min(high_of(limit), SIGMAS * (u or 0.0))
        if residual is None or abs(residual) <= bound:
            continue
        what, ways = WAYS[name]
        stands = (
            f"The weigh-in {one.id} finds {what} {show(abs(residual), limit.unit, u)} "
            f"{ways[residual > 0]} than the parts add up to (at most {show(bound, limit.unit)}): "
            "one of the two is wrong. "
        )
        stands += _likeliest(one) if said else _suspects(one)
        said = True
        figure = weighings.figures.figure(f"balance.weigh-in-{name}@{one.id}")
        yield Finding(code, "measure", (one.id,), stands, figure, limit)


WAYS = {
    "mass": ("it", ("lighter", "heavier")),
    "cg": ("the CG", ("farther forward", "farther aft")),
    "cg-y": ("the CG", ("farther to port", "farther to starboard")),
}


def _tipping(one: WeighedIn, limit: Limit) -> Iterator[Finding]:
    if abs(one.residual_mm) <= min(high_of(limit), SIGMAS * one.u_residual_mm):
        return
    tips, side = ("nose", "ahead of") if one.high_mm is not None else ("tail", "behind")
    yield Finding(
        "balance.weigh-in-cg",
        "measure",
        (one.id,),
        f"On the stand at station {one.x_mm:.0f} it tips {tips} down, so that its CG is {side} that; the "
        f"parts put it {show(abs(one.residual_mm), 'mm', one.u_residual_mm)} on the other side. One of the "
        "two is wrong: weigh it on three scales.",
        None,
        limit,
    )


def _likeliest(one: WeighedIn) -> str:
    """The first suspect alone, where the others have been named already."""
    odds = one.suspects and one.suspects[0].log_odds > 0.0
    return f"Likeliest: {one.suspect_words[0]}." if odds else "Weigh again."


def _suspects(one: WeighedIn) -> str:
    """The slips that would explain it, alike ones together, and which to look into first."""
    shares: dict[str, float] = {}
    for suspect, words in zip(one.suspects, one.suspect_words, strict=True):
        if suspect.log_odds > 0.0:
            shares[words] = shares.get(words, 0.0) + suspect.share
    likely = [item for item in shares.items() if item[1] >= LEAST_SHARE][:LIKELIEST]
    if not likely:
        return "No single slip explains it: weigh again, level, wheels free to roll."
    words = "; ".join(f"{words} ({100.0 * share:.0f} %)" for words, share in likely)
    first, name = one.suspects[0], one.suspect_names[0]
    check = "Look into that first"
    if first.item >= 0 and first.kind != COUNTED_TWICE:
        check = f"Weigh {name} by itself" if first.unit == "g" else f"Measure where {name} sits"
        check += " first"
    return f"If just one thing is wrong, the likeliest are: {words}. {check}."
