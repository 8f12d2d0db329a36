"""What the fuel engine hands on: where the fuel is in every state, and as a flight burns it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.description.fuel import State
from hardstand.figures import Input

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class FuelStates:
    """The fuel in K tanks in S loading states.

    Attributes: state_ids (S), tank_ids (K); volume_ml and mass_g (S, K); centroid_mm (S, K, 3);
    inertia_kgm2 (S, K, 3, 3) about each tank's own centroid of fuel; density, capacities (K) and
    centres (K of three) as inputs; shrunk, the tanks whose inside was derived from their outside.
    """

    state_ids: tuple[str, ...]
    tank_ids: tuple[str, ...]
    volume_ml: Floats
    mass_g: Floats
    centroid_mm: Floats
    inertia_kgm2: Floats
    density: Input | None
    capacities: tuple[Input, ...]
    centres: tuple[tuple[Input, Input, Input], ...]
    shrunk: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Run:
    """One run of the tanks, gear up or down: P loading states in the order burned.

    Attributes: base, the described state that it begins from; states (P), the first `flown` of
    them from full to the reserve; fuel, where the fuel is in each.
    """

    base: State
    states: tuple[State, ...]
    flown: int
    fuel: FuelStates


@dataclass(frozen=True, eq=False)
class Burn:
    """The runs of a flight: gear up and gear down, each where a state is flown so."""

    runs: tuple[Run, ...]
