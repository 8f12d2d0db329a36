"""Rules on weigh-ins: done at all, level, in agreement with the parts, and still in force."""

from __future__ import annotations

from typing import Any

from hardstand.engines.balance.model import Headline, WeighedIn, Weighings
from hardstand.engines.balance.suspects import Suspect
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit
from hardstand.standards.units import show


def weighing_findings(slices: Any, earlier: Any) -> list[Finding]:
    """All rules on weigh-ins."""
    weighings: Weighings | None = earlier["balance.weighings"]
    head: Headline = earlier["balance.headline"]
    found = [*(_stale(one) for one in slices.stale), *_ballast(slices, head)]
    if weighings is None:
        return [*found, _not_weighed(head)]
    for one in weighings.weighed:
        found += _agreement(one, slices)
    return [*found, *_level(slices)]


def _not_weighed(head: Headline) -> Finding:
    return Finding(
        "balance.not-weighed",
        "measure",
        ("aeroplane",),
        "The aeroplane has not been weighed as a whole: its CG rests on the parts alone. Weigh it on "
        "its wheels, tanks empty, and enter the readings in measurements.toml.",
        head.figures.figure(head.figures.addresses[0]),
    )


def _stale(one: Any) -> Finding:
    return Finding(
        "balance.stale",
        "caution",
        (one.id,),
        f"The measurement {one.id} of {one.address} was taken when {_value(one.declared_then)} was declared; "
        f"now it is {_value(one.declared_now)}. It is kept but no longer used: measure again.",
    )


def _value(value: object) -> str:
    return "nothing" if value is None else f"{value:g}" if isinstance(value, float) else str(value)


def _agreement(one: WeighedIn, slices: Any) -> list[Finding]:
    """Weighed against built up: no more than the limit, and no more than 3 u of the difference."""
    found = []
    pairs = [("balance.weigh-in-cg", one.residual_mm, one.u_residual_mm, "mm", "CG aft")]
    if one.method == "scales":
        pairs.insert(0, ("balance.weigh-in-mass", one.residual_g, one.u_residual_g, "g", "mass"))
    for code, residual, u, unit, name in pairs:
        limit: Limit = slices.limits[code]
        bound = min(limit.high or 0.0, 3.0 * u)
        if abs(residual) <= bound or one.low_mm is not None or one.high_mm is not None:
            continue
        figure = Figure(
            f"{code}@{one.id}",
            residual,
            unit,
            u,
            "computed",
            label=f"weighed less built up, {name}",
        )
        found.append(
            Finding(
                code,
                "measure",
                (one.id,),
                f"The weigh-in {one.id} and the sum of the parts differ by {show(residual, unit, u)} of "
                f"{name} (limit {show(bound, unit)}): one of the two is wrong. {_suspects(one)}",
                figure,
                limit,
            )
        )
    return found


def _suspects(one: WeighedIn) -> str:
    likely = [
        (suspect, name)
        for suspect, name in zip(one.suspects, one.suspect_names, strict=True)
        if suspect.log_odds > 0.0
    ][:3]
    if not likely:
        return "Weigh again, level, wheels free to roll."
    words = "; ".join(_slip(suspect, name) for suspect, name in likely)
    return f"Likeliest: {words}. Weigh {likely[0][1]} by itself first."


def _slip(suspect: Suspect, name: str) -> str:
    share = f" ({100.0 * suspect.share:.0f} %)"
    if suspect.item < 0:
        return f"{suspect.kind} by {show(suspect.size, suspect.unit)}{share}"
    return f"{name}, {suspect.kind} by {show(suspect.size, suspect.unit)}{share}"


def _level(slices: Any) -> list[Finding]:
    limit: Limit = slices.limits["balance.level"]
    found = []
    for one in slices.weighings:
        if one.weighing.method == "scales" and abs(one.pitch.value) > (limit.high or 0.0):
            figure = Figure(
                one.pitch.address, one.pitch.value, "deg", one.pitch.u, "measured", label="pitch"
            )
            found.append(
                Finding(
                    "balance.level",
                    "note",
                    (one.id,),
                    f"It was weighed {show(one.pitch.value, 'deg', one.pitch.u)} off level (wished for "
                    f"within {limit.high:g}°); the height of the CG, which is not measured, then counts.",
                    figure,
                    limit,
                )
            )
    return found


def _ballast(slices: Any, head: Headline) -> list[Finding]:
    limit: Limit = slices.limits["balance.ballast-share"]
    pieces = [point for point in slices.masses if point.group == "ballast"]
    total = sum(point.mass.value for point in pieces)
    share = 100.0 * total / float(head.mass_g.min())
    if share <= (limit.high or 100.0):
        return []
    figure = Figure(
        "balance.ballast-share@aeroplane",
        share,
        "pct",
        0.0,
        "computed",
        tuple((point.mass.address, 1.0) for point in pieces),
        "ballast, share of the mass",
    )
    return [
        Finding(
            "balance.ballast-share",
            "caution",
            tuple(point.id for point in pieces),
            f"{show(total, 'g')} of ballast is {share:.1f} % of the aeroplane (limit {limit.high:g} %): look for "
            "another place for what is heavy first.",
            figure,
            limit,
        )
    ]
