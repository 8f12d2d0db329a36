"""Node: the figures that are judged: every state after all weigh-ins, or as built up without one."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.asbuilt.value import Inputs3
from hardstand.engines.balance.model import Floats, Headline, MassTable, Stability, Sums, Weighings
from hardstand.engines.balance.stability import chord_slopes, planform_inputs
from hardstand.engines.balance.sums import QUANTITIES
from hardstand.figures import FigureSet, Input


def after_weighing(
    built: Sums, weighings: Weighings | None, inputs: tuple[Input, ...]
) -> tuple[Floats, Floats, tuple[Input, ...]]:
    """Values (S, 4), slopes (S, 4, Q) and inputs (Q) of every state once weigh-ins moved the inputs.

    The readings join the inputs: an updated figure follows the parts by S (I - K H) and the
    readings by S K times their own effect, so its u is that of the least-squares estimate.
    """
    if weighings is None or not weighings.readings:
        return built.values, built.slope, inputs
    values = built.values + built.slope @ weighings.step
    own = built.slope @ weighings.kept
    return (
        values,
        np.concatenate([own, built.slope @ weighings.by_reading], axis=2),
        (*inputs, *weighings.readings),
    )


def headline(slices: Any, earlier: Any) -> Headline | None:
    """Every state's mass, CG, CG behind the mark and in % MAC; None without a mass table."""
    table: MassTable | None = earlier["balance.masses"]
    built: Sums | None = earlier["balance.sums"]
    if table is None or built is None:
        return None
    weighings: Weighings | None = earlier["balance.weighings"]
    stability: Stability | None = earlier["balance.stability"]
    values, slope, inputs = after_weighing(built, weighings, table.inputs)
    rows = [
        Rows("balance." + name, values[:, i], unit, label, slope[:, i])
        for i, (name, unit, label) in enumerate(QUANTITIES)
    ]
    mark: Inputs3 | None = slices.cg_mark
    wide, everything = slope, inputs
    aft = mac = None
    if mark is not None:
        everything = (*everything, mark[0])
        aft = values[:, 1] - mark[0].value
        column = np.full((*slope.shape[:1], 1), -1.0)
        rows.append(
            Rows("balance.cg", aft, "mm", "CG behind the mark", np.hstack([slope[:, 1], column]))
        )
    if stability is not None:
        mac, row = _of_mac(values[:, 1], slope[:, 1], stability, slices.panels)
        start = len(everything)
        everything = (
            *everything,
            *planform_inputs(tuple(p for p in slices.panels if p.surface == "wing")),
        )
        rows.append(
            Rows(
                "balance.cg-mac", mac, "pct", "CG, of the MAC", _placed(row, slope.shape[2], start)
            )
        )
    updated = weighings is not None and bool(weighings.readings)
    figures = _figures(table.state_ids, rows, everything, updated)
    return Headline(
        table.state_ids,
        updated,
        values[:, 0],
        values[:, 1:],
        aft,
        mac,
        built.inertia_kgm2,
        inputs,
        wide,
        figures,
    )


class Rows:
    """One quantity in every state: address stem, values (S,), unit, label, slope (S, any width)."""

    def __init__(self, stem: str, values: Floats, unit: str, label: str, slope: Floats) -> None:
        self.stem, self.values, self.unit, self.label, self.slope = stem, values, unit, label, slope


def _of_mac(
    x_mm: Floats, slope: Floats, stability: Stability, panels: Any
) -> tuple[Floats, Floats]:
    wing = stability.wing
    share = 100.0 * (x_mm - wing.mac_x_mm) / wing.mac_mm
    by_chord = chord_slopes(tuple(panel for panel in panels if panel.surface == "wing"))
    by_planform = -100.0 * by_chord[1] / wing.mac_mm - share[:, None] * by_chord[0] / wing.mac_mm
    return share, np.hstack([100.0 * slope / wing.mac_mm, by_planform])


def _placed(row: Floats, before: int, start: int) -> Floats:
    """Slopes whose first `before` columns are the common inputs and whose rest begin at `start`."""
    return np.hstack([row[:, :before], np.zeros((row.shape[0], start - before)), row[:, before:]])


def _figures(
    state_ids: tuple[str, ...], rows: list[Rows], inputs: tuple[Input, ...], updated: bool
) -> FigureSet:
    width = len(inputs)
    slope = np.vstack(
        [np.pad(row.slope, ((0, 0), (0, width - row.slope.shape[1]))) for row in rows]
    )
    steps: dict[str, tuple[str, ...]] = {}
    for state in state_ids:
        for name in ("mass", "cg-x", "cg-y", "cg-z"):
            steps[f"balance.{name}@{state}"] = (f"balance.built-{name}@{state}",) if updated else ()
        steps[f"balance.cg@{state}"] = (f"balance.cg-x@{state}",)
        steps[f"balance.cg-mac@{state}"] = (
            f"balance.cg-x@{state}",
            "balance.mac@wing",
            "balance.mac-leading-edge@wing",
        )
    method = "parts and weigh-ins by least squares" if updated else "sum of the parts"
    return FigureSet(
        tuple(f"{row.stem}@{state}" for row in rows for state in state_ids),
        np.concatenate([row.values for row in rows]),
        tuple(row.unit for row in rows for _ in state_ids),
        inputs,
        slope,
        labels=tuple(f"{row.label}, {state}" for row in rows for state in state_ids),
        steps={key: value for key, value in steps.items() if value},
        method=method,
    )
