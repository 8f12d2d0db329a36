"""Rules on how the aeroplane stands on its wheels, in the worst gear-down state of each."""

from __future__ import annotations

from typing import Any

from hardstand.engines.balance.model import OnWheels
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit, judge
from hardstand.standards.units import show

WHY = {
    "nose-share": "too little and it steers badly and tips back, too much and it will not rotate",
    "overturn": "it tips over sideways in a fast turn on the ground",
    "tip-back-spare": "it sits on its tail before the nozzle touches",
}
NAMES = {
    "nose-share": "the nose wheel carries",
    "overturn": "the overturn angle is",
    "tip-back-spare": "the tip-back angle exceeds the tail-strike angle by",
}


def _spare(figure: Figure, limit: Limit) -> float:
    ends = [figure.value - limit.low] if limit.low is not None else []
    ends += [limit.high - figure.value] if limit.high is not None else []
    return min(ends, default=float("inf"))


def stance_findings(slices: Any, earlier: Any) -> list[Finding]:
    """Nose share, overturn and tip-back against their limits; nothing without three legs."""
    stance: OnWheels | None = earlier["balance.wheels"]
    if stance is None:
        return []
    found = []
    for name, stands in NAMES.items():
        limit = slices.limits[f"balance.{name}"]
        figures = [
            stance.figures.figure(address)
            for address in stance.figures.addresses
            if address.startswith(f"balance.{name}@")
        ]
        if not figures:
            continue
        worst = min(figures, key=lambda one: _spare(one, limit))
        outcome = judge(worst.value, worst.u, limit)
        if outcome == "inside":
            continue
        state = worst.address.partition("@")[2]
        bounds = " to ".join(f"{one:g}" for one in (limit.low, limit.high) if one is not None)
        text = f"In {state} {stands} {show(worst.value, worst.unit, worst.u)} (limit {bounds}): {WHY[name]}."
        if outcome == "between":
            text += " Weighing on three scales and plumbing the wheels would decide."
        found.append(
            Finding(
                f"balance.{name}",
                "caution" if outcome == "outside" else "measure",
                (state,),
                text,
                worst,
                limit,
            )
        )
    return found
