"""Plugs and ports that do not belong together: class, gender, poles, kind, two leads in one port."""

from __future__ import annotations

from collections.abc import Iterator

from hardstand.engines.harness.model import HarnessLead, HarnessPort, Netlist
from hardstand.engines.harness.saying import both_ends, change, free_like, moved, said, side_of
from hardstand.findings import Finding, Remedy

OPPOSITE = {"pin": "socket", "socket": "pin", "none": "none"}
_TUBES = ("fuel", "air")


def plug_findings(net: Netlist) -> Iterator[Finding]:
    """Everything that the plugs alone say."""
    yield from _shared(net)
    for lead_id, first, second in both_ends(net):
        lead = net.leads[lead_id]
        if not _kinds_fit(first, second):
            yield _unlike_kinds(net, lead, first, second)
            continue
        pairs = [(first, *plug(lead, 0)), (second, *plug(lead, 1))]
        if lead.row.direct:
            pairs = [(second, first.connector, OPPOSITE[OPPOSITE[first.gender]], first.poles)]
        for side, (port, connector, gender, poles) in zip(("from", "to"), pairs, strict=False):
            yield from _mating(lead, port, side, connector, gender, poles)


def plug(lead: HarnessLead, side: int) -> tuple[str, str | None, int | None]:
    """What a lead says of its plug at one end (0: from, 1: to): class, gender, poles."""
    row, stated = lead.row, (lead.row.from_pins, lead.row.to_pins)[side]
    own = (row.from_connector, row.to_connector)[side] or row.connector
    poles = (row.from_poles, row.to_poles)[side] or (len(stated) if stated else None)
    return own, (row.from_gender, row.to_gender)[side], poles


def same_class(one: str, other: str) -> bool:
    """Whether two classes of connector fit: the same words, or one says more of the other.

    >>> same_class("2-pole", "2-pole, 30 A class"), same_class("3-pin 2.54 mm", "3-pin 2.54 mm, locked")
    (True, True)
    >>> same_class("2-pole, 60 A class", "2-pole, 30 A class")
    False
    """
    short, long = sorted((one.lower().strip(), other.lower().strip()), key=len)
    return long.startswith(short) and (len(long) == len(short) or not long[len(short)].isalnum())


def _shared(net: Netlist) -> Iterator[Finding]:
    taken: set[str] = set()
    for end, leads in net.at.items():
        port = net.ports[end]
        own = [one for one in leads if net.leads[one].row.branch_of not in leads]
        most = 2 if port.where == "joint" else 1
        if port.where not in ("item", "joint") or len(own) <= most:
            continue
        for lead_id in own[most:]:
            free = free_like(net, port, taken)
            remedy = None
            if free is not None:
                taken.add(free.end)
                remedy = Remedy(f"plug {lead_id} into {free.end}, which is empty",
                                moved(net, lead_id, side_of(net, lead_id, end), free.end))  # fmt: skip
            yield said("shared-port", "no-go", (lead_id, own[0]),
                       f"{lead_id} and {own[0]} both end at {end}, and two plugs do not go into one "
                       "port; if they are tails of one plug, say so with branch_of.", remedy)


def _kinds_fit(first: HarnessPort, second: HarnessPort) -> bool:
    kinds = {first.kind, second.kind}
    if "item" not in (first.where, second.where) or not all(
        one.where == "item" for one in (first, second)
    ):
        return not kinds & set(_TUBES) or len(kinds) == 1
    if kinds & set(_TUBES) or "motor" in kinds:
        return len(kinds) == 1
    return kinds != {"power", "signal"}


def _unlike_kinds(
    net: Netlist, lead: HarnessLead, first: HarnessPort, second: HarnessPort
) -> Finding:
    remedy = None
    for here, there, side in ((second, first, "to"), (first, second, "from")):
        free = next((one for one in net.ports.values() if one.item == here.item
                     and one.end not in net.at and _kinds_fit(one, there)
                     and one.form == there.form and one.power != there.power), None)  # fmt: skip
        if free is not None:
            remedy = Remedy(f"plug it into {free.end}", moved(net, lead.id, side, free.end))
            break
    return said("port-kind", "no-go", (lead.id,),
                f"{lead.id} joins {first.end}, a port for {_word(first)}, to {second.end}, one for "
                f"{_word(second)}.", remedy)


def _word(port: HarnessPort) -> str:
    return {"power": "power alone", "signal": "a signal alone", "both": "power and signal",
            "motor": "a motor", "fuel": "fuel", "air": "air"}[port.kind]  # fmt: skip


def _mating(
    lead: HarnessLead, port: HarnessPort, side: str, connector: str, gender: str | None,
    poles: int | None,
) -> Iterator[Finding]:  # fmt: skip
    direct = lead.row.direct
    between = (change(lead.row, "direct", False),)

    def remedy(text: str, field: str, new: object) -> Remedy:
        if direct:
            return Remedy("put a lead between them that fits both", between)
        own = f"{side}_{field}" if field != "connector" or _own(lead, side) else "connector"
        return Remedy(text, (change(lead.row, own, new),))

    if port.where == "item" and connector and port.connector and (
        not same_class(connector, port.connector)
    ):
        yield said("connector", "no-go", (lead.id,),
                   f"{lead.id} has a plug of the class {connector}, and {port.end} one of "
                   f"{port.connector}: they do not go together.",
                   remedy(f"fit {port.connector} at that end", "connector", port.connector))
    elif poles is not None and port.poles is not None and poles != port.poles:
        yield said("poles", "no-go", (lead.id,),
                   f"{lead.id} has {poles} poles at {port.end}, which has {port.poles}.",
                   remedy(f"fit a plug of {port.poles} poles", *_poles(lead, side)))
    elif gender in ("pin", "socket") and gender == port.gender:
        yield said("gender", "no-go", (lead.id,),
                   f"{lead.id} has {gender}s at {port.end}, which has {gender}s too.",
                   remedy(f"fit the half with {OPPOSITE[gender]}s", "gender", OPPOSITE[gender]))


def _own(lead: HarnessLead, side: str) -> bool:
    return bool(lead.row.from_connector if side == "from" else lead.row.to_connector)


def _poles(lead: HarnessLead, side: str) -> tuple[str, None]:
    stated = lead.row.from_pins if side == "from" else lead.row.to_pins
    return ("pins" if stated is not None else "poles"), None
