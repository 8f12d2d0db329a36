"""Node: mass, CG and inertia of every state from the parts alone, as figures beside the headline."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.balance.after_weighing import slope_after, table_after
from hardstand.engines.balance.model import Floats, Headline, MassTable, Sums, Weighings
from hardstand.engines.balance.totals import inertia_slope, totals
from hardstand.figures import FigureSet, Input

QUANTITIES = (
    ("mass", "g", "mass"),
    ("cg-x", "mm", "CG, station"),
    ("cg-y", "mm", "CG, to starboard"),
    ("cg-z", "mm", "CG, up"),
)
INERTIAS = ("ixx", "iyy", "izz", "ixz")


def sums(_: Any, earlier: Any) -> Sums | None:
    """Add up every state; None where there is no mass table."""
    table: MassTable | None = earlier["balance.masses"]
    if table is None:
        return None
    values, slope, inertia = totals(table)
    return Sums(
        values,
        slope,
        inertia,
        state_figures(
            "balance.built", table.state_ids, values, slope, table.inputs, "sum of the parts"
        ),
    )


def state_figures(
    prefix: str,
    state_ids: tuple[str, ...],
    values: Floats,
    slope: Floats,
    inputs: tuple[Input, ...],
    method: str,
) -> FigureSet:
    """Mass and CG of every state as one figure set: `<prefix>-mass@state` and so on.

    values (S, 4) and slope (S, 4, M), as `mass_table.totals` gives them.
    """
    addresses, units, labels = [], [], []
    for state_id in state_ids:
        for name, unit, label in QUANTITIES:
            addresses.append(f"{prefix}-{name}@{state_id}")
            units.append(unit)
            labels.append(f"{label}, {state_id}")
    return FigureSet(
        tuple(addresses),
        values.reshape(-1),
        tuple(units),
        inputs,
        slope.reshape(-1, slope.shape[-1]),
        labels=tuple(labels),
        method=method,
    )


def inertia_figures(table: MassTable, weighings: Weighings | None, head: Headline) -> FigureSet:
    """Ixx, Iyy, Izz and the product of x and z (integral of xz dm) of every state, kg m2.

    After all weigh-ins, as the headline has them.
    """
    slope = inertia_slope(table_after(table, weighings), head.cg_mm)
    tensor = head.inertia_kgm2
    kept = np.column_stack([tensor[:, 0, 0], tensor[:, 1, 1], tensor[:, 2, 2], -tensor[:, 0, 2]])
    return FigureSet(
        tuple(f"balance.{name}@{state}" for state in table.state_ids for name in INERTIAS),
        kept.reshape(-1),
        ("kgm2",) * kept.size,
        head.inputs,
        slope_after(slope, weighings).reshape(-1, len(head.inputs)),
        labels=tuple(
            f"{name.capitalize()}, {state}" for state in table.state_ids for name in INERTIAS
        ),
        method="parallel axes",
        kind="inferred" if head.updated else "computed",
    )
