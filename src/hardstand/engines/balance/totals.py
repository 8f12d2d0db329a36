"""Mass, CG and inertia of every state from the mass table, with their slopes by the inputs."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.balance.model import Floats, MassTable
from hardstand.engines.balance.moments import KGM2_PER_G_MM2, roll_up


def _gathered(column: NDArray[np.int64], weight: Floats, inputs: int) -> Floats:
    """Sum the entries of each input: weight (S, E) by column (E,) to (S, inputs)."""
    rows = [np.bincount(column, one, minlength=inputs) for one in weight]
    return np.array(rows, dtype=np.float64).reshape(len(weight), inputs)


def totals(table: MassTable) -> tuple[Floats, Floats, Floats]:
    """Mass and CG (S, 4), their slopes by the inputs (S, 4, M), and inertia (S, 3, 3) in kg m2.

    d cg / d m = (r - cg) / M and d cg / d r = m / M, gathered over the links.
    """
    # masses and own inertia are already zero where a component is off: all count as present
    rolled = roll_up(table.mass_g, table.at_mm, np.ones_like(table.mass_g), table.own_kgm2)
    values = np.column_stack([rolled.mass_g, rolled.cg_mm])
    inputs = len(table.inputs)
    slope = np.zeros((len(table.state_ids), 4, inputs))
    offset = table.at_mm - rolled.cg_mm[:, None, :]
    m, p = table.by_mass, table.by_place
    slope[:, 0] = _gathered(m.column, m.factor.T, inputs)
    of_place = p.factor.T * table.mass_g[:, p.component] / rolled.mass_g[:, None]
    for axis in range(3):
        of_mass = m.factor.T * offset[:, m.component, axis] / rolled.mass_g[:, None]
        along = np.where(p.axis == axis, of_place, 0.0)
        slope[:, 1 + axis] = _gathered(m.column, of_mass, inputs) + _gathered(
            p.column, along, inputs
        )
    return values, slope, rolled.inertia_kgm2


def inertia_slope(table: MassTable, cg_mm: Floats) -> Floats:
    """Slopes of Ixx, Iyy, Izz and of the product of x and z by the inputs, (S, 4, M), kg m2 per unit.

    About the CG the CG's own movement has no first-order effect: dI/dm is the squared arm, dI/dr
    twice mass times arm. A component's own inertia goes with its mass.
    """
    arm = table.at_mm - cg_mm[:, None, :]
    square = arm**2
    by_mass = np.stack(
        [
            square[..., 1] + square[..., 2],
            square[..., 0] + square[..., 2],
            square[..., 0] + square[..., 1],
            arm[..., 0] * arm[..., 2],
        ],
        axis=1,
    )
    by_mass += _own_by_mass(table)
    moment = table.mass_g[..., None] * arm
    inputs = len(table.inputs)
    slope = np.zeros((len(table.state_ids), 4, inputs))
    m, p = table.by_mass, table.by_place
    for entry in range(4):
        of_mass = m.factor.T * by_mass[:, entry, m.component]
        of_place = np.zeros_like(p.factor.T)
        for axis in range(3):
            by_axis = _by_axis(moment, entry, axis)[:, p.component]
            of_place += np.where(p.axis == axis, p.factor.T * by_axis, 0.0)
        slope[:, entry] = _gathered(m.column, of_mass, inputs)
        slope[:, entry] += _gathered(p.column, of_place, inputs)
    return slope * KGM2_PER_G_MM2


def _own_by_mass(table: MassTable) -> Floats:
    """Each component's own inertia per gram, (S, 4, N) in g mm2 per g; 0 where it is off."""
    aboard = table.mass_g > 0.0
    mass = np.where(aboard, table.mass_g, 1.0)[:, None, :]
    own = table.own_kgm2
    entries = np.stack([own[..., 0, 0], own[..., 1, 1], own[..., 2, 2], -own[..., 0, 2]], axis=1)
    return np.where(aboard[:, None, :], entries / mass / KGM2_PER_G_MM2, 0.0)


def _by_axis(moment: Floats, entry: int, axis: int) -> Floats:
    """D I[entry] / d place along one axis (S, N), from mass times arm (S, N, 3)."""
    if entry < 3:
        return np.zeros(moment.shape[:2]) if axis == entry else 2.0 * moment[..., axis]
    other = {0: 2, 2: 0}.get(axis)
    return np.zeros(moment.shape[:2]) if other is None else moment[..., other]
