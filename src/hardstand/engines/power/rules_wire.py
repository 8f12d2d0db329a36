"""Leads that are too thin for warmth or volts, and those that are much thicker than they need be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from hardstand.changes import Change
from hardstand.engines.harness.model import Supply
from hardstand.engines.power.model import Choices, WireChoice
from hardstand.figures import Figure
from hardstand.findings import Finding, Limit, Outcome, Remedy, Severity, judge
from hardstand.standards.units import show

MUCH = 2.0  # times the metal that is needed
SAVED_G = 10.0  # less in all is not worth a word; both common practice


def wire_findings(
    choices: Choices, supply: Supply, limits: Mapping[str, Limit]
) -> Iterator[Finding]:
    """Each lead whose copper gets too warm, each way that loses too much, and one note on spare metal.

    What `harness.wire-load` has told of a lead is not told again.
    """
    row = {one.lead: at for at, one in enumerate(choices.wires)}
    told = _told(supply, limits)
    figures = choices.figures
    for address, value, u in zip(figures.addresses, figures.values.tolist(), figures.u.tolist(),
                                 strict=True):  # fmt: skip
        code, _, subject = address.partition("@")
        limit = limits[code]
        outcome = judge(value, u, limit)
        if outcome == "inside":
            continue
        leads = (subject,) if code == "power.wire-warmth" else choices.feeds[subject]
        wires = [row[one] for one in leads if one in row]
        if code == "power.wire-warmth" and subject in told:
            continue
        yield _finding(choices, wires, subject, figures.figure(address), limit, outcome)
    yield from _thick(choices)


def _told(supply: Supply, limits: Mapping[str, Limit]) -> set[str]:
    limit, figures = limits["harness.wire-load"], supply.figures
    return {address.partition("@")[2] for address, value, u in
            zip(figures.addresses, figures.values.tolist(), figures.u.tolist(), strict=True)
            if address.startswith("harness.wire-load@") and judge(value, u, limit) == "outside"}


def _finding(
    choices: Choices, wires: list[int], subject: str, figure: Figure, limit: Limit, outcome: Outcome
) -> Finding:
    first = choices.wires[wires[0]]
    amount = show(figure.value, figure.unit, figure.u)
    if limit.id == "power.wire-warmth":
        about: tuple[str, ...] = (subject,)
        hot = choices.normal_degc[wires[0]] > (limit.high or np.inf)
        severity: Severity = "no-go" if hot else "caution"
        text = (f"The copper of {subject} comes to {amount} at {first.lasting_a:.1f} A "
                f"({first.lasting_at}): its insulation softens.")  # fmt: skip
    else:
        about, severity = (subject.partition(".")[0], *choices.feeds[subject]), "caution"
        text = (f"{', '.join(choices.feeds[subject])} lose {amount} on the way to {subject} at "
                f"{first.worst_a:.1f} A ({first.worst_at}).")  # fmt: skip
    if outcome == "between":
        return Finding(limit.id, "measure", about, f"{text} {_decide(figure)}", figure, limit)
    thin = [choices.wires[at] for at in wires if choices.area_mm2[at, 0] < choices.area_mm2[at, 1]]
    return Finding(limit.id, severity, about, text, figure, limit, thicker(thin))


def _decide(figure: Figure) -> str:
    """The measurement that would say most."""
    for address, _ in figure.parents:
        if address.endswith("_a"):
            what, field = address.split(".")[-2:]
            state = field.removesuffix("_a").replace("_", " ")
            return f"Measure the {state} current of {what} with a clamp meter to decide."
    return "Measure the current of the lead with a clamp meter to decide."


def thicker(wires: list[WireChoice]) -> Remedy | None:
    """The chosen wire for leads that are thinner; None where none is thick enough, or none is thin."""
    if not wires or any(one.chosen is None for one in wires):
        return None
    changes = tuple(Change(f"lead.{one.lead}.{field}", _there(one), new) for one in wires
                    for field, new in (one.chosen or ("", 0.0),))  # fmt: skip
    said = ", ".join(f"{named(one)} for {one.lead}" for one in wires)
    grown = sum(one.mass_g or 0.0 for one in wires)
    return Remedy(f"wire of {said}", changes, (f"it weighs {grown:.0f} g more",))


def _there(one: WireChoice) -> Any:
    return one.there_mm2 if one.there_awg is None else one.there_awg


def named(one: WireChoice) -> str:
    """The chosen wire in words: `gauge 20`, or `0.5 mm²`; empty where none does."""
    if one.chosen is None:
        return ""
    field, value = one.chosen
    return f"gauge {value:.0f}" if field == "awg" else f"{value:g} mm²"


def _thick(choices: Choices) -> Iterator[Finding]:
    metal = choices.area_mm2
    thick = [one for one, (there, enough) in zip(choices.wires, metal.tolist(), strict=True)
             if there >= MUCH * enough]  # fmt: skip
    saved = -sum(one.mass_g or 0.0 for one in thick)
    if saved <= SAVED_G:
        return
    yield Finding(
        "power.wire-thick", "note", ("lead",),
        f"Thinner wire would do for {', '.join(f'{one.lead} ({named(one)})' for one in thick)}: "
        f"{saved:.0f} g less in all. It is no fault; think of it when a lead is made anew.")  # fmt: skip
