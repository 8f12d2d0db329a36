"""What every domain and lead carries: the loads downstream, summed over the feeds.

Each way into a rail must carry all of it, as it does when the other packs are gone. Currents are kept
as sums of inputs, so that their uncertainty can be carried.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from hardstand.engines.harness.model import Feed, Netlist
from hardstand.figures import Input

Sum = dict[str, float]  # how often an input counts, by its address
WHOLE = ("turbine-controller",)  # their own current holds that of what they drive


@dataclass
class Demand:
    """Sums by domain, lead and port for one kind of current, and the inputs they are of."""

    of: str
    inputs: dict[str, Input] = field(default_factory=dict)
    domains: dict[str, Sum] = field(default_factory=dict)
    leads: dict[str, Sum] = field(default_factory=dict)
    ports: dict[str, Sum] = field(default_factory=dict)


def demand(net: Netlist, found: tuple[Feed, ...], of: str) -> Demand:
    """The demand of one kind of current, "moving" (lasting) or "stall" (short)."""
    result = Demand(of)
    children: dict[str, list[Feed]] = {}
    for feed in found:
        children.setdefault(feed.source, []).append(feed)

    def sum_of(domain: str, above: tuple[str, ...]) -> Sum:
        if domain in result.domains:
            return result.domains[domain]
        total = _own(net, domain, result)
        box = net.boxes.get(net.ports[net.domains[domain][0]].item)
        whole = bool(total) and box is not None and box.kind in WHOLE
        for feed in children.get(domain, ()):
            if feed.target in above:
                continue  # a loop of rails: told of by its own rule
            below = sum_of(feed.target, (*above, domain))
            for lead in feed.leads:
                _add(result.leads.setdefault(lead, {}), below)
            for end in feed.ends:
                _add(result.ports.setdefault(end, {}), below)
            if not whole:
                _add(total, below)
        result.domains[domain] = total
        return total

    for domain in net.domains:
        sum_of(domain, ())
    return result


def _own(net: Netlist, domain: str, result: Demand) -> Sum:
    total: Sum = {}
    for end in net.domains[domain]:
        one = net.ports[end].load.get(result.of)
        if one is not None:
            result.inputs[one.address] = one
            _add(total, {one.address: 1.0})
    return total


def _add(total: Sum, more: Mapping[str, float]) -> None:
    for address, count in more.items():
        total[address] = total.get(address, 0.0) + count


def amperes(total: Mapping[str, float], inputs: Mapping[str, Input]) -> float:
    """The value of a sum, A.

    >>> amperes({"a": 2.0}, {"a": Input("a", 1.5, "a")})
    3.0
    """
    return sum(count * inputs[address].value for address, count in total.items())
