"""Rules on the static margin, on the designer's range against the planform, and on fuel travel."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.description.aeroplane import AeroplaneTable
from hardstand.engines.balance.bounds import high_of, limit_words, low_of
from hardstand.engines.balance.model import Margins, RangeMargins, Travel
from hardstand.engines.balance.worst import flown_states
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit, judge
from hardstand.standards.units import show

# A static margin beyond this is not flown on purpose: common practice, no source.
FARTHEST_FORWARD_PCT = 35.0
SURE = 0.975


def stability_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """Everything that needs the neutral point or the mean chord; nothing without them."""
    travel: Travel | None = earlier["balance.travel"]
    margins: Margins | None = earlier["balance.margins"]
    ends: RangeMargins | None = earlier["balance.range"]
    if travel is not None:
        yield from _fuel_travel(slices, travel)
    if margins is not None:
        yield from _margin(slices, margins)
    if ends is not None:
        yield from _range_against_planform(slices, ends)


def _margin(slices: Any, margins: Margins) -> Iterator[Finding]:
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


def _range_against_planform(slices: Any, ends: RangeMargins) -> Iterator[Finding]:
    """A designer's range that the planform contradicts: a slipped digit, or another mark."""
    table: AeroplaneTable = slices.aeroplane
    unstable, nose_heavy = ends.aft_chance > 0.5, ends.forward_pct > FARTHEST_FORWARD_PCT
    if table.cg_range_mm is None or not (unstable or nose_heavy):
        return
    end = "aft" if unstable else "forward"
    figure = ends.figures.figure(f"balance.range-margin@{end}")
    says = (
        "would hardly be stable"
        if unstable
        else f"would be more nose-heavy than anything flown ({FARTHEST_FORWARD_PCT:g} % or more)"
    )
    mark = slices.cg_mark_name or "the mark"
    yield Finding(
        "balance.range-doubtful",
        "no-go" if ends.aft_chance > SURE else "caution",
        ("aeroplane",),
        f"With the CG at the {end} end of its stated range, {table.cg_range_mm[1 if unstable else 0]:g} mm "
        f"behind the mark ({mark}), the planform gives a static margin of "
        f"{show(figure.value, 'pct', figure.u)} of the mean chord: the aeroplane {says}. Look for a slipped "
        "digit, or for another mark in the manual: the leading edge on the centreline is not the one "
        "at the fuselage side.",
        figure,
        slices.limits["balance.static-margin"],
    )


def _fuel_travel(slices: Any, travel: Travel) -> Iterator[Finding]:
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
