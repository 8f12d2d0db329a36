"""Figures against their limits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from hardstand.engines.harness.model import Netlist
from hardstand.engines.power.islands import Island
from hardstand.engines.power.model import Choices, Endurance, Moments, PowerNetwork
from hardstand.engines.power.ways import larger_pack, stronger_pack, thicker_wire
from hardstand.figures import Figure, FigureSet
from hardstand.findings import Finding, Limit, Outcome, Remedy, Severity, judge
from hardstand.standards.units import show

_WORDS = {
    "rail": "{subject} has {value} on one worn, cold pack at 30 % at the worst moment ({moment}): "
            "less slows the servos and restarts what listens.",
    "reset-headroom": "{subject} has {value} left over its reset at the worst moment ({moment}).",
    "low-headroom": "{subject} has {value} left over the least that it is rated for at the worst "
                    "moment ({moment}).",
    "lead-drop": "{subject} loses {value} in the wire of its lead at stall: that much is lacking as "
                 "torque.",
    "contact-load": "The plug of {subject} carries {value} of what its class stands for long.",
    "regulator-heat": "The regulator of {subject} turns {value} to heat in the busiest minute on one "
                      "full pack.",
    "capacity-difference": "{subject} feed one rail and differ by {value} in capacity: the smaller is "
                           "empty first, unseen.",
    "charge-used": "A flight on {subject} alone takes {value} of its charge: it could not finish one "
                   "with a reserve.",
}  # fmt: skip
_SEVERITY: dict[str, Severity] = {
    "rail": "no-go", "reset-headroom": "no-go", "low-headroom": "caution", "lead-drop": "caution",
    "contact-load": "no-go", "regulator-heat": "caution", "capacity-difference": "caution",
    "charge-used": "no-go",
}  # fmt: skip


def judged_findings(
    power: PowerNetwork, parted: Sequence[Island], moments: Moments, endurance: Endurance | None,
    net: Netlist, chosen: Choices, slices: Any,
) -> Iterator[Finding]:  # fmt: skip
    """Every figure that has a limit and is not inside it."""
    sets = [moments.figures] + ([endurance.figures] if endurance is not None else [])
    for figures in sets:
        for address, value, u in zip(figures.addresses, figures.values, figures.u, strict=True):
            code, _, subject = address.partition("@")
            limit = slices.limits.get(code)
            if limit is None:
                continue
            outcome = judge(float(value), float(u), limit)
            if outcome != "inside":
                remedy = None
                figure = figures.figure(address)
                if outcome == "outside":
                    remedy = _remedy(power, parted, moments, net, chosen, slices, subject, figure, limit)
                yield _finding(power, moments, figures, subject, figure, limit, outcome, remedy)


def _finding(
    power: PowerNetwork, moments: Moments, figures: FigureSet, subject: str, figure: Figure,
    limit: Limit, outcome: Outcome, remedy: Remedy | None,
) -> Finding:  # fmt: skip
    slug = limit.id.partition(".")[2]
    text = _WORDS[slug].format(
        subject=subject.replace("+", " and "), value=show(figure.value, figure.unit, figure.u),
        moment=_moment(power, moments, subject))  # fmt: skip
    if outcome == "between":
        text += f" {_decide(figures, figure)}"
        return Finding(limit.id, "measure", about(power, subject), text, figure, limit)
    return Finding(limit.id, _SEVERITY[slug], about(power, subject), text, figure, limit, remedy)


def about(power: PowerNetwork, subject: str) -> tuple[str, ...]:
    """The ids that a figure is about: leads and item of a servo, packs, the unit of a rail."""
    strand = next((one for one in power.strands if one.end == subject), None)
    if strand is not None:
        return (strand.item, *strand.leads)
    if " at " in subject:
        lead, _, end = subject.partition(" at ")
        return (lead, end.partition(".")[0])
    return tuple(one.partition(".")[0] for one in subject.split("+"))


def _moment(power: PowerNetwork, moments: Moments, subject: str) -> str:
    domain = next((one.domain for one in power.consumers if one.end == subject), subject)
    packs = next((packs for packs, fed in power.groups if domain in fed), ())
    return moments.peak_at.get(packs[0], "") if packs else ""


def _decide(figures: FigureSet, figure: Figure) -> str:
    """The measurement that would say most: what contributes most and can be measured."""
    known = {one.address: one for one in figures.inputs}
    for address, _ in figure.parents:
        if address.endswith("resistance_mohm") or "age_factor" in address or "cold" in address:
            return "Measure the resistance of the packs with the charger, cold, to decide."
        if known[address].unit == "a":
            what, field = address.split(".")[-2:]
            state = field.removesuffix("_a").replace("_", " ")
            return f"Measure the {state} current of {what} with a clamp meter to decide."
    return "Measure it to decide."


def _remedy(
    power: PowerNetwork, parted: Sequence[Island], moments: Moments, net: Netlist, chosen: Choices,
    slices: Any, subject: str, figure: Figure, limit: Limit,
) -> Remedy | None:  # fmt: skip
    on_hand: Sequence[Any] = slices.on_hand
    slug = limit.id.partition(".")[2]
    if slug == "lead-drop":
        return thicker_wire(power, chosen, subject, figure)
    if slug == "charge-used":
        return larger_pack(power, net, on_hand, slices.on_hand_parts, subject, figure, limit)
    if slug == "rail":
        return stronger_pack(parted, moments, net, on_hand, slices.on_hand_parts, subject, figure, limit)
    return None
