"""Which nodes a pack reaches, and which reach ground; and a first guess of every voltage.

What no pack reaches is dead: 0 V. What has no way to ground is floating: its voltage means nothing.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.cases import Cases
from hardstand.engines.power.network.elements import (
    AnyElement,
    Fuse,
    IdealDiode,
    Junction,
    Load,
    Pack,
    Regulator,
    Resistor,
    Switch,
)
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.prepared import Prepared

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Way = Callable[[Floats], Floats]  # from the level at one end to what it could lift the other to
UNREACHED = -np.inf
START_DROP_V = 0.01  # across what carries, in the first guess


def _ways(element: AnyElement, carries: Floats) -> tuple[Way | None, Way | None]:
    """How a level passes from start to end and back; None where it does not."""

    def passes(level: Floats) -> Floats:
        return np.where(carries, level, UNREACHED)

    if isinstance(element, IdealDiode | Junction):
        return lambda level: passes(level - START_DROP_V), None
    if isinstance(element, Regulator):
        return lambda level: passes(np.minimum(level - element.dropout_v, element.set_v)), None
    if isinstance(element, Load | Pack):
        return None, None
    return passes, passes


def _gate(passing: Bools) -> Way:
    """A way that is open in some cases and shut in the others."""
    return lambda level: np.where(passing, level, UNREACHED)


def _carrying(network: Network, given: Cases) -> Floats:
    """Which elements carry by themselves, (elements, cases or 1)."""
    carries = ~(given.opened | given.shorted)
    for kind in (Resistor, Switch, Fuse):
        carries[:, network.where(kind)] = ~given.opened[:, network.where(kind)]
    if network.switches:
        closed = given.closed ^ given.stuck[:, network.where(Switch)]
        if len(closed) > len(carries):
            carries = np.repeat(carries, len(closed), axis=0)
        carries[:, network.where(Switch)] &= closed
    return np.asarray(carries.T)


def _spread(level: Floats, ways: list[tuple[int, int, Way | None, Way | None]]) -> Floats:
    """Raise every node to what its neighbours lift it to, until none rises."""
    for _ in range(len(level)):
        before = level.copy()
        for start, end, there, back in ways:
            if there:
                level[end] = np.maximum(level[end], there(level[start]))
            if back:
                level[start] = np.maximum(level[start], back(level[end]))
        if np.array_equal(before, level):
            break
        ways.reverse()
    return level


def fed(network: Network, given: Cases, ready: Prepared) -> tuple[Floats, NDArray[np.bool_]]:
    """First guess of the voltages (nodes, cases or 1), and whether a pack feeds the node.

    A node counts as fed where a pack's plus reaches it through what carries and where it has a way
    to ground. The guess is 0 V elsewhere.
    """
    ground, carries = len(network.nodes), _carrying(network, given)
    wide = max(carries.shape[1], given.shorted.shape[0])
    highest = ready.emf_v.max(axis=1, keepdims=True) if wide == 1 else ready.emf_v
    level = np.full((ground + 1, wide), UNREACHED)
    rooted = np.full((ground + 1, wide), UNREACHED)
    rooted[ground] = 0.0
    ways: list[tuple[int, int, Way | None, Way | None]] = []
    joins: list[tuple[int, int, Way | None, Way | None]] = []
    whole = ~given.opened.T
    for at, element in enumerate(network.elements):
        start, end = int(network.start[at]), int(network.end[at])
        there, back = _ways(element, carries[at])
        if there or back:
            ways.append((start, end, there, back))
        faulty = np.asarray(given.shorted.T[at])
        if faulty.any():
            a, b = int(ready.fault_start[at]), int(ready.fault_end[at])
            short = _gate(faulty)
            joins.append((a, b, short, short))
            if ground not in (a, b):
                ways.append((a, b, short, short))
        joined = _gate(whole[at])
        joins.append((start, end, joined, joined))
    for at, emf in zip(ready.packs, highest, strict=True):
        works = whole[at] & (emf > 0.0)
        plus = network.end[at]
        level[plus] = np.maximum(level[plus], np.where(works, emf, UNREACHED))
    level[ground] = UNREACHED
    level = _spread(level, ways)[:ground]
    rooted = _spread(rooted, joins)[:ground]
    alive = (level > UNREACHED) & (rooted > UNREACHED)
    return np.where(alive, np.maximum(level, 0.0), 0.0), alive
