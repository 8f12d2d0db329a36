"""The moments that are solved, as cases: which packs are on, how worn and cold, what is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.description.network import Duty, Phase
from hardstand.engines.power.defaults import AGE, COLD, GOOD_CHARGE, WORST_CHARGE
from hardstand.engines.power.duty import Currents, currents, mean_weights, peak_weights, shares_of
from hardstand.engines.power.model import Moment, PowerNetwork
from hardstand.engines.power.network.cases import Cases, cases
from hardstand.standards.cells import CHEMISTRIES, temperature_factor

Floats = NDArray[np.float64]
WARM_S = 60.0  # what lasts so long warms a regulator: common practice
_BY_CURVE = {one.open_v: name for name, one in CHEMISTRIES.items()}


@dataclass(frozen=True, eq=False)
class Asked:
    """What is to be solved: the moments, their states (M, L, 3), what is off, how full the packs are.

    `phase_weights` (P, L, 3); `phases` their names and lengths in all; `mean` and `peak` (L, 3).
    """

    moments: tuple[Moment, ...]
    weights: Floats
    full: Floats
    currents: Currents
    phases: tuple[tuple[str, float], ...]
    phase_weights: Floats
    mean: Floats
    peak: Floats
    peak_at: dict[str, str]


def asked(power: PowerNetwork, phases: Sequence[Phase], duties: Iterable[Duty]) -> Asked:
    """The moments of an aeroplane: rest, mean, peak, on one pack alone, and warm on one full pack."""
    drawing, known = power.consumers, shares_of(duties)
    amperes = currents(drawing)
    by_phase = np.array([mean_weights(drawing, one, known) for one in phases])
    by_phase = by_phase.reshape(len(phases), len(drawing), 3)
    seconds = np.array([one.duration_s * one.times for one in phases])
    peak, peak_at = np.zeros((len(drawing), 3)), {}
    warm = np.zeros((len(drawing), 3))
    for packs, members in power.groups:
        states, peak_at[packs[0]] = peak_weights(drawing, members, phases, known, amperes.a)
        peak += states
        warm += _warmest(power, members, by_phase, seconds, amperes.a)
    idle = np.tile(np.eye(3)[0], (len(drawing), 1))
    mean = np.einsum("p,pls->ls", seconds / seconds.sum(), by_phase) if len(phases) else idle
    named = moments_of(power, bool(len(phases)))
    states_of = {"rest": (idle, GOOD_CHARGE), "mean": (mean, GOOD_CHARGE),
                 "peak": (peak, WORST_CHARGE), "warm": (warm, 1.0)}  # fmt: skip
    rows = [states_of[kind_of(one.name)] for one in named]
    return Asked(
        named, np.array([weights for weights, _ in rows]), np.array([full for _, full in rows]), amperes,
        tuple((one.name or one.id, float(lasts)) for one, lasts in zip(phases, seconds, strict=True)),
        by_phase, mean, peak, peak_at,
    )  # fmt: skip


def moments_of(power: PowerNetwork, phased: bool) -> tuple[Moment, ...]:
    """The moments by name, with what packs are on: those of a flight only where it has phases."""
    found = [Moment("rest", "at rest", power.packs, False)]
    if phased:
        found.append(Moment("mean", "mean of a flight", power.packs, False))
    found.append(Moment("peak", "worst moment", power.packs, True))
    for pack, others in alone(power):
        left = tuple(one for one in power.packs if one not in others)
        found.append(Moment(f"peak-{pack}", f"worst moment, {pack} alone", left, True))
        if phased:
            found.append(Moment(f"warm-{pack}", f"busiest minute, {pack} alone and full", left, False))
    if phased:
        found.append(Moment("warm", "busiest minute, packs full", power.packs, False))
    return tuple(found)


def kind_of(moment: str) -> str:
    """What a moment on one pack is a kind of.

    >>> kind_of("peak-rx-pack-left"), kind_of("mean")
    ('peak', 'mean')
    """
    return moment.partition("-")[0]


def alone(power: PowerNetwork) -> list[tuple[str, tuple[str, ...]]]:
    """Every pack that has partners on its rails, with those partners."""
    return [(pack, tuple(one for one in packs if one != pack))
            for packs, _ in power.groups if len(packs) > 1 for pack in packs]  # fmt: skip


def _warmest(
    power: PowerNetwork, members: frozenset[str], by_phase: Floats, seconds: Floats, a: Floats
) -> Floats:
    """The busiest phase of a minute or more for the consumers on some domains; of any where none is."""
    inside = np.array([one.domain in members for one in power.consumers])
    if not len(seconds):
        return np.zeros((len(inside), 3))
    load = (by_phase * a * inside[None, :, None]).sum(axis=(1, 2))
    long = seconds >= WARM_S if (seconds >= WARM_S).any() else seconds > 0.0
    return np.asarray(by_phase[int(np.where(long, load, -1.0).argmax())] * inside[:, None])


def factors(power: PowerNetwork, age: float = AGE.value, cold_degc: float = COLD.value) -> Floats:
    """Resistance of every worn, cold pack over that when new and warm, (packs)."""
    return np.array([age * temperature_factor(_BY_CURVE[one.curve_v], cold_degc)
                     for one in power.network.packs])  # fmt: skip


def cases_of(power: PowerNetwork, these: Asked, a: Floats, worn: Floats) -> Cases:
    """The moments as cases, with given currents (L, 3) and resistances of worn packs (packs)."""
    network = power.network
    opened = np.zeros((len(these.moments), len(network.elements)), bool)
    factor = np.ones((len(these.moments), len(network.packs)))
    for row, one in enumerate(these.moments):
        for pack in power.packs:
            opened[row, network.element_at[pack]] = pack not in one.packs
        if one.worst:
            factor[row] = worn
    charge = np.repeat(these.full[:, None], len(network.packs), axis=1)
    return cases(network, load_a=(these.weights * a).sum(axis=2), charge=charge,
                 resistance_factor=factor, opened=opened)  # fmt: skip
