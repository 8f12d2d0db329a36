"""Nodes: the planform with its mean aerodynamic chord, and the neutral point of wing, tail, body."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.asbuilt.value import BaySection
from hardstand.description.aeroplane import Panel as PanelRow
from hardstand.description.aeroplane import Stability as StabilityTable
from hardstand.engines.balance.body_flow import BodyMoment, body_moment
from hardstand.engines.balance.lattice import solve_lattice
from hardstand.engines.balance.model import Stability
from hardstand.engines.balance.neutral_point import neutral_point
from hardstand.engines.balance.neutral_point_model import NeutralPoint, Tail
from hardstand.engines.balance.panel import Panel, Section
from hardstand.engines.balance.planform import Planform, planform
from hardstand.figures import FigureSet, Input
from hardstand.standards.tolerances import CHORD, TAIL_EFFICIENCY

DEFAULT_EFFICIENCY = 0.95
SKIN_MM = 2.0  # the body is described by its inside; a moulded shell adds about this much each side


def as_panels(rows: tuple[PanelRow, ...], *surfaces: str) -> tuple[Panel, ...]:
    """The lattice's panels of the named surfaces."""
    return tuple(
        Panel(
            Section(*row.root_mm, row.root_chord_mm),
            Section(*row.tip_mm, row.tip_chord_mm),
            row.mirrored,
        )
        for row in rows
        if row.surface in surfaces
    )


def body_of(sections: tuple[BaySection, ...], wing: tuple[Panel, ...]) -> BodyMoment | None:
    """The body's moment slope from the inside widths of the bays, or None below three stations."""
    widths: dict[float, float] = {}
    for section in sections:
        y = [point[0] for point in section.outline_mm]
        widths[section.x_mm] = max(widths.get(section.x_mm, 0.0), max(y) - min(y) + 2.0 * SKIN_MM)
    if len(widths) < 3:
        return None
    stations = sorted(widths)
    flow = solve_lattice([wing])
    return body_moment(flow, wing, np.array(stations), np.array([widths[x] for x in stations]))


def _efficiency(table: StabilityTable | None) -> tuple[Input, str]:
    address = "stability.tail_efficiency"
    given = table.tail_efficiency if table else None
    tol = table.tail_efficiency_tol if table else None
    value = DEFAULT_EFFICIENCY if given is None else given
    half = TAIL_EFFICIENCY.fixed if tol is None else tol
    one = Input(
        address,
        value,
        "",
        half / 2.0,
        "assumed" if given is None else "declared",
        "" if given is None else address,
        f"class default: {TAIL_EFFICIENCY.name}" if tol is None else "tolerance in the file",
    )
    words = (
        ""
        if given is not None
        else f"dynamic pressure at the tail taken as {DEFAULT_EFFICIENCY:g} of the free stream (common practice)"
    )
    return one, words


def planform_inputs(rows: tuple[PanelRow, ...]) -> tuple[Input, ...]:
    """Station and chord at both ends of every wing panel as inputs, in that order."""
    made = []
    for row in rows:
        half = CHORD.fixed if row.chord_tol_mm is None else row.chord_tol_mm
        u_from = (
            f"class default: {CHORD.name}" if row.chord_tol_mm is None else "tolerance in the file"
        )
        for field, value in (
            ("root_mm.x", row.root_mm[0]),
            ("root_chord_mm", row.root_chord_mm),
            ("tip_mm.x", row.tip_mm[0]),
            ("tip_chord_mm", row.tip_chord_mm),
        ):
            address = f"panel.{row.id}.{field}"
            made.append(
                Input(
                    address, value, "mm", half / 2.0, "declared", address.removesuffix(".x"), u_from
                )
            )
    return tuple(made)


def chord_slopes(rows: tuple[PanelRow, ...]) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Slopes of the MAC and of its leading edge by `planform_inputs`, (2, inputs), mm per mm."""
    step = 0.5

    def changed(row: PanelRow, entry: int, by: float) -> PanelRow:
        root, tip = list(row.root_mm), list(row.tip_mm)
        root[0] += by * (entry == 0)
        tip[0] += by * (entry == 2)
        return row.model_copy(
            update={
                "root_mm": tuple(root),
                "tip_mm": tuple(tip),
                "root_chord_mm": row.root_chord_mm + by * (entry == 1),
                "tip_chord_mm": row.tip_chord_mm + by * (entry == 3),
            }
        )

    columns = []
    for index, row in enumerate(rows):
        for entry in range(4):
            ends = []
            for by in (-step, step):
                varied = (*rows[:index], changed(row, entry, by), *rows[index + 1 :])
                wing = planform(as_panels(varied, "wing"))
                ends.append((wing.mac_mm, wing.mac_x_mm))
            columns.append([(b - a) / (2.0 * step) for a, b in zip(*ends, strict=True)])
    return np.array(columns).T


def stability(slices: Any, _: Any) -> Stability | None:
    """Node: planform and neutral point, or None without a wing. The point is None without a tail.

    Validity: see `neutral_point`; the body is described by its inside sections and a thin skin.
    """
    rows: tuple[PanelRow, ...] = slices.panels
    wing_rows = tuple(row for row in rows if row.surface == "wing")
    if not wing_rows:
        return None
    wing, tail = as_panels(rows, "wing"), as_panels(rows, "tail", "canard")
    shape = planform(wing)
    efficiency, words = _efficiency(slices.stability)
    body = body_of(slices.sections, wing)
    assumptions = [words] if words and tail else []
    if body is None:
        assumptions.append(
            "without inside sections of the body its share is left out: the neutral "
            "point is then too far aft"
        )
    point = None
    if tail:
        point = neutral_point(wing, Tail(tail, efficiency.value, efficiency.u), body)
    return Stability(
        shape,
        point,
        efficiency if tail else None,
        tuple(assumptions),
        _figures(wing_rows, shape, point, efficiency),
    )


def _figures(
    rows: tuple[PanelRow, ...], shape: Planform, point: NeutralPoint | None, efficiency: Input
) -> FigureSet:
    inputs = (*planform_inputs(rows), efficiency)
    slope = np.zeros((2, len(inputs)))
    slope[:, :-1] = chord_slopes(rows)
    names = [
        ("balance.mac@wing", shape.mac_mm, "mm", "mean aerodynamic chord"),
        ("balance.mac-leading-edge@wing", shape.mac_x_mm, "mm", "its leading edge, station"),
    ]
    extra = np.zeros(2)
    if point is not None:
        names += [
            ("balance.neutral-point@wing", point.x_mm, "mm", "neutral point, station"),
            ("balance.neutral-point-mac@wing", point.value_pct, "pct", "neutral point, of the MAC"),
        ]
        by_efficiency = np.zeros((2, len(inputs)))
        by_efficiency[:, -1] = (
            point.per_efficiency_pct * shape.mac_mm / 100.0,
            point.per_efficiency_pct,
        )
        slope = np.vstack([slope, by_efficiency])
        own = np.sqrt(max(point.u_pct**2 - (point.per_efficiency_pct * efficiency.u) ** 2, 0.0))
        extra = np.concatenate([extra, [own * shape.mac_mm / 100.0, own]])
    return FigureSet(
        tuple(name[0] for name in names),
        np.array([name[1] for name in names]),
        tuple(name[2] for name in names),
        inputs,
        slope,
        extra,
        tuple(name[3] for name in names),
        method="strip integration; vortex lattice and body",
    )
