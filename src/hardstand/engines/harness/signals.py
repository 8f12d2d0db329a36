"""Where signals go: from what gives them over leads to what takes them, and on through items."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable

from hardstand.engines.harness.model import HarnessPort, Netlist
from hardstand.engines.harness.netlist import pole_of


def signal_mates(net: Netlist, end: str) -> tuple[HarnessPort, ...]:
    """The ports that take what a port gives, in the order of their net; joints pass it on."""
    found: dict[str, HarnessPort] = {}
    for pin in _signal_pins(net.ports[end]):
        number = net.net_of.get((end, pin))
        for far, name in net.nets[number].pins if number is not None else ():
            port = net.ports[far]
            if far != end and port.signal in ("takes", "both") and name in _signal_pins(port):
                found[far] = port
    return tuple(found.values())


def _signal_pins(port: HarnessPort) -> tuple[str, ...]:
    named = tuple(pin for pin in port.pins if pole_of(pin) == "signal")
    numbered = all(pin.isdigit() for pin in port.pins) and port.kind != "power"
    return named or (port.pins if numbered else ())


def sources(net: Netlist) -> tuple[str, ...]:
    """The items that make commands: receivers."""
    return tuple(box.id for box in net.boxes.values() if box.kind == "receiver")


def signal_ways(net: Netlist) -> dict[str, list[tuple[str, str, str]]]:
    """Item → (port that gives, port that takes, item it belongs to) for every command's way.

    Sensors, switches and data carry no command.
    """
    ways: dict[str, list[tuple[str, str, str]]] = {}
    for port in net.ports.values():
        if port.item and port.signal in ("gives", "both") and port.form in ("pulse", "bus", None):
            ways.setdefault(port.item, []).extend(
                (port.end, far.end, far.item or far.end)
                for far in signal_mates(net, port.end)
                if far.item != port.item and far.form in ("pulse", "bus", None)
            )
    return ways


def leads_between(net: Netlist, start: str, goal: str) -> tuple[str, ...]:
    """The leads on the way from one end to another, through joints, splices and shared plugs."""
    waiting: deque[tuple[str, tuple[str, ...]]] = deque([(start, ())])
    seen = {start}
    while waiting:
        here, path = waiting.popleft()
        if here == goal:
            return path
        for lead in net.at.get(here, ()):
            far = next((one for one in net.leads[lead].ends if one != here), here)
            if far not in seen:
                seen.add(far)
                waiting.append((far, (*path, lead)))
    return ()


def upstream(ways: dict[str, list[tuple[str, str, str]]], items: Iterable[str]) -> set[str]:
    """The items from which a command can come to any of some items, themselves included."""
    back: dict[str, set[str]] = {}
    for item, found in ways.items():
        for _, _, far in found:
            back.setdefault(far, set()).add(item)
    seen, waiting = set(items), deque(items)
    while waiting:
        for one in back.get(waiting.popleft(), ()):
            if one not in seen:
                seen.add(one)
                waiting.append(one)
    return seen
