"""How hard everything works: shares of rest, motion and stall by phase, and the worst moment of all.

Functions stall independently of one another; an item that obeys several does as the busiest bids.
The worst moment of a group of packs is the one with the highest current among those that add up to
50 ms or more in a flight: whatever moves in its phase is taken to move in it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import prod

import numpy as np
from numpy.typing import NDArray

from hardstand.description.network import Duty, Phase
from hardstand.engines.power.model import Consumer
from hardstand.figures import Input

Floats = NDArray[np.float64]
STATES = ("idle", "moving", "stall")
SHORTEST_S = 0.050  # shorter dips are carried by what is charged in the rail: common practice
IDLE: Floats = np.array([1.0, 0.0, 0.0])
MOVING: Floats = np.array([0.0, 1.0, 0.0])
STALL: Floats = np.array([0.0, 0.0, 1.0])
_TURBINE: Mapping[str, Floats] = {"off": IDLE, "start": STALL, "run": MOVING, "cool": IDLE}
Duties = Mapping[tuple[str, str], tuple[float, float]]


@dataclass(frozen=True, eq=False)
class Currents:
    """Currents of L consumers by state, (L, 3), and the inputs that they are, by address."""

    a: Floats
    inputs: tuple[Input, ...]
    places: tuple[NDArray[np.bool_], ...]

    def changed(self, which: int, by_a: float) -> Floats:
        """The currents with one input changed, everywhere it counts."""
        return np.asarray(self.a + by_a * self.places[which])


def currents(consumers: Sequence[Consumer]) -> Currents:
    """The consumers' currents; a state that is not stated has the current of the next calmer one."""
    a = np.zeros((len(consumers), 3))
    places: dict[str, NDArray[np.bool_]] = {}
    inputs: dict[str, Input] = {}
    for row, one in enumerate(consumers):
        known: Input | None = None
        for column, state in enumerate(STATES):
            known = one.load.get(state, known)
            if known is not None:
                a[row, column] = known.value
                inputs[known.address] = known
                places.setdefault(known.address, np.zeros(a.shape, bool))[row, column] = True
    return Currents(a, tuple(inputs.values()), tuple(places[one] for one in inputs))


def shares_of(duties: Iterable[Duty]) -> Duties:
    """Shares of motion and stall by phase and function."""
    return {(one.phase, one.function): (0.01 * one.moving_pct, 0.01 * one.stall_pct)
            for one in duties}  # fmt: skip


def mean_weights(consumers: Sequence[Consumer], phase: Phase, duties: Duties) -> Floats:
    """Shares of the time in each state, (L, 3), in one phase."""
    rows = []
    for one in consumers:
        if one.kind == "turbine-controller":
            rows.append(_TURBINE[phase.turbine])
            continue
        if one.functions == ("lights",) and one.kind == "lamp":
            rows.append(0.01 * phase.lights_pct * MOVING)
            continue
        found = [duties.get((phase.id, name), (0.0, 0.0)) for name in one.functions]
        rest = prod(1.0 - moving - stall for moving, stall in found)
        stall = 1.0 - prod(1.0 - stalled for _, stalled in found)
        rows.append(np.array([rest, 1.0 - rest - stall, stall]))
    return np.array(rows).reshape(len(consumers), 3)


def peak_weights(
    consumers: Sequence[Consumer], members: frozenset[str], phases: Sequence[Phase], duties: Duties,
    a: Floats,
) -> tuple[Floats, str]:  # fmt: skip
    """The worst moment of the consumers on some domains: states (L, 3), 0 for others; in words."""
    inside = np.array([one.domain in members for one in consumers])
    best: tuple[float, Floats, str] | None = None
    for phase in phases:
        lasts = phase.duration_s * phase.times
        stalls = {name: stall for (at, name), (_, stall) in duties.items()
                  if at == phase.id and stall > 0.0}  # fmt: skip
        stalls = {name: share for name, share in stalls.items()
                  if any(name in one.functions and one.domain in members for one in consumers)}
        for count in range(len(stalls) + 1):
            for some in combinations(stalls, count):
                if some and prod(stalls[one] for one in some) * lasts < SHORTEST_S:
                    continue
                states = np.array([_state(one, phase, duties, some) for one in consumers])
                states = states.reshape(len(consumers), 3)  # of a pack that nothing hangs on, none
                states = states * inside[:, None]
                total = float((states * a).sum())
                if best is None or total > best[0] + 1e-9:
                    doing = f"{' and '.join(some)} at stall" if some else "nothing at stall"
                    best = (total, states, f"{phase.name or phase.id}, {doing}")
    if best is not None:
        return best[1], best[2]
    return _undescribed(consumers, inside, a), "everything moving, the strongest at stall"


def _state(one: Consumer, phase: Phase, duties: Duties, stalled: tuple[str, ...]) -> Floats:
    if one.kind == "turbine-controller":
        return _TURBINE[phase.turbine]
    if one.functions == ("lights",) and one.kind == "lamp":
        return STALL if phase.lights_pct > 0.0 else 0.0 * IDLE
    if set(one.functions) & set(stalled):
        return STALL
    busy = any(sum(duties.get((phase.id, name), (0.0, 0.0))) > 0.0 for name in one.functions)
    return MOVING if busy else IDLE


def _undescribed(consumers: Sequence[Consumer], inside: NDArray[np.bool_], a: Floats) -> Floats:
    states = np.tile(MOVING, (len(consumers), 1)) * inside[:, None]
    more = (a[:, 2] - a[:, 1]) * inside
    if len(more) and more.max() > 0.0:
        states[int(more.argmax())] = STALL
    return np.asarray(states)
