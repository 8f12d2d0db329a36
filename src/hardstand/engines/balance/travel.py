"""Node: where mass and CG go as a flight burns its fuel, gear up and gear down."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.asbuilt.value import Inputs3
from hardstand.engines.balance.after_weighing import inputs_after, slope_after, table_after
from hardstand.engines.balance.mass_table import LEAST_G, mass_table
from hardstand.engines.balance.model import (
    Floats,
    Locus,
    MassTable,
    Stability,
    Travel,
    Weighings,
)
from hardstand.engines.balance.moved import only_states
from hardstand.engines.balance.totals import totals
from hardstand.engines.fuel.model import Burn, Run
from hardstand.figures import FigureSet, Input


def travel(slices: Any, earlier: Any) -> Travel | None:
    """The CG from full to the reserve in 21 steps, then on to the last of the header; None without fuel.

    Fuel lies level at the attitude of the state that each run begins from. The travel is the
    distance between the foremost and the aftmost CG down to the reserve; what both have in common
    cancels in its uncertainty.
    """
    table: MassTable | None = earlier["balance.masses"]
    burn: Burn | None = earlier["fuel.burn"]
    if table is None or burn is None:
        return None
    weighings: Weighings | None = earlier["balance.weighings"]
    stability: Stability | None = earlier["balance.stability"]
    loci, slopes = [], []
    for run in burn.runs:
        whole = mass_table(slices.masses, slices.legs, run.states, run.fuel)
        if float(whole.mass_g.sum(axis=1).min()) < LEAST_G:
            continue
        locus, slope = _locus(run, table_after(whole, weighings), slices.cg_mark, stability)
        loci.append(locus)
        slopes.append(slope_after(slope, weighings))
    if not loci:
        return None
    inputs = inputs_after(table.inputs, weighings)
    return Travel(tuple(loci), _figures(loci, np.array(slopes), inputs, stability))


def _locus(
    run: Run, table: MassTable, mark: Inputs3 | None, stability: Stability | None
) -> tuple[Locus, Floats]:
    """One run's locus, and the slopes (M,) of its travel, mm, by the build-up's inputs."""
    values, _, _ = totals(table)
    x = values[:, 1]
    foremost, aftmost = int(np.argmin(x[: run.flown])), int(np.argmax(x[: run.flown]))
    _, ends, _ = totals(only_states(table, [foremost, aftmost]))
    wing = stability.wing if stability is not None else None
    locus = Locus(
        run.base.gear,
        run.base.id,
        np.array([state.fuel_pct for state in run.states]),
        run.fuel.mass_g.sum(axis=1),
        values[:, 0],
        values[:, 1:],
        x - mark[0].value if mark is not None else None,
        100.0 * (x - wing.mac_x_mm) / wing.mac_mm if wing is not None else None,
        run.flown,
        foremost,
        aftmost,
    )
    return locus, ends[1, 1] - ends[0, 1]


def _figures(
    loci: list[Locus], slope: Floats, inputs: tuple[Input, ...], stability: Stability | None
) -> FigureSet:
    """Travel in mm, and of the MAC where that is known, of every run."""
    gears = [locus.gear for locus in loci]
    travel_mm = np.array([locus.travel_mm for locus in loci])
    addresses = [f"balance.fuel-travel-mm@gear-{gear}" for gear in gears]
    values, units, rows = travel_mm, ["mm"] * len(gears), slope
    if stability is not None:
        wing, by_wing = stability.wing, stability.wing_slope
        share = 100.0 * travel_mm / wing.mac_mm
        addresses += [f"balance.fuel-travel@gear-{gear}" for gear in gears]
        values, units = np.concatenate([values, share]), units + ["pct"] * len(gears)
        by_chord = np.outer(-share / wing.mac_mm, by_wing[0])
        rows = np.block([[slope, np.zeros_like(by_chord)], [100.0 * slope / wing.mac_mm, by_chord]])
        inputs = (*inputs, *stability.wing_inputs)
    return FigureSet(
        tuple(addresses),
        values,
        tuple(units),
        inputs,
        rows,
        labels=tuple(
            f"travel of the CG, full to reserve, gear {one.rpartition('-')[2]}" for one in addresses
        ),
        method="fuel by level, in the order of emptying",
    )
