"""Rules on the static margin, on the designer's range against the planform, and on fuel travel."""

from __future__ import annotations

from typing import Any

from hardstand.description.aeroplane import AeroplaneTable
from hardstand.engines.balance.model import Headline, Margins, Stability
from hardstand.engines.balance.static_margin import chance_margin_below, static_margin_pct
from hardstand.figures import Figure, FigureSet
from hardstand.findings import Finding, Limit, Severity
from hardstand.standards.units import show

FARTHEST_FORWARD_PCT = (
    35.0  # static margins beyond this are not flown on purpose: common practice, no source
)


def stability_findings(slices: Any, earlier: Any) -> list[Finding]:
    """Everything that needs the neutral point or the mean chord; nothing without them."""
    head: Headline = earlier["balance.headline"]
    stability: Stability | None = earlier["balance.stability"]
    margins: Margins | None = earlier["balance.margins"]
    if stability is None:
        return []
    found = _fuel_travel(slices, head, stability)
    if margins is not None and stability.point is not None:
        found += _margin(slices, margins)
        found += _range_against_planform(slices, stability)
    return found


def _margin(slices: Any, margins: Margins) -> list[Finding]:
    flown = [state.id for state in slices.states if state.flown and state.id in margins.state_ids]
    if not flown:
        return []
    aft = min(flown, key=lambda state: float(margins.margin_pct[margins.state_ids.index(state)]))
    row = margins.state_ids.index(aft)
    chance = 100.0 * float(margins.chance[row])
    allowed = slices.limits["balance.margin-chance"].high
    limit: Limit = slices.limits["balance.static-margin"]
    figure = margins.figures.figure(f"balance.static-margin@{aft}")
    stands = (
        f"In {aft}, the aftmost state flown, the static margin is {show(figure.value, 'pct', figure.u)} "
        f"of the MAC (limit {limit.low:g} %); the chance that it is less is {_percent(chance)}"
    )
    if chance >= 100.0 - allowed:
        return [
            Finding(
                "balance.static-margin",
                "no-go",
                (aft,),
                f"{stands}: it would hardly be stable in pitch.",
                figure,
                limit,
            )
        ]
    if chance > allowed:
        return [
            Finding(
                "balance.static-margin",
                "measure",
                (aft,),
                f"{stands} (at most {allowed:g} %). Keep to the forward half of the range until two trims at "
                "two speeds, on the first flight, have measured it.",
                figure,
                limit,
            )
        ]
    return _target(slices, aft, figure)


def _percent(chance: float) -> str:
    """A chance in per cent that claims neither certainty."""
    if chance < 0.1:
        return "under 0.1 %"
    return "over 99.9 %" if chance > 99.9 else f"{chance:.1f} %"


def _target(slices: Any, aft: str, figure: Figure) -> list[Finding]:
    wish: Limit = slices.limits["balance.static-margin-target"]
    low, high = wish.low or 0.0, wish.high or 100.0
    if low <= figure.value <= high:
        return []
    way = "less steady" if figure.value < low else "more nose-heavy"
    return [
        Finding(
            "balance.static-margin-target",
            "note",
            (aft,),
            f"The static margin in {aft} is {show(figure.value, 'pct', figure.u)}; for a first flight "
            f"{low:g} to {high:g} % is wished for (a target, judged on the value): {way} than that.",
            figure,
            wish,
        )
    ]


def _range_against_planform(slices: Any, stability: Stability) -> list[Finding]:
    """A designer's range that the planform contradicts: a slipped digit, or another mark."""
    table: AeroplaneTable = slices.aeroplane
    point = stability.point
    if table.cg_range_mm is None or slices.cg_mark is None or point is None:
        return []
    mark = slices.cg_mark[0]
    ends = [mark.value + one for one in table.cg_range_mm]
    margin = static_margin_pct(point, ends)
    limit: Limit = slices.limits["balance.static-margin"]
    low = limit.low or 0.0
    chance = chance_margin_below(point, ends[1], mark.u, low)
    unstable, nose_heavy = float(chance) > 0.5, float(margin[0]) > FARTHEST_FORWARD_PCT
    if not unstable and not nose_heavy:
        return []
    severity: Severity = "no-go" if unstable and float(chance) > 0.975 else "caution"
    end, value = (1, float(margin[1])) if unstable else (0, float(margin[0]))
    figure = Figure(
        f"balance.static-margin@range-{'aft' if end else 'forward'}",
        value,
        "pct",
        point.u_pct,
        "computed",
        (
            ("aeroplane.cg_range_mm", -100.0 / stability.wing.mac_mm),
            ("balance.neutral-point-mac@wing", 1.0),
        ),
        "static margin at the end of the designer's range",
    )
    says = (
        "would be stable no more"
        if unstable
        else "would be far more nose-heavy than anything flown"
    )
    return [
        Finding(
            "balance.range-doubtful",
            severity,
            ("aeroplane",),
            f"At the {'aft' if end else 'forward'} end of the stated CG range, {table.cg_range_mm[end]:g} mm behind "
            f"{slices.cg_mark_name or 'the mark'}, the planform gives a static margin of "
            f"{show(value, 'pct', point.u_pct)} of the MAC: the aeroplane {says}. Look for a slipped "
            f"digit, or another mark in the manual "
            "(the leading edge on the centreline is not the one at the fuselage side).",
            figure,
            limit,
        )
    ]


def _fuel_travel(slices: Any, head: Headline, stability: Stability) -> list[Finding]:
    limit: Limit = slices.limits["balance.fuel-travel"]
    found = []
    for gear in ("up", "down"):
        fuelled = [
            state
            for state in slices.states
            if state.flown and state.gear == gear and state.fuel_pct > 0.0
        ]
        if len(fuelled) < 2:
            continue
        x = {state.id: float(head.cg_mm[head.row(state.id), 0]) for state in fuelled}
        ends = min(x, key=lambda one: x[one]), max(x, key=lambda one: x[one])
        figure = _difference(head, stability, ends, gear)
        if figure.value > (limit.high or 0.0) + figure.expanded:
            found.append(
                Finding(
                    "balance.fuel-travel",
                    "caution",
                    ends,
                    f"Between {ends[0]} and {ends[1]} (gear {gear}) the CG travels "
                    f"{show(figure.value, 'pct', figure.u)} of the MAC (limit {limit.high:g} %): the "
                    f"trim changes as the fuel burns.",
                    figure,
                    limit,
                )
            )
    return found


def _difference(head: Headline, stability: Stability, ends: tuple[str, str], gear: str) -> Figure:
    """Travel of the CG between two states, % MAC; what both share cancels in its uncertainty."""
    import numpy as np

    rows = [head.row(one) for one in ends]
    share = 100.0 / stability.wing.mac_mm
    slope = share * (head.slope[rows[1], 1] - head.slope[rows[0], 1])
    value = share * float(head.cg_mm[rows[1], 0] - head.cg_mm[rows[0], 0])
    address = f"balance.fuel-travel@gear-{gear}"
    return FigureSet(
        (address,),
        np.array([value]),
        ("pct",),
        head.inputs,
        slope[None, :],
        labels=(f"travel of the CG with fuel, gear {gear}",),
    ).figure(address)
