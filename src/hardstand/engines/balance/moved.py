"""A mass table with some of its states only, or with its inputs moved."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from hardstand.engines.balance.model import Floats, Links, MassTable


def only_states(table: MassTable, rows: Sequence[int]) -> MassTable:
    """The table of some of its states (row numbers), in the order given."""

    def links(whole: Links) -> Links:
        return replace(whole, factor=whole.factor[:, rows])

    return replace(
        table,
        state_ids=tuple(table.state_ids[row] for row in rows),
        mass_g=table.mass_g[rows],
        at_mm=table.at_mm[rows],
        own_kgm2=table.own_kgm2[rows],
        by_mass=links(table.by_mass),
        by_place=links(table.by_place),
    )


def moved(table: MassTable, step: Floats) -> MassTable:
    """The table after every input moved by its `step` (M,), each in its own unit.

    A component's own inertia goes with its mass. The links stay: masses and places are linear in
    the inputs (but for fuel, density by capacity, where the product of two small steps is left out).
    """
    m, p = table.by_mass, table.by_place
    mass, at = table.mass_g.T.copy(), np.moveaxis(table.at_mm, 0, 2).copy()
    np.add.at(mass, m.component, m.factor * step[m.column, None])
    np.add.at(at, (p.component, p.axis), p.factor * step[p.column, None])
    heavy = table.mass_g.T != 0.0
    share = np.where(heavy, mass / np.where(heavy, table.mass_g.T, 1.0), 0.0)
    return replace(
        table,
        mass_g=mass.T,
        at_mm=np.moveaxis(at, 2, 0),
        own_kgm2=table.own_kgm2 * share.T[..., None, None],
    )
