"""The network: named nodes and elements, counted off once so that cases are only arrays."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.elements import (
    GROUND,
    AnyElement,
    Fuse,
    Load,
    Pack,
    Regulator,
    Resistor,
    Switch,
)
from hardstand.engines.power.network.elimination import Plan, plan
from hardstand.engines.power.network.refused import NetworkError, faults

Kind = TypeVar("Kind")


@dataclass(frozen=True, eq=False)
class Network:
    """Elements between named nodes; ground is not among `nodes`, it has the last index.

    Build it with `Builder` or `network`. Tables of results have a column a node in the order of
    `nodes`, or a column an element in the order of `elements`, or of `packs`, `loads`, `switches`
    or `regulators`.
    """

    elements: tuple[AnyElement, ...]
    nodes: tuple[str, ...]

    @cached_property
    def node_at(self) -> dict[str, int]:
        """Column of each node by its name; ground's is one past the last."""
        return {name: at for at, name in enumerate((*self.nodes, GROUND))}

    @cached_property
    def element_at(self) -> dict[str, int]:
        """Column of each element by its id."""
        return {element.id: at for at, element in enumerate(self.elements)}

    @cached_property
    def start(self) -> NDArray[np.intp]:
        """Index of each element's start node."""
        return np.array([self.node_at[element.start] for element in self.elements], np.intp)

    @cached_property
    def end(self) -> NDArray[np.intp]:
        """Index of each element's end node."""
        return np.array([self.node_at[element.end] for element in self.elements], np.intp)

    @cached_property
    def plan(self) -> Plan:
        """The order in which nodes are eliminated, those of constant elements first."""
        pairs = list(zip(self.start.tolist(), self.end.tolist(), strict=True))
        lively = {
            node
            for pair, element in zip(pairs, self.elements, strict=True)
            for node in pair
            if not isinstance(element, Resistor | Switch | Fuse | Pack)
        }
        return plan(len(self.nodes), pairs, lively)

    def where(self, kind: type[Kind]) -> NDArray[np.intp]:
        """Columns of the elements of one kind."""
        return np.array(
            [at for at, element in enumerate(self.elements) if isinstance(element, kind)], np.intp
        )

    def of(self, kind: type[Kind]) -> tuple[Kind, ...]:
        """The elements of one kind."""
        return tuple(element for element in self.elements if isinstance(element, kind))

    @cached_property
    def packs(self) -> tuple[Pack, ...]:
        """The packs, in order."""
        return self.of(Pack)

    @cached_property
    def loads(self) -> tuple[Load, ...]:
        """The loads, in order."""
        return self.of(Load)

    @cached_property
    def switches(self) -> tuple[Switch, ...]:
        """The switches, in order."""
        return self.of(Switch)

    @cached_property
    def regulators(self) -> tuple[Regulator, ...]:
        """The regulators, in order."""
        return self.of(Regulator)


@dataclass
class Builder:
    """Collects elements and makes a network of them.

    >>> from hardstand.engines.power.network.elements import Load, Resistor
    >>> builder = Builder()
    >>> builder.add(Resistor(id="H01", start="pack", end="rail", resistance_mohm=5.8))
    >>> builder.add(Load(id="rx", start="rail", end="0", draw_a=0.2))
    >>> builder.build().nodes
    ('pack', 'rail')
    """

    elements: list[AnyElement] = field(default_factory=list)

    def add(self, *elements: AnyElement) -> None:
        """Add elements; their nodes come into being by being named."""
        self.elements += elements

    def build(self) -> Network:
        """Make the network; raises `NetworkError` with every fault there is."""
        return network(self.elements)


def network(elements: Iterable[AnyElement]) -> Network:
    """Make a network of elements; raises `NetworkError` with every fault there is.

    >>> network([])
    Traceback (most recent call last):
    hardstand.engines.power.network.refused.NetworkError: no element touches the ground node '0'
    """
    elements = tuple(elements)
    if wrong := faults(elements):
        raise NetworkError(wrong)
    ends = dict.fromkeys(name for one in elements for name in (one.start, one.end))
    return Network(elements, tuple(name for name in ends if name != GROUND))
