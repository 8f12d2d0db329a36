"""Mean chord and neutral point as figures."""

from __future__ import annotations

import numpy as np

from hardstand.engines.balance.model import Floats
from hardstand.engines.balance.neutral_point_model import NeutralPoint
from hardstand.engines.balance.planform import Planform
from hardstand.figures import FigureSet, Input


def stability_figures(
    shape: Planform,
    point: NeutralPoint | None,
    inputs: tuple[Input, ...],
    slope: Floats,
    efficiency: Input | None,
) -> FigureSet:
    """MAC, its leading edge and, where it is known, the neutral point as station and % MAC.

    The neutral point keeps its place in the MAC when a chord or station is measured anew, so its
    station moves with the wing. Parameters: slope (2, P) of MAC and leading edge by `inputs`.
    """
    names = [
        ("balance.mac@wing", shape.mac_mm, "mm", "mean aerodynamic chord"),
        ("balance.mac-leading-edge@wing", shape.mac_x_mm, "mm", "its leading edge, station"),
    ]
    rows = [slope[0], slope[1]]
    extra = [0.0, 0.0]
    if point is None or efficiency is None:
        sensitivity = np.array(rows)
    else:
        part = point.value_pct / 100.0
        names += [
            ("balance.neutral-point@wing", point.x_mm, "mm", "neutral point, station"),
            ("balance.neutral-point-mac@wing", point.value_pct, "pct", "neutral point, of the MAC"),
        ]
        rows += [slope[1] + part * slope[0], np.zeros(len(inputs))]
        by_efficiency = np.array([0.0, 0.0, shape.mac_mm / 100.0, 1.0]) * point.per_efficiency_pct
        sensitivity = np.column_stack([np.array(rows), by_efficiency])
        inputs = (*inputs, efficiency)
        own = own_u_pct(point, efficiency)
        extra += [own * shape.mac_mm / 100.0, own]
    return FigureSet(
        tuple(name[0] for name in names),
        np.array([name[1] for name in names]),
        tuple(name[2] for name in names),
        inputs,
        sensitivity,
        np.array(extra),
        tuple(name[3] for name in names),
        {"balance.neutral-point@wing": ("balance.neutral-point-mac@wing", "balance.mac@wing")}
        if point is not None
        else {},
        "strip integration; vortex lattice and body",
    )


def own_u_pct(point: NeutralPoint, efficiency: Input) -> float:
    """Standard uncertainty of the neutral point that no input carries, % MAC: tail root and body."""
    by_efficiency = point.per_efficiency_pct * efficiency.u
    return float(np.sqrt(max(point.u_pct**2 - by_efficiency**2, 0.0)))
