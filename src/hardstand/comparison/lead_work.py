"""What is to be done on the leads to get from one aeroplane to another: made, plugged in elsewhere."""

from __future__ import annotations

from dataclasses import dataclass

from hardstand.asbuilt.value import AsBuilt
from hardstand.description.items import Lead
from hardstand.description.parts import Port


@dataclass(frozen=True, slots=True)
class LeadWork:
    """Ids of leads to make, to plug in elsewhere as they are, and left over.

    `why` says of a lead to make what the one there is cannot do; empty for one that is new.
    """

    to_make: tuple[str, ...]
    elsewhere: tuple[str, ...]
    left_over: tuple[str, ...]
    why: tuple[str, ...]


def lead_work(before: AsBuilt, after: AsBuilt, straight_mm: dict[str, float]) -> LeadWork:
    """The work on leads between two aeroplanes.

    A lead is made where there was none of its id, where its length or wire is another, where a plug
    of another form is described at the port it now goes to, or where its ports are now farther apart
    in a straight line (`straight_mm`, by id) than it is long.
    """
    old = {lead.id: lead for lead in before.leads}
    made, elsewhere, why = [], [], []
    for lead in after.leads:
        was = old.get(lead.id)
        if was is None:
            reason: str | None = ""
        else:
            reason = _cannot(was, lead, before, after, straight_mm.get(lead.id))
            if reason is None and {was.from_, was.to} != {lead.from_, lead.to}:
                elsewhere.append(lead.id)
        if reason is not None:
            made.append(lead.id)
            why.append(reason)
    gone = tuple(sorted(old.keys() - {lead.id for lead in after.leads}))
    return LeadWork(tuple(made), tuple(elsewhere), gone, tuple(why))


def _cannot(was: Lead, lead: Lead, before: AsBuilt, after: AsBuilt, straight_mm: float | None) -> str | None:
    """Why the lead that was there cannot serve; None where it can."""
    if was.length_mm != lead.length_mm:
        return "another length"
    if was.awg != lead.awg:
        return "another wire"
    for end, now in ((was.from_, lead.from_), (was.to, lead.to)):
        if end != now and _other_plug(_port(before, end), _port(after, now)):
            return f"another plug at {now}"
    if lead.length_mm is not None and (straight_mm or 0.0) > lead.length_mm:
        return "too short"
    return None


def _port(asbuilt: AsBuilt, end: str) -> Port | None:
    item, _, name = end.partition(".")
    return next((port.port for one in asbuilt.items if one.id == item
                 for port in one.ports if port.name == name), None)


def _other_plug(one: Port | None, other: Port | None) -> bool:
    """Whether two ports are described with plugs that differ; what one of them leaves open does not."""
    if one is None or other is None:
        return False
    pairs = ((one.connector, other.connector), (one.poles, other.poles))
    return any(a and b and a != b for a, b in pairs) or (
        "none" not in (one.gender, other.gender) and one.gender != other.gender)
