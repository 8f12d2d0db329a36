"""What the network's solver hands on: voltages, currents and heat in every case."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.elements import FAULT_MOHM, Pack
from hardstand.engines.power.network.network import Network

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
ARRAYS = (
    "node_v",
    "current_a",
    "out_a",
    "fault_a",
    "emf_v",
    "fed",
    "opened",
    "residual_a",
    "settled",
)


@dataclass(frozen=True, eq=False)
class Solution:
    """K cases of a network at rest.

    `node_v` (K, nodes); `current_a` (K, elements) from start to end, for a converter at its start,
    and `out_a` at its end; `fault_a` (K, elements) through the short circuit of a shorted element;
    `emf_v` (K, packs); `fed` (K, nodes), whether a pack reaches the node: elsewhere it is dead and
    its voltage 0; `opened` (K, elements), what failed open and what a fuse or limiter has opened;
    `residual_a` (K), the greatest sum of currents at a live node; `settled` (K), whether it is a
    solution at all: where not, `node_v` is only where the search ended.
    """

    network: Network
    node_v: Floats
    current_a: Floats
    out_a: Floats
    fault_a: Floats
    emf_v: Floats
    fed: Bools
    opened: Bools
    residual_a: Floats
    settled: Bools

    def volts(self, node: str) -> Floats:
        """Voltage of a node by its name in every case, (K)."""
        return np.asarray(self.node_with_ground[:, self.network.node_at[node]])

    def amperes(self, element: str) -> Floats:
        """Current through an element by its id in every case, (K)."""
        return np.asarray(self.current_a[:, self.network.element_at[element]])

    def rows(self, rows: slice) -> Solution:
        """Some of the cases."""
        some: dict[str, Any] = {name: getattr(self, name)[rows] for name in ARRAYS}
        return replace(self, **some)

    def with_rows(self, rows: NDArray[np.intp], new: Solution) -> Solution:
        """The same with some cases taken from another solution, in its order."""
        changed: dict[str, Any] = {}
        for name in ARRAYS:
            values = np.array(getattr(self, name))
            values[rows] = getattr(new, name)
            changed[name] = values
        return replace(self, **changed)

    def dead(self, case: int = 0) -> tuple[str, ...]:
        """The nodes that no pack feeds in one case, by name."""
        return tuple(
            name
            for name, alive in zip(self.network.nodes, self.fed[case], strict=True)
            if not alive
        )

    @cached_property
    def node_with_ground(self) -> Floats:
        """The voltages with ground's 0 V as the last column, (K, nodes + 1)."""
        return np.concatenate([self.node_v, np.zeros((len(self.node_v), 1))], axis=1)

    @cached_property
    def taken_w(self) -> Floats:
        """Power (W) that each element takes from the network, (K, elements): below 0 for a source."""
        v = self.node_with_ground
        return v[:, self.network.start] * self.current_a - v[:, self.network.end] * self.out_a

    @cached_property
    def fault_w(self) -> Floats:
        """Power (W) turned to heat in the short circuit of each shorted element, (K, elements)."""
        return np.asarray(self.fault_a**2 * 1e-3 * FAULT_MOHM)

    @cached_property
    def heat_w(self) -> Floats:
        """Power (W) lost or used in each element, (K, elements); of a pack that in its resistance."""
        heat = self.taken_w.copy()
        packs = self.network.where(Pack)
        heat[:, packs] += self.emf_v * self.current_a[:, packs]
        return heat


def joined(pieces: Sequence[Solution]) -> Solution:
    """Solutions of one network, the cases of one after those of another."""
    if len(pieces) == 1:
        return pieces[0]
    every: dict[str, Any] = {
        name: np.concatenate([getattr(one, name) for one in pieces]) for name in ARRAYS
    }
    return replace(pieces[0], **every)
