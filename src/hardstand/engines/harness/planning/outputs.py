"""The outputs that things may be plugged into, those alike taken together as places."""

from __future__ import annotations

import math
from collections.abc import Container
from dataclasses import dataclass

from hardstand.engines.harness.model import HarnessPort, Netlist
from hardstand.engines.harness.planning.plugged import is_output
from hardstand.engines.harness.planning.problem import Place


@dataclass(frozen=True, slots=True)
class Outputs:
    """Places with one port of each that stands for all, and by end which place it is and its number."""

    places: tuple[Place, ...]
    ports: tuple[HarnessPort, ...]
    spots: dict[str, tuple[int, int]]


def outputs(net: Netlist, moved: Container[str]) -> Outputs:
    """The outputs that are empty or hold nothing but leads of `moved`."""
    alike: dict[tuple[object, ...], list[HarnessPort]] = {}
    for port in net.ports.values():
        if is_output(net, port) and all(lead in moved for lead in net.at.get(port.end, ())):
            alike.setdefault((port.row, port.domain, port.at_mm, port.current_a, port.low_v,
                              port.high_v, *shape(port)), []).append(port)  # fmt: skip
    places = tuple(Place(tuple(one.end for one in ports), ports[0].item, ports[0].domain or "")
                   for ports in alike.values())  # fmt: skip
    spots = {end: (c, n) for c, place in enumerate(places) for n, end in enumerate(place.ends)}
    return Outputs(places, tuple(ports[0] for ports in alike.values()), spots)


def shape(port: HarnessPort) -> tuple[object, ...]:
    """What has to be the same for a plug to fit and to work in another port."""
    gives = port.power in ("gives", "both")
    return (port.kind, gives, port.signal, port.form, port.pins, port.connector, port.gender,
            port.poles)  # fmt: skip


def stabilised(ways: dict[str, list[tuple[str, str, str]]], kinds: dict[str, str]) -> set[str]:
    """The items that a gyro can command."""
    found: set[str] = set()
    waiting: list[str] = [item for item in ways if kinds.get(item) == "gyro"]
    while waiting:
        for _, _, far in ways.get(waiting.pop(), ()):
            if far not in found:
                found.add(far)
                waiting.append(far)
    return found


def straight_mm(one: tuple[float, float, float] | None, other: tuple[float, float, float] | None) -> int:
    """The straight way in whole mm; 0 where either place is not known.

    >>> straight_mm((0.0, 0.0, 0.0), (30.0, 40.0, 0.0)), straight_mm(None, (1.0, 1.0, 1.0))
    (50, 0)
    """
    if one is None or other is None:
        return 0
    return round(math.dist(one, other))
