"""Who feeds whom: power followed from the packs outward, over leads and through items."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator

from hardstand.engines.harness.model import Feed, Netlist
from hardstand.engines.harness.netlist import pole_of


def plus_pins(net: Netlist, end: str) -> tuple[str, ...]:
    """The pins of an end through which its power goes: plus, of a motor both."""
    port = net.ports[end]
    if port.kind == "motor":
        return port.pins
    named = tuple(pin for pin in port.pins if pole_of(pin) == "plus")
    return named or (port.pins if all(pin.isdigit() for pin in port.pins) else ())


def power_leads(net: Netlist) -> frozenset[str]:
    """The leads of which a wire joins plus to plus, or one pin of a motor to another."""
    found = set()
    for wire in net.conductors:
        a_pin, b_pin = wire.a[1], wire.b[1]
        if wire.lead and a_pin in plus_pins(net, wire.a[0]) and b_pin in plus_pins(net, wire.b[0]):
            found.add(wire.lead)
    return frozenset(found)


def power_ways(net: Netlist) -> tuple[Feed, ...]:
    """Every way that power may go: inside items (ties both ways), and over leads to what takes it."""
    carrying = power_leads(net)
    found = [Feed(link.source, link.target, (), ()) for link in net.links]
    found += [Feed(link.target, link.source, (), ()) for link in net.links if link.how == "tie"]
    for domain in net.domains:
        found += _over_leads(net, domain, carrying)
    return tuple(found)


def is_pack(net: Netlist, domain: str) -> bool:
    """Whether a domain is the cells of a pack."""
    box = net.boxes.get(net.ports[net.domains[domain][0]].item)
    return box is not None and box.kind == "pack"


def feeds(net: Netlist, ways: tuple[Feed, ...]) -> tuple[Feed, ...]:
    """The ways that power goes, packs first: over leads to each domain once, inside by every way."""
    out: dict[str, list[Feed]] = {}
    for way in ways:
        out.setdefault(way.source, []).append(way)
    found: list[Feed] = []
    fed = {domain for domain in net.domains if is_pack(net, domain)}
    queue = deque(sorted(fed))
    while queue:
        for way in out.get(queue.popleft(), ()):
            if way.leads and way.target in fed:
                continue
            found.append(way)
            if way.target not in fed:
                fed.add(way.target)
                queue.append(way.target)
    return tuple(found)


def _over_leads(net: Netlist, domain: str, carrying: frozenset[str]) -> Iterator[Feed]:
    """What a domain feeds over leads: from each port that gives, as far as joints pass it on."""
    for start in net.domains[domain]:
        if net.ports[start].power not in ("gives", "both"):
            continue
        waiting: deque[tuple[str, tuple[str, ...], tuple[str, ...]]] = deque([(start, (), (start,))])
        seen = {start}
        while waiting:
            here, leads, ends = waiting.popleft()
            for lead in net.at.get(here, ()):
                far = next((one for one in net.leads[lead].ends if one != here), here)
                if lead not in carrying or far in seen:
                    continue
                seen.add(far)
                path = ((*leads, lead), (*ends, far))
                port = net.ports[far]
                if port.domain is not None and port.domain != domain:
                    if port.power in ("takes", "both"):
                        yield Feed(domain, port.domain, *path)
                elif port.domain is None:
                    waiting.append((far, *path))


def packs_of(net: Netlist, found: tuple[Feed, ...]) -> dict[str, tuple[str, ...]]:
    """The packs (items) that reach each domain that is fed, in the order found."""
    reach: dict[str, dict[str, None]] = {}
    for name, ends in net.domains.items():
        item = net.ports[ends[0]].item
        if item and net.boxes[item].kind == "pack":
            reach[name] = {item: None}
    changed = True
    while changed:
        changed = False
        for feed in found:
            own = reach.setdefault(feed.target, {})
            more = reach.get(feed.source, {}).keys() - own.keys()
            if more:
                own |= dict.fromkeys(sorted(more))
                changed = True
    return {name: tuple(packs) for name, packs in reach.items() if packs}
