"""The table of every mass in every state, and how each of its numbers follows the inputs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from hardstand.asbuilt.value import Inputs3, MassPoint, PlacedLeg
from hardstand.description.fuel import State
from hardstand.engines.balance.model import Floats, Links, MassTable
from hardstand.engines.fuel.model import FuelStates
from hardstand.figures import Input

KG_PER_G = 1e-3


@dataclass
class _Columns:
    """Inputs once each, in order of first use."""

    inputs: list[Input] = field(default_factory=list)
    at: dict[str, int] = field(default_factory=dict)

    def of(self, one: Input) -> int:
        if one.address not in self.at:
            self.at[one.address] = len(self.inputs)
            self.inputs.append(one)
        return self.at[one.address]


@dataclass
class _Builder:
    """Collects components (mass, place, inertia, links) for S states."""

    states: int
    columns: _Columns = field(default_factory=_Columns)
    names: list[tuple[str, str, str]] = field(default_factory=list)
    mass: list[Floats] = field(default_factory=list)
    at: list[Floats] = field(default_factory=list)
    own: list[Floats] = field(default_factory=list)
    mass_links: list[tuple[int, int, int, Floats]] = field(default_factory=list)
    place_links: list[tuple[int, int, int, Floats]] = field(default_factory=list)

    def add(
        self,
        name: tuple[str, str, str],
        mass_g: Floats,
        at_mm: Floats,
        own_kgm2: Floats,
        by_mass: Sequence[tuple[Input, Floats]],
        place: Inputs3 | None,
    ) -> None:
        """One component: mass (S,), place (S, 3), inertia (S, 3, 3), what its mass follows."""
        number = len(self.names)
        self.names.append(name)
        self.mass.append(mass_g)
        self.at.append(at_mm)
        self.own.append(own_kgm2)
        self.mass_links += [(number, self.columns.of(one), 0, factor) for one, factor in by_mass]
        if place is not None:
            self.place_links += [
                (number, self.columns.of(one), axis, np.ones(self.states))
                for axis, one in enumerate(place)
            ]

    def links(self, entries: list[tuple[int, int, int, Floats]]) -> Links:
        """The entries as arrays."""
        component, column, axis = (
            np.array([entry[i] for entry in entries], dtype=np.int64) for i in range(3)
        )
        factor = np.array([entry[3] for entry in entries]).reshape(len(entries), self.states)
        return Links(component, column, axis, factor)


def mass_table(
    masses: Sequence[MassPoint],
    legs: Sequence[PlacedLeg],
    states: Sequence[State],
    fuel: FuelStates,
) -> MassTable:
    """Gather every mass of every state.

    A leg is weighed with the gear down; its swinging mass moves by a negative mass where it leaves
    and a positive one where it goes. Fuel lies where the fuel engine puts it; its mass follows the
    density and each tank's capacity (the shift of its middle with the capacity is second order and
    left out of the sensitivities).
    """
    build = _Builder(len(states))
    for point in masses:
        _add_point(build, point, states)
    up = np.array([state.gear == "up" for state in states], dtype=np.float64)
    for leg in legs:
        off = np.array([leg.leg.item in state.without for state in states], dtype=np.float64)
        _add_leg(build, leg, up * (1.0 - off))
    for k, tank_id in enumerate(fuel.tank_ids):
        _add_fuel(build, k, tank_id, fuel)
    names, subjects, groups = zip(*build.names, strict=True)
    return MassTable(
        tuple(state.id for state in states),
        names,
        subjects,
        groups,
        np.array(build.mass).T,
        np.moveaxis(np.array(build.at), 0, 1),
        np.moveaxis(np.array(build.own), 0, 1),
        tuple(build.columns.inputs),
        build.links(build.mass_links),
        build.links(build.place_links),
    )


def _add_point(build: _Builder, point: MassPoint, states: Sequence[State]) -> None:
    aboard = np.array([point.id not in state.without for state in states], dtype=np.float64)
    place = np.array([one.value for one in point.at])
    own = np.diag(np.array(point.own_kgm2))
    build.add(
        (point.name, f"{point.table}.{point.id}", point.group),
        aboard * point.mass.value,
        np.broadcast_to(place, (len(states), 3)),
        aboard[:, None, None] * own,
        [(point.mass, aboard)],
        point.at,
    )


def _add_leg(build: _Builder, leg: PlacedLeg, gone_up: Floats) -> None:
    none = np.zeros((build.states, 3, 3))
    for sign, place, words in (
        (-1.0, leg.leg.down_mm, "leaves"),
        (1.0, leg.leg.up_mm, "retracted"),
    ):
        build.add(
            (f"{leg.id} {words}", f"leg.{leg.id}", "undercarriage"),
            sign * gone_up * leg.moving.value,
            np.broadcast_to(np.array(place, dtype=np.float64), (build.states, 3)),
            none,
            [(leg.moving, sign * gone_up)],
            None,
        )


def _add_fuel(build: _Builder, k: int, tank_id: str, fuel: FuelStates) -> None:
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
    """Node: the mass table, or None where there is nothing to weigh or no state to weigh it in."""
    if not slices.masses or not slices.states:
        return None
    return mass_table(slices.masses, slices.legs, slices.states, earlier["fuel.levels"])
