"""Pins that meet the wrong ones: poles reversed, order wrong, live pins bare, no common minus."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hardstand.engines.harness.model import Conductor, HarnessLead, Netlist, Pin
from hardstand.engines.harness.netlist import pole_of
from hardstand.engines.harness.saying import both_ends, change, said, taken_out
from hardstand.findings import Finding, Remedy

_OPPOSITE = {"pin": "socket", "socket": "pin", "none": "none"}
_POLES = ("plus", "minus", "signal")


def pin_findings(net: Netlist, told: Iterable[str]) -> Iterator[Finding]:
    """What the wires say, but for the leads that a worse rule has told of."""
    set_aside = set(told)
    for lead in net.leads.values():
        if lead.id not in set_aside:
            yield from _order(net, lead)
            yield from _bare(net, lead)
    yield from _grounds(net)


def _order(net: Netlist, lead: HarnessLead) -> Iterator[Finding]:
    wrong = [wire for wire in _wires(net, lead) if _unlike(wire)]
    if not wrong:
        return
    met = [(pole_of(wire.a[1]), pole_of(wire.b[1])) for wire in wrong]
    reversed_ = all(set(one) == {"plus", "minus"} for one in met)
    joined = " and ".join(f"{wire.a[1]} of {wire.a[0]} to {wire.b[1]} of {wire.b[0]}"
                          for wire in wrong[:3])  # fmt: skip
    changes = tuple(change(lead.row, field, None) for field in ("from_pins", "to_pins")
                    if getattr(lead.row, field) is not None)  # fmt: skip
    if lead.row.direct:
        changes = (change(lead.row, "direct", False),)
    remedy = Remedy("put every wire in the place where both ports have its name", changes)
    slug = "polarity" if reversed_ else "pin-order"
    why = ("poles reversed destroy what is plugged in, and a pack may burn" if reversed_ else
           "power on a signal pin destroys what is plugged in, or nothing answers")  # fmt: skip
    yield said(slug, "no-go", (lead.id,), f"{lead.id} joins {joined}: {why}.", remedy)


def _wires(net: Netlist, lead: HarnessLead) -> list[Conductor]:
    return [net.conductors[number] for number in lead.conductors]


def _unlike(wire: Conductor) -> bool:
    a, b = pole_of(wire.a[1]), pole_of(wire.b[1])
    if a in _POLES and b in _POLES:
        return a != b
    return a.isdigit() and b.isdigit() and a != b


def _bare(net: Netlist, lead: HarnessLead) -> Iterator[Finding]:
    """A lead from a pack whose far plug has pins: live and bare whenever it is pulled there."""
    ports = [net.ports[end] for end in lead.ends]
    for side in (0, 1):
        pack, far = ports[side], ports[1 - side]
        box = net.boxes.get(pack.item)
        if box is None or box.kind != "pack" or far.kind != "power" or pack.power != "gives":
            continue
        stated = (lead.row.to_gender, lead.row.from_gender)[side]
        if (stated or _OPPOSITE[far.gender]) == "pin" and not lead.row.direct:
            yield said(
                "live-pins", "caution", (lead.id,),
                f"Pulled out of {far.end}, {lead.id} shows bare pins with the pack's voltage on them.",
                Remedy("fit the half with sockets on the side of the pack, and pins at the port"),
            )  # fmt: skip


def _grounds(net: Netlist) -> Iterator[Finding]:
    beside = _minus_ways(net)
    for lead_id, first, second in both_ends(net):
        lead = net.leads[lead_id]
        poles = {pole_of(wire.name) for wire in _wires(net, lead)}
        if lead.row.shield == "both ends":
            yield said("second-ground", "caution", (lead_id,),
                       f"The shield of {lead_id} is joined to minus at both ends: it carries current "
                       "and hum, where it should only screen.",
                       Remedy("join the shield at one end", (change(lead.row, "shield", "one end"),)))
        if not (first.item and second.item) or ("minus" in poles and poles != {"minus"}):
            continue  # it brings its own minus along with what needs it
        apart = not _joined(beside, first.item, second.item, lead_id)
        if "signal" in poles and apart:
            fields = [one for one in ("from_pins", "to_pins") if getattr(lead.row, one) is not None]
            yield said("no-ground", "no-go", (lead_id,),
                       f"{lead_id} takes a signal from {first.end} to {second.end}, and no minus "
                       "joins the two: the signal has no way back.",
                       Remedy("let its minus wire in at both ends",
                              tuple(change(lead.row, one, None) for one in fields)))
        elif poles == {"minus"} and not apart:
            yield said("second-ground", "caution", (lead_id,),
                       f"{lead_id} joins the minus of {first.end} and {second.end}, which is joined "
                       "already: current divides between the two ways, and thin wires carry it.",
                       Remedy("take it out", taken_out(net, lead_id)))


Ways = dict[str, list[tuple[str, str]]]  # from an item or joint: to which, by which lead


def _minus_ways(net: Netlist) -> Ways:
    """The ways of minus between items and joints, both ways."""
    beside: Ways = {}
    for wire in net.conductors:
        if pole_of(wire.a[1]) == pole_of(wire.b[1]) == "minus":
            one, other = _spot(net, wire.a), _spot(net, wire.b)
            beside.setdefault(one, []).append((other, wire.lead))
            beside.setdefault(other, []).append((one, wire.lead))
    return beside


def _joined(beside: Ways, first: str, second: str, without: str) -> bool:
    """Whether the minus of two items is joined by any way but one lead."""
    seen, waiting = {first}, [first]
    while waiting:
        for far, lead in beside.get(waiting.pop(), ()):
            if lead == without or far in seen:
                continue
            if far == second:
                return True
            seen.add(far)
            waiting.append(far)
    return False


def _spot(net: Netlist, pin: Pin) -> str:
    return net.ports[pin[0]].item or pin[0]
