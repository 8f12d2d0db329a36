"""Every single failure at every moment that matters, as one batch of cases."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.cases import Cases
from hardstand.engines.power.network.failures import (
    Failure,
    single_failures,
    with_failures,
)
from hardstand.engines.power.network.model import Solution
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.solve import solve


@dataclass(frozen=True, eq=False)
class Sweep:
    """F failures at M moments; the first failure is none.

    `solution` has F x M cases, all moments of one failure together.
    """

    failures: tuple[Failure | None, ...]
    moments: int
    solution: Solution

    @property
    def node_v(self) -> NDArray[np.float64]:
        """Voltages, (F, M, nodes)."""
        return np.asarray(self._table(self.solution.node_v))

    @property
    def fed(self) -> NDArray[np.bool_]:
        """Whether a pack reaches the node, (F, M, nodes)."""
        return np.asarray(self._table(self.solution.fed))

    @property
    def current_a(self) -> NDArray[np.float64]:
        """Currents, (F, M, elements)."""
        return np.asarray(self._table(self.solution.current_a))

    @property
    def opened(self) -> NDArray[np.bool_]:
        """What is open, failed or tripped, (F, M, elements)."""
        return np.asarray(self._table(self.solution.opened))

    def lowest_v(self, node: str) -> NDArray[np.float64]:
        """Lowest voltage of a node over the moments, (F)."""
        return np.asarray(self.solution.volts(node).reshape(-1, self.moments).min(axis=1))

    def highest_v(self, node: str) -> NDArray[np.float64]:
        """Highest voltage of a node over the moments, (F)."""
        return np.asarray(self.solution.volts(node).reshape(-1, self.moments).max(axis=1))

    def _table(self, values: NDArray[Any]) -> NDArray[Any]:
        return values.reshape(len(self.failures), self.moments, -1)


def sweep(network: Network, moments: Cases, failures: Sequence[Failure] | None = None) -> Sweep:
    """Solve all moments without failure and with each failure, at rest.

    Parameters: `network`; `moments`, M cases; `failures`, else all single ones.

    Returns `Sweep`.

    >>> from hardstand.engines.power.network.cases import cases
    >>> from hardstand.engines.power.network.elements import Load, Pack, Resistor
    >>> from hardstand.engines.power.network.network import network as make
    >>> flat = {"cells": 2, "capacity_mah": 3600, "curve_charge": (0, 1), "curve_v": (3.8, 3.8)}
    >>> two = make([
    ...     Pack(id="E01", start="0", end="a", resistance_mohm=20, **flat),
    ...     Pack(id="E02", start="0", end="b", resistance_mohm=20, **flat),
    ...     Resistor(id="H01", start="a", end="rail", resistance_mohm=10),
    ...     Resistor(id="H02", start="b", end="rail", resistance_mohm=10),
    ...     Load(id="servos", start="rail", end="0", draw_a=10),
    ... ])
    >>> found = sweep(two, cases(two), [Failure("H01", "open"), Failure("servos", "open")])
    >>> found.lowest_v("rail").round(3).tolist()
    [7.45, 7.3, 7.6]
    """
    wanted = single_failures(network) if failures is None else tuple(failures)
    every = (None, *wanted)
    return Sweep(every, moments.count, solve(network, with_failures(network, moments, every)))
