"""What a flight asks of a network: the currents of all loads, step after step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.failures import Failure
from hardstand.engines.power.network.network import Network

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Profile:
    """T steps: `step_s` (T) long, with `load_a` (T, loads) and `closed` (T, switches) in each.

    `closed` may have one row for all. `phase` (T) numbers the steps by the phases in `names`.
    """

    step_s: Floats
    load_a: Floats
    closed: NDArray[np.bool_]
    phase: NDArray[np.intp]
    names: tuple[str, ...]

    @property
    def middle_s(self) -> Floats:
        """Time of the middle of each step from the start, (T)."""
        return np.asarray(np.cumsum(self.step_s) - 0.5 * self.step_s)


@dataclass(frozen=True, slots=True)
class Phase:
    """A part of a flight: its length, what its loads draw, which switches differ.

    Loads and switches that are not named are as the elements say.
    """

    name: str
    lasts_s: float
    load_a: Mapping[str, float]
    closed: Mapping[str, bool] | None = None


@dataclass(frozen=True, slots=True)
class Happens:
    """A failure from a moment of the flight on."""

    at_s: float
    failure: Failure


def of_phases(network: Network, phases: Sequence[Phase], longest_s: float = 5.0) -> Profile:
    """A profile whose loads change only from phase to phase, in steps no longer than `longest_s`.

    Raises KeyError for a load or a switch that the network does not have.

    >>> from hardstand.engines.power.network.elements import Load
    >>> from hardstand.engines.power.network.network import network
    >>> lamp = network([Load(id="lamp", start="rail", end="0", draw_a=0.5)])
    >>> two = [Phase("off", 10, {"lamp": 0.0}), Phase("on", 5, {})]
    >>> of_phases(lamp, two, 5.0).load_a.ravel().tolist()
    [0.0, 0.0, 0.5]
    """
    loads = {load.id: at for at, load in enumerate(network.loads)}
    switches = {switch.id: at for at, switch in enumerate(network.switches)}
    steps, rows, positions, numbers = [], [], [], []
    for number, phase in enumerate(phases):
        count = max(1, int(np.ceil(phase.lasts_s / longest_s - 1e-9)))
        row = [load.draw_a for load in network.loads]
        position = [switch.closed for switch in network.switches]
        for name, value in phase.load_a.items():
            row[loads[name]] = value
        for name, closed in (phase.closed or {}).items():
            position[switches[name]] = closed
        steps += [phase.lasts_s / count] * count
        rows += [row] * count
        positions += [position] * count
        numbers += [number] * count
    every = np.array(positions, bool).reshape(len(steps), -1)
    return Profile(
        np.array(steps, float),
        np.array(rows, float).reshape(len(steps), -1),
        every[:1] if (every == every[:1]).all() else every,
        np.array(numbers, np.intp),
        tuple(phase.name for phase in phases),
    )


def with_noise(profile: Profile, share: float, rate_hz: float, seed: int) -> Profile:
    """The same flight in steps of 1/`rate_hz`, each load scattered about its mean from step to step.

    `share` is the standard deviation as a share of the mean; below zero nothing is drawn.
    """
    counts = np.maximum(1, np.rint(profile.step_s * rate_hz)).astype(np.intp)
    load_a = np.repeat(profile.load_a, counts, axis=0)
    random = np.random.default_rng(seed)
    load_a = load_a * np.maximum(0.0, 1.0 + share * random.standard_normal(load_a.shape))
    closed = profile.closed
    return Profile(
        np.repeat(profile.step_s / counts, counts),
        load_a,
        np.repeat(closed, counts, axis=0) if len(closed) > 1 else closed,
        np.repeat(profile.phase, counts),
        profile.names,
    )
