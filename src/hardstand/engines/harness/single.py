"""Single failures: which item, lead or joint alone takes all surfaces of an axis with it."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping

from hardstand.engines.harness.feeding import is_pack, power_ways
from hardstand.engines.harness.model import Feed, Netlist
from hardstand.engines.harness.signals import leads_between, sources

Hop = tuple[str, str, tuple[str, ...]]  # from an item, to an item, by what lies between
Ways = dict[str, list[tuple[str, str, str]]]


def takes(
    net: Netlist, ways: Ways, surfaces: Mapping[str, tuple[str, ...]]
) -> dict[str, tuple[str, ...]]:
    """What takes whole axes: axes by the id of the item, lead or joint that fails.

    `surfaces` are the items that move each axis. What is dead before anything fails is left out. Tried
    are only what one surface of the axis hangs on, since nothing else can take that one.
    """
    power = [(_item(net, one.source), _item(net, one.target), _between(one), one)
             for one in power_ways(net)]  # fmt: skip
    hops = _hops(net, ways)
    found: dict[str, tuple[str, ...]] = {}
    for axis, items in surfaces.items():
        if not set(items) <= _alive(net, power, hops, ""):
            continue
        behind = _behind(items[0], power, hops) - set(items)
        for one in sorted(behind):
            if not set(items) & _alive(net, power, hops, one):
                found[one] = (*found.get(one, ()), axis)
    return found


Power = list[tuple[str, str, tuple[str, ...], Feed]]


def _item(net: Netlist, domain: str) -> str:
    port = net.ports[net.domains[domain][0]]
    return port.item or port.end


def _between(feed: Feed) -> tuple[str, ...]:
    joints = tuple(end.partition(".")[0] for end in feed.ends[1:-1])
    return (*feed.leads, *joints)


def _hops(net: Netlist, ways: Ways) -> list[Hop]:
    return [
        (item, far, leads_between(net, start, goal))
        for item, found in ways.items()
        for start, goal, far in found
    ]


def _alive(net: Netlist, power: Power, hops: Iterable[Hop], lost: str) -> set[str]:
    """The items that have power and a command while one thing is lost."""
    out: dict[str, list[str]] = {}
    for source, target, between, feed in power:
        if lost not in (source, target, *between):
            out.setdefault(feed.source, []).append(feed.target)
    start = [one for one in net.domains if is_pack(net, one) and _item(net, one) != lost]
    powered = {_item(net, domain) for domain in _reached(start, out)}
    onward: dict[str, list[str]] = {}
    for item, far, between in hops:
        if lost not in (item, far, *between) and item in powered and far in powered:
            onward.setdefault(item, []).append(far)
    talking = [one for one in sources(net) if one in powered and one != lost]
    return _reached(talking, onward) & powered


def _reached(start: Iterable[str], out: Mapping[str, list[str]]) -> set[str]:
    seen, waiting = set(start), deque(start)
    while waiting:
        for far in out.get(waiting.popleft(), ()):
            if far not in seen:
                seen.add(far)
                waiting.append(far)
    return seen


def _behind(item: str, power: Power, hops: Iterable[Hop]) -> set[str]:
    """All that a surface hangs on: items, leads and joints from which power or command comes to it."""
    edges = [(source, target, between) for source, target, between, _ in power] + list(hops)
    back: dict[str, list[tuple[str, tuple[str, ...]]]] = {}
    for source, target, between in edges:
        back.setdefault(target, []).append((source, between))
    seen, waiting, found = {item}, deque([item]), set[str]()
    while waiting:
        for source, between in back.get(waiting.popleft(), ()):
            found |= {source, *between}
            if source not in seen:
                seen.add(source)
                waiting.append(source)
    return found - {item}
