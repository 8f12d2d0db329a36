"""The nodes of the fuel engine: so far where the fuel lies, which the balance needs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from hardstand.asbuilt.value import PlacedTank
from hardstand.description.fuel import State
from hardstand.engines.fuel.burn import burn_bases, burn_states
from hardstand.engines.fuel.level import Gauge
from hardstand.engines.fuel.liquid import Liquid
from hardstand.engines.fuel.model import Burn, FuelStates, Run
from hardstand.engines.fuel.tank_shape import gauges
from hardstand.engines.fuel.volumes import volumes_ml
from hardstand.engines.node import Node
from hardstand.figures import Input

G_PER_ML_OF_KG_M3 = 1e-3


def fuel_states(
    tanks: tuple[PlacedTank, ...],
    states: Sequence[State],
    density: Input | None,
    sticks: Sequence[dict[float, Gauge]],
    known: dict[tuple[int, bytes], Liquid] | None = None,
) -> FuelStates:
    """Where the fuel lies in every tank and state, at each state's attitude.

    `sticks` are the tanks' dipsticks for all attitudes that occur; `known` keeps what one dipstick
    gave for the same volumes. Unusable fuel counts as fuel.
    """
    known = {} if known is None else known
    count = (len(states), len(tanks))
    centroid, inertia = np.zeros((*count, 3)), np.zeros((*count, 3, 3))
    volume = volumes_ml(tanks, states)
    per_ml = density.value * G_PER_ML_OF_KG_M3 if density is not None else 0.0
    pitch = np.array([state.pitch_deg for state in states])
    for k, tank in enumerate(tanks):
        for pitch_deg, stick in sticks[k].items():
            rows = np.flatnonzero(pitch == pitch_deg)
            key = (id(stick), volume[rows, k].tobytes())
            liquid = known[key] = known.get(key) or stick.filled(volume[rows, k])
            centroid[rows, k] = liquid.centroid_mm + [one.value for one in tank.centre]
            inertia[rows, k] = liquid.inertia_kgm2(per_ml)
    return FuelStates(
        tuple(state.id for state in states),
        tuple(tank.id for tank in tanks),
        volume,
        volume * per_ml,
        centroid,
        inertia,
        density,
        tuple(tank.capacity for tank in tanks),
        tuple(tank.centre for tank in tanks),
        tuple(tank.id for tank in tanks if tank.shrunk),
    )


def dipsticks(slices: Any, _: Any) -> list[dict[float, Gauge]]:
    """Node: the dipsticks of all tanks in all attitudes of the states."""
    return gauges(slices.tanks, (state.pitch_deg for state in slices.states))


def levels(slices: Any, earlier: Any) -> FuelStates:
    """Node: where the fuel lies in the described states."""
    return fuel_states(slices.tanks, slices.states, slices.fuel_density, earlier["fuel.dipsticks"])


def burn(slices: Any, earlier: Any) -> Burn | None:
    """Node: where the fuel lies as a flight burns it; None without tanks."""
    if not slices.tanks or slices.fuel is None:
        return None
    sticks = earlier["fuel.dipsticks"]
    known: dict[tuple[int, bytes], Liquid] = {}
    runs = []
    for base in burn_bases(slices.states):
        states, flown = burn_states(base, slices.fuel.reserve_pct)
        one_attitude = [{base.pitch_deg: by_pitch[base.pitch_deg]} for by_pitch in sticks]
        fuel = fuel_states(slices.tanks, states, slices.fuel_density, one_attitude, known)
        runs.append(Run(base, states, flown, fuel))
    return Burn(tuple(runs))


NODES = (
    Node("fuel.dipsticks", ("tanks", "states"), (), dipsticks),
    Node("fuel.levels", ("tanks", "states", "fuel_density"), ("fuel.dipsticks",), levels),
    Node("fuel.burn", ("tanks", "states", "fuel", "fuel_density"), ("fuel.dipsticks",), burn),
)
