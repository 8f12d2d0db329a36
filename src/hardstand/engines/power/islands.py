"""The network cut into islands: stretches that share nothing but ground, each solved by itself.

Packs that feed one rail are of one island, with all that they feed. What no pack reaches is one island
more, without a pack: it is dead whatever fails.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.model import PowerNetwork
from hardstand.engines.power.network.network import Network

Index = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Island:
    """A part of the network as a network of its own, and where its parts stand in the whole.

    `nodes`, `elements` and `consumers` are columns of the whole. `content` is all that decides its
    solution, to be compared.
    """

    power: PowerNetwork
    nodes: Index
    elements: Index
    consumers: Index
    content: tuple[Any, ...]


def islands_of(_: Any, earlier: Any) -> tuple[Island, ...]:
    """Node: the islands of the network; none without one."""
    power: PowerNetwork | None = earlier["power.network"]
    return () if power is None else islands(power)


def islands(power: PowerNetwork) -> tuple[Island, ...]:
    """The islands of a network, in the order of their first nodes; each node is in exactly one."""
    number = _numbers(power)
    at = power.network.node_at
    ends = np.minimum(power.network.start, power.network.end)  # ground is the last of all
    of_element = number[ends]
    of_consumer = np.array([number[at[one.domain]] for one in power.consumers], np.intp)
    return tuple(
        _island(power, *(np.flatnonzero(where == one) for where in (number, of_element, of_consumer)))
        for one in dict.fromkeys(number.tolist()))  # fmt: skip


def _numbers(power: PowerNetwork) -> Index:
    """The number of each node's island, (nodes); one number for all that no pack is joined to."""
    count, at = len(power.network.nodes), power.network.node_at
    above = list(range(count))

    def top(node: int) -> int:
        while above[node] != node:
            above[node] = above[above[node]]
            node = above[node]
        return node

    for a, b in zip(power.network.start.tolist(), power.network.end.tolist(), strict=True):
        if a < count and b < count:
            above[top(b)] = top(a)
    for packs, fed in power.groups:
        own = [at[one] for one in (*(f"{pack}.cells" for pack in packs), *fed) if one in at]
        for node in own[1:]:
            above[top(node)] = top(own[0])
    numbers = np.array([top(node) for node in range(count)], np.intp)
    fed_by = {int(numbers[min(at[one.start], at[one.end])]) for one in power.network.packs}
    return np.where(np.isin(numbers, list(fed_by)), numbers, count)


def _island(power: PowerNetwork, nodes: Index, elements: Index, consumers: Index) -> Island:
    names = {power.network.nodes[at] for at in nodes.tolist()}
    own = {power.network.elements[at].id for at in elements.tolist()}
    packs = tuple(one for one in power.packs if one in own)
    drawing = tuple(power.consumers[at] for at in consumers.tolist())
    network = Network(tuple(power.network.elements[at] for at in elements.tolist()),
                      tuple(power.network.nodes[at] for at in nodes.tolist()))  # fmt: skip
    part = replace(
        power, network=network, consumers=drawing, packs=packs,
        groups=tuple(one for one in power.groups if set(one[0]) & set(packs)),
        rails={one: volts for one, volts in power.rails.items() if one in names},
        targets={one: fed for one, fed in power.targets.items() if one in names},
        paths=_of(power.paths, own), of_lead=_leads(power.of_lead, own),
        together={joint: some for joint, leads in power.together.items()
                  if (some := tuple(one for one in leads if own & set(power.of_lead.get(one, ()))))},
        strands=(), plugs={}, assumed=(), inputs=_of(power.inputs, own),
    )  # fmt: skip
    content = (network.elements, drawing, packs, part.groups, part.of_lead, part.together, part.inputs)
    return Island(part, nodes, elements, consumers, content)


def _of(found: Mapping[str, Any], own: Iterable[str]) -> dict[str, Any]:
    return {name: one for name, one in found.items() if name in own}


def _leads(of_lead: Mapping[str, tuple[str, ...]], own: set[str]) -> dict[str, tuple[str, ...]]:
    return {lead: ids for lead, ids in of_lead.items() if own & set(ids)}
