"""Rules on weigh-ins: done at all, usable, level, in agreement with the parts, still in force."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.bounds import high_of, limit_words
from hardstand.engines.balance.deciding import known_to
from hardstand.engines.balance.model import Ballast, Headline, Trade, WeighedIn, Weighings
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit, judge
from hardstand.standards.units import show

SIGMAS = 3.0
RAISED_DEG = 3.0  # a nose raised this far was raised on purpose, to find the height of the CG
LIKELIEST = 3
LEAST_SHARE = 0.01  # of likelihood: what is less likely is not named
COUNTED_TWICE = "counted twice"


def weighing_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """All rules on weigh-ins, measurements and ballast."""
    weighings: Weighings | None = earlier["balance.weighings"]
    yield from (_stale(one) for one in slices.stale)
    yield from _ballast(slices, earlier["balance.ballast"])
    if weighings is None:
        yield _not_weighed(earlier["balance.headline"], earlier["balance.trade"])
        return
    for name, why in weighings.unusable:
        text = f"The weigh-in {name} is not used: {why}. Put it right or take it out."
        yield Finding("balance.weigh-in-unusable", "measure", (name,), text)
    for one in weighings.weighed:
        yield from _agreement(one, weighings, slices)
    yield from _level(slices)


def _not_weighed(head: Headline, trade: Trade | None) -> Finding:
    state = trade.state_id if trade is not None and trade.state_id else head.state_ids[0]
    figure = head.figures.figure(f"balance.cg-x@{state}")
    text = (
        "The aeroplane has not been weighed as a whole: its CG rests on the parts alone and is known to "
        f"{known_to(figure.u)}, if nothing was forgotten. Weigh it on three scales, level, "
        "main tanks empty, and enter the readings in measurements.toml"
    )
    whole = trade.whole_weighed_u_mm if trade is not None else None
    text += f": {known_to(whole)}." if whole is not None else "."
    return Finding("balance.not-weighed", "measure", ("aeroplane",), text, figure)


def _stale(one: Any) -> Finding:
    return Finding(
        "balance.stale",
        "caution",
        (one.id,),
        f"The measurement {one.id} of {one.address} was taken when {_value(one.declared_then)} was declared; "
        f"now it is {_value(one.declared_now)}. It is kept but no longer used: measure again.",
    )


def _value(value: object) -> str:
    if isinstance(value, tuple | list):
        return ", ".join(_value(one) for one in value)
    return "nothing" if value is None else f"{value:g}" if isinstance(value, float) else str(value)


def _agreement(one: WeighedIn, weighings: Weighings, slices: Any) -> Iterator[Finding]:
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


def _level(slices: Any) -> Iterator[Finding]:
    limit: Limit = slices.limits["balance.level"]
    for one in slices.weighings:
        pitch = one.pitch
        off = one.weighing.method == "scales" and abs(pitch.value) > high_of(limit)
        if not off or abs(pitch.value) >= RAISED_DEG:
            continue
        figure = Figure(pitch.address, pitch.value, "deg", pitch.u, "measured", label="pitch")
        way = "nose up" if pitch.value > 0.0 else "nose down"
        yield Finding(
            "balance.level",
            "note",
            (one.id,),
            f"In the weigh-in {one.id} it stood {show(abs(pitch.value), 'deg', pitch.u)} {way} "
            f"({limit_words(limit)} is wished for): the height of the CG, which was not measured, then "
            "counts.",
            figure,
            limit,
        )


def _ballast(slices: Any, ballast: Ballast | None) -> Iterator[Finding]:
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
