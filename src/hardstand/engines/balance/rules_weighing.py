"""Rules on weigh-ins and measurements: done at all, usable, level, still in force."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.engines.balance.bounds import high_of, limit_words
from hardstand.engines.balance.deciding import known_to
from hardstand.engines.balance.model import Headline, Trade, Weighings
from hardstand.engines.balance.next_weighing import judged_figure
from hardstand.engines.balance.rules_agreement import agreement
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit
from hardstand.standards.units import show

RAISED_DEG = 3.0  # a nose raised this far was raised on purpose, to find the height of the CG


def weighing_findings(slices: Any, earlier: Any) -> Iterator[Finding]:
    """All rules on weigh-ins and measurements."""
    weighings: Weighings | None = earlier["balance.weighings"]
    yield from (_stale(one) for one in slices.stale)
    if weighings is None:
        yield _not_weighed(earlier["balance.headline"], earlier["balance.trade"])
        return
    for name, why in weighings.unusable:
        text = f"The weigh-in {name} is not used: {why}. Put it right or take it out."
        yield Finding("balance.weigh-in-unusable", "measure", (name,), text)
    for one in weighings.weighed:
        yield from agreement(one, weighings, slices)
    yield from _level(slices)


def _not_weighed(head: Headline, trade: Trade | None) -> Finding:
    state = trade.state_id if trade is not None and trade.state_id else head.state_ids[0]
    figure = head.figures.figure(judged_figure(head, head.row(state)))
    text = (
        "The aeroplane has not been weighed as a whole: its CG rests on the parts alone and is known to "
        f"{known_to(figure.u)}, if nothing was forgotten. Weigh it on three scales, level, "
        "main tanks empty, and enter the readings with `hardstand weigh`"
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
