"""The table of every mass in every state, and how each of its numbers follows the inputs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from hardstand.asbuilt.value import Inputs3, MassPoint, PlacedLeg
from hardstand.description.fuel import State
from hardstand.engines.balance.model import Floats, MassTable
from hardstand.engines.balance.moved import only_states
from hardstand.engines.balance.table_builder import TableBuilder
from hardstand.engines.fuel.model import FuelStates
from hardstand.figures import Input
from hardstand.standards.tolerances import MASS_STATION

LEAST_G = 1.0  # a state that weighs less has no CG worth the name


def mass_table(
    masses: Sequence[MassPoint],
    legs: Sequence[PlacedLeg],
    states: Sequence[State],
    fuel: FuelStates,
) -> MassTable:
    """Gather every mass of every state; `masses` and `states` not empty.

    A leg is weighed with the gear down; its swinging mass moves by a negative mass where it leaves
    and a positive one where it goes. Fuel lies where the fuel engine puts it; its mass follows the
    density and each tank's capacity (the shift of its middle with the capacity is second order and
    left out of the sensitivities). What is off in a state weighs nothing there, and so does a leg
    whose item is off.
    """
    build = TableBuilder(len(states))
    without = [state.without for state in states]
    aboard = [[point.id not in off for off in without] for point in masses]
    build.add_points(masses, np.array(aboard, dtype=np.float64).reshape(len(masses), len(states)))
    up = np.array([state.gear == "up" for state in states], dtype=np.float64)
    for leg in legs:
        off = np.array([leg.leg.item in state.without for state in states], dtype=np.float64)
        _add_leg(build, leg, up * (1.0 - off))
    for k, tank_id in enumerate(fuel.tank_ids):
        _add_fuel(build, k, tank_id, fuel)
    return build.table([state.id for state in states])


def leg_place(leg: PlacedLeg, field: str) -> Inputs3:
    """Where the swinging mass of a leg is, `down_mm` or `up_mm`, as inputs with the class default."""
    address = f"leg.{leg.id}.{field}"
    half = MASS_STATION.fixed
    x, y, z = (
        Input(f"{address}.{axis}", value, "mm", half / 2.0, "declared", address,
              f"class default: {MASS_STATION.name}")
        for axis, value in zip("xyz", getattr(leg.leg, field), strict=True)
    )  # fmt: skip
    return x, y, z


def _add_leg(build: TableBuilder, leg: PlacedLeg, gone_up: Floats) -> None:
    none = np.zeros((build.states, 3, 3))
    for sign, field, words in ((-1.0, "down_mm", "leaves"), (1.0, "up_mm", "retracted")):
        place = leg_place(leg, field)
        build.add(
            (f"{leg.id} {words}", f"leg.{leg.id}", "undercarriage"),
            sign * gone_up * leg.moving.value,
            np.array([one.value for one in place]),
            none,
            [(leg.moving, sign * gone_up)],
            place,
        )


def _add_fuel(build: TableBuilder, k: int, tank_id: str, fuel: FuelStates) -> None:
    mass = fuel.mass_g[:, k]
    by_mass = [(fuel.capacities[k], mass / fuel.capacities[k].value)]
    if fuel.density is not None:
        by_mass.append((fuel.density, mass / fuel.density.value))
    build.add(
        (f"fuel in {tank_id}", f"tank.{tank_id}", "fuel"),
        mass,
        fuel.centroid_mm[:, k],
        fuel.inertia_kgm2[:, k],
        by_mass,
        fuel.centres[k],
    )


def masses(slices: Any, earlier: Any) -> MassTable | None:
    """Node: the mass table of the states that weigh anything; None where there is none such."""
    if not slices.masses or not slices.states:
        return None
    table = mass_table(slices.masses, slices.legs, slices.states, earlier["fuel.levels"])
    heavy = np.flatnonzero(table.mass_g.sum(axis=1) >= LEAST_G)
    return only_states(table, heavy.tolist()) if heavy.size else None
