"""Node: the figures that are judged: every state after all weigh-ins, or as built up without one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from hardstand.asbuilt.value import Inputs3
from hardstand.engines.balance.after_weighing import (
    counts,
    inputs_after,
    slope_after,
    table_after,
)
from hardstand.engines.balance.model import Floats, Headline, MassTable, Stability, Weighings
from hardstand.engines.balance.sums import QUANTITIES
from hardstand.engines.balance.totals import totals
from hardstand.figures import FigureSet, Input


@dataclass(frozen=True, eq=False)
class _Quantity:
    """One quantity in every state: address stem, values (S,), unit, label, slope (S, any width)."""

    stem: str
    values: Floats
    unit: str
    label: str
    slope: Floats


def headline(slices: Any, earlier: Any) -> Headline | None:
    """Every state's mass, CG, CG behind the mark and in % MAC; None without a mass table."""
    table: MassTable | None = earlier["balance.masses"]
    if table is None:
        return None
    weighings: Weighings | None = earlier["balance.weighings"]
    stability: Stability | None = earlier["balance.stability"]
    mark: Inputs3 | None = slices.cg_mark
    values, built_slope, inertia = totals(table_after(table, weighings))
    slope = slope_after(built_slope, weighings)
    inputs = inputs_after(table.inputs, weighings)
    shown = [
        _Quantity(f"balance.{name}", values[:, i], unit, label, slope[:, i])
        for i, (name, unit, label) in enumerate(QUANTITIES)
    ]
    everything = inputs
    aft = mac = None
    if mark is not None:
        everything = (*everything, mark[0])
        aft = values[:, 1] - mark[0].value
        by_mark = np.full((len(aft), 1), -1.0)
        shown.append(
            _Quantity(
                "balance.cg", aft, "mm", "CG behind the mark", np.hstack([slope[:, 1], by_mark])
            )
        )
    if stability is not None:
        mac, by_all = of_mac(values[:, 1], slope[:, 1], stability)
        placed = _placed(by_all, len(inputs), len(everything))
        everything = (*everything, *stability.wing_inputs)
        shown.append(_Quantity("balance.cg-mac", mac, "pct", "CG, of the MAC", placed))
    figures = _figures(table.state_ids, shown, everything, updated=counts(weighings))
    return Headline(
        table.state_ids,
        counts(weighings),
        values[:, 0],
        values[:, 1:],
        aft,
        mac,
        inertia,
        inputs,
        slope,
        figures,
    )


def of_mac(x_mm: Floats, slope: Floats, stability: Stability) -> tuple[Floats, Floats]:
    """Stations (S,) in % MAC, and their slopes by the inputs of `slope` (S, Q), then the wing's."""
    wing, by_wing = stability.wing, stability.wing_slope
    share = 100.0 * (x_mm - wing.mac_x_mm) / wing.mac_mm
    by_planform = -(100.0 * by_wing[1] + share[:, None] * by_wing[0]) / wing.mac_mm
    return share, np.hstack([100.0 * slope / wing.mac_mm, by_planform])


def _placed(row: Floats, before: int, start: int) -> Floats:
    """Slopes whose first `before` columns are the common inputs and whose rest begin at `start`."""
    return np.hstack([row[:, :before], np.zeros((row.shape[0], start - before)), row[:, before:]])


def _figures(
    state_ids: tuple[str, ...], shown: list[_Quantity], inputs: tuple[Input, ...], *, updated: bool
) -> FigureSet:
    width = len(inputs)
    slope = np.vstack(
        [np.pad(one.slope, ((0, 0), (0, width - one.slope.shape[1]))) for one in shown]
    )
    return FigureSet(
        tuple(f"{one.stem}@{state}" for one in shown for state in state_ids),
        np.concatenate([one.values for one in shown]),
        tuple(one.unit for one in shown for _ in state_ids),
        inputs,
        slope,
        labels=tuple(f"{one.label}, {state}" for one in shown for state in state_ids),
        steps=_steps(state_ids, updated=updated),
        method="parts and weigh-ins by least squares" if updated else "sum of the parts",
        kind="inferred" if updated else "computed",
    )


def _steps(state_ids: tuple[str, ...], *, updated: bool) -> dict[str, tuple[str, ...]]:
    steps: dict[str, tuple[str, ...]] = {}
    for state in state_ids:
        if updated:
            for name, _, _ in QUANTITIES:
                steps[f"balance.{name}@{state}"] = (f"balance.built-{name}@{state}",)
        at = f"balance.cg-x@{state}"
        steps[f"balance.cg@{state}"] = (at,)
        steps[f"balance.cg-mac@{state}"] = (at, "balance.mac@wing", "balance.mac-leading-edge@wing")
    return steps
