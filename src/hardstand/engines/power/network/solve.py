"""Cases of a network solved at rest, and again where a fuse or a limiter opens."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.cases import Cases, cases
from hardstand.engines.power.network.elements import Fuse, Limiter
from hardstand.engines.power.network.feeding import fed
from hardstand.engines.power.network.model import Solution
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.newton import newton
from hardstand.engines.power.network.prepared import Prepared, prepare

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
SHUNT = 1e-12  # siemens at every live node, so that an unloaded one has a voltage
DEAD_SHUNT = 1e-3  # at a node that no pack feeds, so that it has 0 V


def _currents(network: Network, ready: Prepared, v: Floats) -> tuple[Floats, Floats, Floats]:
    """Currents into, out of, and by short circuit past every element, (elements, cases)."""
    start, end = v[network.start], v[network.end]
    into = np.zeros_like(start)
    into[ready.plain] = ready.plain_siemens * (start - end)[ready.plain]
    into[ready.packs] = ready.pack_siemens * (ready.emf_v - (end - start)[ready.packs])
    out = into
    for part in ready.parts:
        flow = part.law.flow(start[part.at], end[part.at])
        into[part.at] = flow.into
        if flow.out is not flow.into:
            out = into.copy() if out is into else out
        if out is not into:
            out[part.at] = flow.out
    fault = np.zeros(1)
    if ready.fault_siemens.any():
        fault = ready.fault_siemens * (v[ready.fault_start] - v[ready.fault_end])
    return into, out, np.broadcast_to(fault, into.shape)


def _left_over(
    network: Network, ready: Prepared, flows: tuple[Floats, Floats, Floats], alive: Bools
) -> Floats:
    """The greatest sum of currents at a live node in every case, A."""
    into, out, fault = flows
    ground = len(network.nodes)
    total = np.zeros((ground + 1, into.shape[1]))
    for at, (a, b) in enumerate(zip(network.start, network.end, strict=True)):
        total[a] -= into[at]
        total[b] += out[at]
    for shorted in np.flatnonzero(ready.fault_siemens.any(axis=1)):
        total[ready.fault_start[shorted]] -= fault[shorted]
        total[ready.fault_end[shorted]] += fault[shorted]
    return np.asarray(np.where(alive, np.abs(total[:ground]), 0.0).max(axis=0, initial=0.0))


def finished(
    network: Network, given: Cases, ready: Prepared, alive: Bools, found: tuple[Floats, Bools]
) -> Solution:
    """The solution of cases whose voltages have been found, with its certificate."""
    v, settled = found
    count = v.shape[1]
    flows = _currents(network, ready, v)
    left = _left_over(network, ready, flows, alive)
    into, out, fault = (np.asarray(flow.T) for flow in flows)
    return Solution(
        network=network,
        node_v=np.where(alive, v[:-1], 0.0).T,
        current_a=into,
        out_a=out,
        fault_a=fault,
        emf_v=np.broadcast_to(ready.emf_v.T, (count, len(network.packs))),
        fed=np.broadcast_to(alive.T, (count, len(network.nodes))),
        opened=np.broadcast_to(given.opened, (count, len(network.elements))),
        residual_a=left,
        settled=settled,
    )


def shunts(alive: Bools) -> Floats:
    """What every node has to ground besides its elements, siemens."""
    return np.where(alive, SHUNT, DEAD_SHUNT)


def solve_once(network: Network, given: Cases) -> Solution:
    """Solve cases as they are: nothing opens of itself."""
    ready = prepare(network, given)
    guess, alive = fed(network, given, ready)
    v = np.zeros((len(network.nodes) + 1, given.count))
    v[:-1] = guess
    ends = (network.plan, network.start, network.end)
    return finished(network, given, ready, alive, newton(ends, ready, shunts(alive), v))


def overloaded(solution: Solution, given: Cases) -> Bools:
    """Where a fuse or a limiter carries what it opens at, (K, elements); a stuck one never does."""
    network = solution.network
    found = np.zeros(solution.current_a.shape, bool)
    v = solution.node_with_ground
    for at in np.concatenate([network.where(Fuse), network.where(Limiter)]):
        element = network.elements[at]
        if isinstance(element, Fuse):
            found[:, at] = np.abs(solution.current_a[:, at]) >= element.opens_at_a
            found[:, at] &= ~given.stuck[:, at]
        elif isinstance(element, Limiter) and element.opens_after_s is not None:
            across = np.abs(v[:, network.start[at]] - v[:, network.end[at]])
            found[:, at] = across >= 1e-3 * element.resistance_mohm * element.limit_a
            found[:, at] &= ~(given.stuck | given.shorted)[:, at]
    return found & ~given.opened


def solve(network: Network, given: Cases | None = None) -> Solution:
    """Solve a network in all cases, each until no fuse or limiter opens any more.

    Newton's method on the sums of currents at the nodes; see `newton`. Each result carries its
    certificate, the greatest sum left over. At rest means: after whatever opens has opened, the
    load as it is, and the packs as full as the case says. Of two states that a load of constant
    power allows, the one with the higher voltage is given.

    Parameters: `network`; `given` cases, else one case as the elements say.

    Returns `Solution`.

    >>> from hardstand.engines.power.network.elements import Load, Pack, Resistor
    >>> from hardstand.engines.power.network.network import network as make
    >>> half = {"curve_charge": (0.0, 1.0), "curve_v": (3.0, 4.2), "charge": 0.5}
    >>> small = make([
    ...     Pack(id="E01", start="0", end="a", cells=2, capacity_mah=3600, resistance_mohm=14, **half),
    ...     Resistor(id="H01", start="a", end="b", resistance_mohm=6),
    ...     Load(id="servos", start="b", end="0", draw_a=5),
    ... ])
    >>> solve(small).volts("b").round(3).tolist()  # 7.2 V less 20 milliohms at 5 A
    [7.1]
    """
    given = cases(network) if given is None else given
    solution = solve_once(network, given)
    trips = overloaded(solution, given) & solution.settled[:, None]
    while trips.any():
        rows = np.flatnonzero(trips.any(axis=1))
        given = replace(given, opened=solution.opened | trips)
        solution = solution.with_rows(rows, solve_once(network, given.take(rows)))
        trips = overloaded(solution, given) & solution.settled[:, None]
    return solution
