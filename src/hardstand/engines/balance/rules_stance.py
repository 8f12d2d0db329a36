"""Rules on how the aeroplane stands on its wheels, in the worst gear-down state of each."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.bounds import limit_words
from hardstand.engines.balance.model import OnWheels
from hardstand.engines.balance.worst import worst_of
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit
from hardstand.standards.units import show

NAMES = ("nose-share", "overturn", "tip-back-spare")
DECIDES = "Too near to the limit to tell: weigh it on three scales and plumb the wheels."


def stance_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """Nose share, overturn and tip-back against their limits; nothing without three legs."""
    stance: OnWheels | None = earlier["balance.wheels"]
    if stance is None:
        return
    for name in NAMES:
        limit: Limit = slices.limits[f"balance.{name}"]
        found = worst_of(
            [
                stance.figures.figure(address)
                for address in stance.figures.addresses
                if address.startswith(f"balance.{name}@")
            ],
            limit,
        )
        if found is None or found[1] == "inside":
            continue
        figure, outcome = found
        state = figure.address.partition("@")[2]
        outside = outcome == "outside"
        text = f"In state {state} {stands(name, figure)} ({limit_words(limit)})"
        text += f": {why(name, figure, limit)}." if outside else f". {DECIDES}"
        yield Finding(
            f"balance.{name}", "caution" if outside else "measure", (state,), text, figure, limit
        )


def stands(name: str, figure: Figure) -> str:
    """What the figure is, as the middle of a sentence."""
    value = show(figure.value, figure.unit, figure.u)
    if name == "nose-share":
        return f"the nose wheel carries {value} of the weight"
    if name == "overturn":
        return f"the overturn angle is {value}"
    if figure.value < 0.0:
        return f"the nozzle touches {show(-figure.value, 'deg', figure.u)} after the aeroplane tips back"
    return f"the nozzle touches {value} before the aeroplane would tip back"


def why(name: str, figure: Figure, limit: Limit) -> str:
    """Why a figure outside its limit matters."""
    if name == "nose-share":
        light = limit.low is not None and figure.value < limit.low
        return (
            "too little to steer, and it tips back easily"
            if light
            else "too much, it may not rotate"
        )
    if name == "overturn":
        return "in a fast turn on the ground it tips over sideways"
    return "rotated or pushed back, it may sit down on its tail"
