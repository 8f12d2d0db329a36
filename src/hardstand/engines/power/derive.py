"""From the harness's netlist to a network that can be solved.

Copper is a loop: plus and minus of a lead in one resistance, at 20 degrees C; a plug is that of its
port, or of its class. Packs are new and warm here; age, cold and charge are the cases' matter. What
the description leaves open is taken from `defaults` and told of.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from hardstand.engines.harness.model import ChannelPlan, Netlist, Supply
from hardstand.engines.power.consumers import consumers, load_elements
from hardstand.engines.power.copper import Copper, lead_copper, shared_ends, shared_plugs
from hardstand.engines.power.defaults import PACK_SHARE
from hardstand.engines.power.inside import pack_of, path_name, way_of
from hardstand.engines.power.model import Consumer, PowerNetwork, Strand
from hardstand.engines.power.network.elements import Pack
from hardstand.engines.power.network.network import network as made
from hardstand.figures import Input


def power_network(slices: Any, earlier: Any) -> PowerNetwork | None:
    """Node: the network; None where nothing draws current, or no pack is known."""
    net: Netlist = earlier["harness.circuit"]
    supply: Supply = earlier["harness.supply"]
    plan: ChannelPlan = earlier["harness.channels"]
    drawing = consumers(net, supply, plan, slices.channels)
    packs = [one for box in net.boxes.values() if box.kind == "pack"
             and (one := pack_of(box)) is not None]  # fmt: skip
    if not drawing or not packs:
        return None
    copper = _copper(net, supply)
    inside = {path_name(link): way_of(net, link) for link in net.links
              if link.source != link.target}  # fmt: skip
    elements: list[Any] = [
        *packs,
        *(one for each in copper.values() for one in each.elements),
        *shared_plugs(net, shared_ends(net, supply.carrying)),
        *(one for each in inside.values() for one in each),
        *load_elements(net, drawing, slices.loads, supply.volts),
    ]
    elements = [one for one in elements if one.start != one.end]
    own = made(elements)
    return PowerNetwork(
        own, drawing, tuple(one.id for one in packs),
        _groups(supply, {one.id for one in packs}),
        _rails(net, supply), _targets(supply), {name: name.partition(".")[0] for name in inside},
        {name: tuple(one.id for one in each.elements) for name, each in copper.items()},
        _together(net, supply), _strands(supply, copper, drawing), _plugs(net, supply),
        _assumed(net, copper, drawing, supply), _inputs(net, packs),
    )  # fmt: skip


def _copper(net: Netlist, supply: Supply) -> dict[str, Copper]:
    shared = shared_ends(net, supply.carrying)
    along = {lead: (a, b) for feed in supply.feeds
             for lead, a, b in zip(feed.leads, feed.ends, feed.ends[1:], strict=False)}  # fmt: skip
    return {lead.id: lead_copper(net, lead, shared, along.get(lead.id, lead.ends))
            for lead in net.leads.values() if lead.id in supply.carrying
            and not all(_idle(net, end) for end in lead.ends)}  # fmt: skip


def _idle(net: Netlist, end: str) -> bool:
    """Whether an end is a port of an item through which no power goes."""
    return net.ports[end].where == "item" and net.ports[end].domain is None


def _groups(supply: Supply, known: set[str]) -> tuple[tuple[tuple[str, ...], frozenset[str]], ...]:
    """Packs that share a rail belong together, with all the domains that they reach."""
    groups: list[tuple[set[str], set[str]]] = []
    for domain, packs in supply.packs.items():
        mine, fed = set(packs) & known, {domain}
        apart = []
        for one in groups:
            if one[0] & mine:
                mine |= one[0]
                fed |= one[1]
            else:
                apart.append(one)
        groups = [*apart, (mine, fed)] if mine else apart
    return tuple((tuple(sorted(packs)), frozenset(fed)) for packs, fed in groups)


def _rails(net: Netlist, supply: Supply) -> dict[str, float | None]:
    """Domains that a unit gives on, which are fed and feed something, with what holds them."""
    feeding = {feed.source for feed in supply.feeds if feed.leads}
    return {link.target: net.boxes[link.item].set_v for link in net.links
            if link.target in feeding and link.target in supply.packs
            and net.boxes[link.item].kind not in ("switch", "other")}  # fmt: skip


def _targets(supply: Supply) -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for feed in supply.feeds:
        if feed.leads:
            found.setdefault(feed.source, set()).add(feed.target)
    return {source: frozenset(targets) for source, targets in found.items()}


def _together(net: Netlist, supply: Supply) -> dict[str, tuple[str, ...]]:
    """The leads that a joint of several ways parts at once; one way is no more than its leads."""
    found: dict[str, list[str]] = {}
    for end, leads in net.at.items():
        if net.ports[end].where == "joint":
            carrying = [one for one in leads if one in supply.carrying]
            found.setdefault(end.partition(".")[0], []).extend(carrying[:1])
    return {joint: tuple(leads) for joint, leads in found.items() if len(leads) > 1}


def _strands(
    supply: Supply, copper: Mapping[str, Copper], drawing: Iterable[Consumer]
) -> tuple[Strand, ...]:
    servos = {one.domain: one for one in drawing if one.load.get("stall") and one.kind == "servo"}
    steered = {one.domain: one for one in drawing
               if one.kind == "retract" and "steering" in one.functions}  # fmt: skip
    return tuple(
        Strand(feed.leads, one.end, one.item, sum(copper[lead].wire_mohm for lead in feed.leads))
        for feed in supply.feeds
        if feed.leads and (one := (servos | steered).get(feed.target)) is not None
        and all(lead in copper for lead in feed.leads))  # fmt: skip


def _plugs(net: Netlist, supply: Supply) -> dict[str, tuple[str, float]]:
    """Ends whose plug's class says what it carries, where the port itself does not: lead, amperes."""
    from hardstand.standards.contacts import CONTACTS

    found = {}
    for lead in net.leads.values():
        for side, end in enumerate(lead.ends):
            port = net.ports[end]
            own = (lead.row.from_connector, lead.row.to_connector)[side] or lead.row.connector
            contact = CONTACTS.get(own or port.connector)
            if supply.stall_a.get(lead.id) and port.where != "free" and not port.current_a and contact:
                found[f"{lead.id} at {end}"] = (lead.id, contact.current_a)
    return found


def _assumed(
    net: Netlist, copper: Mapping[str, Copper], drawing: Iterable[Consumer], supply: Supply
) -> tuple[tuple[str, str], ...]:
    found = [(lead, word) for lead, one in copper.items() for word in one.assumed
             if supply.stall_a.get(lead, 0.0) > 0.0]  # fmt: skip
    found += [(box.id, "resistance") for box in net.boxes.values() if box.kind == "pack"
              and pack_of(box) is not None and box.part.resistance_mohm is None]  # fmt: skip
    found += [(one.item, "reset") for one in drawing if not one.known]
    return tuple(dict.fromkeys(found))


def _inputs(net: Netlist, packs: Iterable[Pack]) -> dict[str, Input]:
    found = {}
    for one in packs:
        part = net.boxes[one.id].part
        known = part.resistance_mohm is not None
        address = f"part.{part.id}.resistance_mohm"
        found[one.id] = Input(
            address, one.resistance_mohm, "mohm", PACK_SHARE * one.resistance_mohm * (1 if known else 3),
            "declared" if known else "assumed", address if known else "",
            "class default, 10 % of a pack's resistance" if known else "documented default")  # fmt: skip
    return found
