"""The wing as the lattice and the mean chord see it, and how its chord follows what was measured."""

from __future__ import annotations

import numpy as np

from hardstand.description.aeroplane import Panel as PanelRow
from hardstand.engines.balance.model import Floats
from hardstand.engines.balance.panel import Panel, Section, carried_to_centreline
from hardstand.engines.balance.planform import planform
from hardstand.figures import Input
from hardstand.standards.tolerances import CHORD

STEP_MM = 0.5
FIELDS = ("root_mm.x", "root_chord_mm", "tip_mm.x", "tip_chord_mm")


def as_panels(rows: tuple[PanelRow, ...], *surfaces: str) -> tuple[Panel, ...]:
    """The lattice's panels of the named surfaces, as drawn."""
    return tuple(
        Panel(
            Section(*row.root_mm, row.root_chord_mm),
            Section(*row.tip_mm, row.tip_chord_mm),
            row.mirrored,
        )
        for row in rows
        if row.surface in surfaces
    )


def wing_panels(rows: tuple[PanelRow, ...]) -> tuple[tuple[Panel, ...], str]:
    """The wing from the centreline, and in words what was done to get there (empty: nothing).

    A wing drawn from the fuselage side is drawn on along its own edges to the centreline, which is
    the usual gross area; where its edges would cross before that, it stays as it is drawn.
    """
    drawn = as_panels(rows, "wing")
    inner = min((abs(panel.root.y_mm) for panel in drawn), default=0.0)
    if inner < 1.0:
        return drawn, ""
    try:
        carried = carried_to_centreline(drawn)
    except ValueError:
        return drawn, (
            f"the wing begins {inner:.0f} mm from the centreline and was left so, as its edges would "
            "cross before it: its mean chord and neutral point are those of the two halves apart"
        )
    return carried, (
        f"the wing is drawn from {inner:.0f} mm beside the centreline; it was drawn on to the "
        "centreline along its own edges"
    )


def wing_inputs(rows: tuple[PanelRow, ...]) -> tuple[Input, ...]:
    """Station and chord at both ends of every wing panel as inputs, in the order of `FIELDS`."""
    made = []
    for row in rows:
        if row.surface != "wing":
            continue
        stated = row.chord_tol_mm is not None
        half = row.chord_tol_mm if row.chord_tol_mm is not None else CHORD.fixed
        u_from = "tolerance in the file" if stated else f"class default: {CHORD.name}"
        values = (row.root_mm[0], row.root_chord_mm, row.tip_mm[0], row.tip_chord_mm)
        for field, value in zip(FIELDS, values, strict=True):
            address = f"panel.{row.id}.{field}"
            at = address.removesuffix(".x")
            made.append(Input(address, value, "mm", half / 2.0, "declared", at, u_from))
    return tuple(made)


def _changed(row: PanelRow, field: int, by_mm: float) -> PanelRow:
    (root_x, *root), (tip_x, *tip) = row.root_mm, row.tip_mm
    return row.model_copy(
        update={
            "root_mm": (root_x + by_mm * (field == 0), *root),
            "root_chord_mm": row.root_chord_mm + by_mm * (field == 1),
            "tip_mm": (tip_x + by_mm * (field == 2), *tip),
            "tip_chord_mm": row.tip_chord_mm + by_mm * (field == 3),
        }
    )


def chord_slopes(rows: tuple[PanelRow, ...]) -> Floats:
    """Slopes of the MAC and of its leading edge's station by `wing_inputs`, (2, P), mm per mm."""
    wing = tuple(row for row in rows if row.surface == "wing")
    least = min(min(row.root_chord_mm, row.tip_chord_mm) for row in wing)
    step = min(STEP_MM, 0.5 * least)
    columns = []
    for index, row in enumerate(wing):
        for field in range(len(FIELDS)):
            ends = []
            for by_mm in (-step, step):
                varied = (*wing[:index], _changed(row, field, by_mm), *wing[index + 1 :])
                shape = planform(wing_panels(varied)[0])
                ends.append((shape.mac_mm, shape.mac_x_mm))
            columns.append([(b - a) / (2.0 * step) for a, b in zip(*ends, strict=True)])
    return np.array(columns, dtype=np.float64).T
