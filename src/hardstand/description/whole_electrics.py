"""Contradictions between rows of the electrics that are each well formed."""

from __future__ import annotations

from collections.abc import Iterator

from hardstand.description.model import Description

Told = tuple[str, int, str, str, str]  # table, row, field, what is wrong, what to do


def joint_names(description: Description) -> Iterator[Told]:
    """Joints called as an item is: an end there would be either's."""
    items = {item.id for item in description.item}
    for index, joint in enumerate(description.joint):
        if joint.id in items:
            yield ("joint", index, "id", f"there is an item {joint.id}, and leads end at either",
                   "give the joint another id")


def branches(description: Description) -> Iterator[Told]:
    """Branches that do not begin where their lead does, or branch in a circle; cables likewise."""
    leads = {lead.id: lead for lead in description.lead}
    for index, lead in enumerate(description.lead):
        main = leads.get(lead.branch_of or "")
        if main is not None and main.id == lead.id:
            yield "lead", index, "branch_of", "a lead cannot branch from itself", "take the line out"
        elif main is not None and main.branch_of is not None:
            yield ("lead", index, "branch_of", f"{main.id} is a branch of {main.branch_of} itself",
                   f'write branch_of = "{main.branch_of}"')
        elif main is not None and main.from_ != lead.from_:
            yield ("lead", index, "branch_of",
                   f"{main.id} begins at {main.from_}, and this lead at {lead.from_}",
                   f'a branch begins where its lead does: from = "{main.from_}"')
        if lead.cable == lead.id:
            yield "lead", index, "cable", "a lead cannot run in its own cable", "take the line out"


def pin_counts(description: Description) -> Iterator[Told]:
    """Ports whose named pins are more or fewer than their poles, or two of one name."""
    for index, port in enumerate(description.port):
        pins = [pin for pin in port.pins or () if pin != "empty"]
        if len(set(pins)) != len(pins):
            yield "port", index, "pins", "two pins have one name", "give each pin a name of its own"
        if port.pins is not None and port.poles is not None and len(port.pins) != port.poles:
            yield ("port", index, "pins",
                   f"{len(port.pins)} pins are named, and there are {port.poles} poles",
                   "name every pin, those without use `empty`")


def duties(description: Description) -> Iterator[Told]:
    """Two duties of one function in one phase."""
    seen: set[tuple[str, str]] = set()
    for index, duty in enumerate(description.duty):
        if (duty.phase, duty.function) in seen:
            yield ("duty", index, "function",
                   f"phase {duty.phase} already has a duty for {duty.function}", "take one out")
        seen.add((duty.phase, duty.function))
