"""The nodes of the fuel engine: so far where the fuel lies, which the balance needs."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.asbuilt.value import PlacedTank
from hardstand.description.fuel import State
from hardstand.engines.fuel.emptying import share_out
from hardstand.engines.fuel.level import liquid_in, up_direction
from hardstand.engines.fuel.model import Floats, FuelStates
from hardstand.engines.fuel.reshaped import scaled_to_volume
from hardstand.engines.fuel.solids import Solid, box, cylinder
from hardstand.engines.node import Node

G_PER_ML_OF_KG_M3 = 1e-3


def tank_inside(tank: PlacedTank) -> Solid:
    """The liquid side of a tank as a solid in place, holding exactly the tank's capacity.

    A stated inside that holds more than the capacity is shrunk about its middle to hold it, so that
    full is full; its proportions stay.
    """
    length, width, height = tank.inside_mm
    across = tank.turn_deg % 180.0 != 0.0
    if tank.cylinder:
        solid = cylinder(width, length, axis=1 if across else 0)
    else:
        solid = box([width, length, height] if across else [length, width, height])
    held = scaled_to_volume(solid, tank.capacity.value)
    return held.moved([one.value for one in tank.centre])


def volumes_ml(tanks: tuple[PlacedTank, ...], states: tuple[State, ...]) -> Floats:
    """Fuel in every tank in every state, ml, (S, K).

    `fuel_pct` is of the main tanks together, drawn in their order of emptying; header tanks hold
    their own `header_pct`.
    """
    capacity = np.array([tank.capacity.value for tank in tanks])
    header = np.array([tank.header for tank in tanks], dtype=bool)
    order = np.array([tank.order for tank in tanks])
    result = np.zeros((len(states), len(tanks)))
    header_share = np.array([state.header_pct for state in states]) / 100.0
    result[:, header] = header_share[:, None] * capacity[header]
    if np.any(~header):
        main = capacity[~header]
        share = np.array([state.fuel_pct for state in states]) / 100.0
        result[:, ~header] = share_out(
            share * main.sum(), main, order[~header], np.zeros(main.size, dtype=bool)
        )
    return result


def levels(slices: Any, _: Any) -> FuelStates:
    """Where the fuel lies in every tank and state, at each state's attitude."""
    tanks: tuple[PlacedTank, ...] = slices.tanks
    states: tuple[State, ...] = slices.states
    density = slices.fuel_density
    count = (len(states), len(tanks))
    centroid, inertia = np.zeros((*count, 3)), np.zeros((*count, 3, 3))
    volume = volumes_ml(tanks, states) if tanks else np.zeros(count)
    per_ml = density.value * G_PER_ML_OF_KG_M3 if density is not None else 0.0
    pitches = sorted({state.pitch_deg for state in states})
    for k, tank in enumerate(tanks):
        inside = tank_inside(tank)
        for pitch_deg in pitches:
            rows = [s for s, state in enumerate(states) if state.pitch_deg == pitch_deg]
            liquid = liquid_in(inside, volume[rows, k], up_direction(pitch_deg))
            centroid[rows, k] = liquid.centroid_mm
            inertia[rows, k] = liquid.inertia_kgm2(per_ml)
    return FuelStates(
        tuple(state.id for state in states),
        tuple(tank.id for tank in tanks),
        volume,
        volume * per_ml,
        np.nan_to_num(centroid),
        np.nan_to_num(inertia),
        density,
        tuple(tank.capacity for tank in tanks),
        tuple(tank.centre for tank in tanks),
        tuple(tank.id for tank in tanks if tank.shrunk),
    )


LEVELS = Node("fuel.levels", ("tanks", "states", "fuel_density"), (), levels)
