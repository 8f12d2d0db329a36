"""Rules on the CG of the judged state, and on the CG sideways in every state."""

from __future__ import annotations

from typing import Any

from hardstand.engines.balance.judged import Judged, judged_state
from hardstand.engines.balance.model import Headline, Trade, WayOut
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit, Remedy, Severity, judge
from hardstand.standards.units import show


def _state_name(slices: Any, state_id: str) -> str:
    return next(
        (state.name or state.id for state in slices.states if state.id == state_id), state_id
    )


def remedy_of(way: WayOut | None) -> Remedy | None:
    """A way out as a remedy with its effects in words."""
    if way is None:
        return None
    effects = (
        [f"mass {'+' if way.added_g > 0 else '−'}{abs(way.added_g):.0f} g"]
        if abs(way.added_g) >= 0.5
        else []
    )
    if any("part" in getattr(change, "address", "") for change in way.changes):
        effects.append("the other pack's box, leads and charge are to be checked again")
    return Remedy(way.text[0].upper() + way.text[1:] + ".", way.changes, tuple(effects))


def _range_limit(ends: tuple[float, float], mark: float, target: bool) -> Limit:
    low, high = ends[0] - mark, ends[1] - mark
    if target:
        return Limit(
            "balance.cg-target",
            "mm",
            low,
            high,
            "the builder's target",
            target=True,
            by_builder=True,
        )
    return Limit(
        "balance.cg-range",
        "mm",
        low,
        high,
        "the designer's range, aeroplane.cg_range_mm",
        by_builder=True,
    )


def cg_findings(slices: Any, earlier: Any) -> list[Finding]:
    """The judged CG against the designer's range (with U) and the target (on its value)."""
    head: Headline = earlier["balance.headline"]
    trade: Trade | None = earlier["balance.trade"]
    judged = judged_state(slices, head)
    if judged is None:
        return []
    address = f"balance.cg@{judged.state_id}"
    figure = head.figures.figure(address)
    ways = trade.ways if trade is not None else ()
    found = []
    if judged.range_mm is not None:
        limit = _range_limit(judged.range_mm, judged.mark_mm, target=False)
        assumed = head.figures.rests_on_assumed_only(address)
        found += _against_range(slices, judged, figure, limit, assumed, ways)
    if judged.target_mm is not None and not found:
        limit = _range_limit(judged.target_mm, judged.mark_mm, target=True)
        if judge(figure.value, figure.u, limit) == "outside":
            found.append(
                Finding(
                    "balance.cg-target",
                    "caution",
                    (judged.state_id,),
                    f"In {_state_name(slices, judged.state_id)} the CG lies "
                    f"{show(figure.value, 'mm', figure.u)} behind the mark; the target for now is "
                    f"{limit.low:g} to {limit.high:g} mm (judged on the value).",
                    figure,
                    limit,
                    remedy_of(_first(ways, lambda way: way.reaches_range and way.reaches_target)),
                )
            )
    return found


def _first(ways: tuple[WayOut, ...], test: Any) -> WayOut | None:
    return next((way for way in ways if test(way)), None)


def _against_range(
    slices: Any,
    judged: Judged,
    figure: Figure,
    limit: Limit,
    assumed: bool,
    ways: tuple[WayOut, ...],
) -> list[Finding]:
    outcome = judge(figure.value, figure.u, limit)
    if outcome == "inside" and not assumed:
        return []
    severity: Severity = "no-go" if outcome == "outside" else "measure"
    name = _state_name(slices, judged.state_id)
    stands = (
        f"In {name} the CG lies {show(figure.value, 'mm', figure.u)} behind the mark; "
        f"the range is {limit.low:g} to {limit.high:g} mm"
    )
    if outcome == "outside":
        ahead = figure.value < (limit.low or 0.0)
        why = (
            "nose-heavy, it may not rotate or flare"
            if ahead
            else "tail-heavy, it may not be stable in pitch"
        )
        text = f"{stands}: {why}."
    elif outcome == "between":
        text = f"{stands}: its uncertainty reaches across the edge, so only weighing can decide."
    else:
        text = (
            f"{stands}, but every mass behind it is only typical of its class: weigh the aeroplane."
        )
    remedy = remedy_of(_first(ways, lambda way: way.reaches_range)) if outcome != "inside" else None
    return [Finding("balance.cg-range", severity, (judged.state_id,), text, figure, limit, remedy)]


def lateral_findings(slices: Any, earlier: Any) -> list[Finding]:
    """The CG sideways, in the worst of the flown states."""
    head: Headline = earlier["balance.headline"]
    limit = slices.limits["balance.lateral"]
    flown = [state.id for state in slices.states if state.flown]
    if not flown:
        return []
    worst = max(flown, key=lambda state: abs(float(head.cg_mm[head.row(state), 1])))
    figure = head.figures.figure(f"balance.cg-y@{worst}")
    outcome = judge(figure.value, figure.u, limit)
    if outcome == "inside":
        return []
    side = "starboard" if figure.value > 0 else "port"
    text = (
        f"The CG lies {show(abs(figure.value), 'mm', figure.u)} to {side} in {_state_name(slices, worst)} "
        f"(limit {limit.high:g} mm): it rolls that way, more the slower it flies."
    )
    if outcome == "between":
        text += " Weighing on three scales would decide."
    return [
        Finding(
            "balance.lateral",
            "caution" if outcome == "outside" else "measure",
            (worst,),
            text,
            figure,
            limit,
        )
    ]
