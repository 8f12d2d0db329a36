"""Node: every weigh-in against the build-up of its state, and what they do to the parts together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

import numpy as np

from hardstand.asbuilt.value import WeighIn as Weighed
from hardstand.engines.balance.balance_stand import StandErrors, bounds_from_tipping, levelled
from hardstand.engines.balance.load_line import scale_u_g
from hardstand.engines.balance.model import Floats, MassTable, Sums, WeighedIn, Weighings
from hardstand.engines.balance.reconcile import chi_square_chance
from hardstand.engines.balance.suspecting import suspects_of
from hardstand.engines.balance.weighing import WeighIn, WeighingErrors, weigh_in
from hardstand.figures import Input

STAND_U_MM = 1.0  # a stand's station by ruler: common practice, no source
STAND_WEIGHT_U_G = 2.0
STAND_WEIGHT_U_MM = 2.0


@dataclass(frozen=True, eq=False)
class Seen:
    """A weigh-in as rows against the build-up: mass, x and where known y of its state.

    residual (R,); slope (R, M) of the build-up's rows; readings (Q) and their slope (R, Q);
    covariance (R, R) of what was measured, from the readings.
    """

    weighed: Weighed
    row: int
    values: Floats
    residual: Floats
    slope: Floats
    readings: tuple[Input, ...]
    by_reading: Floats
    result: WeighIn | None

    @property
    def covariance(self) -> Floats:
        """Covariance of the measured rows from the readings' own uncertainties."""
        spread = self.by_reading * np.array([one.u for one in self.readings])
        return np.asarray(spread @ spread.T)


def _on_scales(one: Weighed, sums: Sums, row: int) -> Seen:
    from dataclasses import replace

    contact = np.array([[at.value for at in reading.at] for reading in one.readings])
    reading_g = np.array([reading.reading.value for reading in one.readings])
    cg_z = float(sums.values[row, 3])
    found = weigh_in(
        reading_g, contact, cg_z, WeighingErrors(0.0, 0.0, 0.0, 0.0), pitch_deg=one.pitch.value
    )
    with_y = not np.isnan(found.y_mm)
    rows = 3 if with_y else 2
    inputs: list[Input] = []
    columns: list[Floats] = []
    for k, reading in enumerate(one.readings):
        u = float(scale_u_g(reading.reading.u, reading.resolution_g))
        inputs.append(replace(reading.reading, u=u))
        columns.append(np.array([1.0, *found.by_reading_mm_per_g[k]]))
        for axis in range(2):
            inputs.append(replace(reading.at[axis], address=f"{reading.at[axis].address}@{one.id}"))
            columns.append(np.array([0.0, *(found.by_contact[k] * (np.arange(2) == axis))]))
    inputs.append(one.pitch)
    columns.append(np.array([0.0, *found.by_level_mm_per_deg[:, 0]]))
    measured = np.array([found.mass_g, found.x_mm, found.y_mm])[:rows]
    slope = sums.slope[row, :rows].copy()
    slope[1:] -= found.by_height[: rows - 1, None] * sums.slope[row, 3]
    return Seen(
        one,
        row,
        measured,
        measured - sums.values[row, :rows],
        slope,
        tuple(inputs),
        np.array(columns).T[:rows],
        found,
    )


def _on_stand(one: Weighed, sums: Sums, row: int) -> Seen | None:
    weighing = one.weighing
    assert weighing.stand_x_mm is not None  # checked when the description was read
    balanced = weighing.tips == "level"
    if weighing.weight_g is None and not balanced:
        return None
    weight, station = weighing.weight_g or 0.0, weighing.weight_x_mm or weighing.stand_x_mm
    found = levelled(
        weighing.stand_x_mm,
        weight,
        station,
        float(sums.values[row, 0]),
        StandErrors(STAND_U_MM, STAND_WEIGHT_U_G, STAND_WEIGHT_U_MM, 0.0),
    )
    address = f"weighing.{one.id}"
    inputs = [
        Input(
            f"{address}.stand_x_mm",
            weighing.stand_x_mm,
            "mm",
            STAND_U_MM,
            "measured",
            f"{address}.stand_x_mm",
            "class default: station by ruler, 2 mm",
        )
    ]
    columns = [found.by_stand]
    if weight:
        inputs += [
            Input(
                f"{address}.weight_g",
                weight,
                "g",
                STAND_WEIGHT_U_G,
                "measured",
                f"{address}.weight_g",
                "class default: kitchen scale, 4 g",
            ),
            Input(
                f"{address}.weight_x_mm",
                station,
                "mm",
                STAND_WEIGHT_U_MM,
                "measured",
                f"{address}.weight_x_mm",
                "class default: station by ruler, 4 mm",
            ),
        ]
        columns += [found.by_weight_mm_per_g, found.by_weight_station]
    slope = (sums.slope[row, 1] - found.by_mass_mm_per_g * sums.slope[row, 0])[None, :]
    measured = np.array([found.x_mm])
    return Seen(
        one,
        row,
        measured,
        measured - sums.values[row, 1:2],
        slope,
        tuple(inputs),
        np.array([columns]),
        None,
    )


def weighings(slices: Any, earlier: Any) -> Weighings | None:
    """Set every weigh-in against the build-up and find by least squares how the inputs move.

    None without weigh-ins. A stand that only tipped bounds the CG and moves nothing.
    """
    table: MassTable | None = earlier["balance.masses"]
    sums: Sums | None = earlier["balance.sums"]
    if table is None or sums is None or not slices.weighings:
        return None
    prior_u = np.array([one.u for one in table.inputs])
    seen: list[Seen] = []
    shown: list[WeighedIn] = []
    for one in slices.weighings:
        row = table.state_ids.index(one.weighing.state)
        found = (
            _on_scales(one, sums, row)
            if one.weighing.method == "scales"
            else _on_stand(one, sums, row)
        )
        if found is None:
            shown.append(_tipped(one))
            continue
        seen.append(found)
        shown.append(_shown(found, table, sums, prior_u))
    return _joined(tuple(shown), seen, table, prior_u)


def _joined(
    shown: tuple[WeighedIn, ...], seen: list[Seen], table: MassTable, prior_u: Floats
) -> Weighings:
    count = len(table.inputs)
    if not seen:
        return Weighings(shown, (), np.zeros(count), np.eye(count), np.zeros((count, 0)))
    slope = np.vstack([one.slope for one in seen])
    residual = np.concatenate([one.residual for one in seen])
    readings = tuple(reading for one in seen for reading in one.readings)
    by_reading = np.zeros((len(residual), len(readings)))
    r = q = 0
    for one in seen:
        rows, columns = one.by_reading.shape
        by_reading[r : r + rows, q : q + columns] = one.by_reading
        r, q = r + rows, q + columns
    spread = by_reading * np.array([reading.u for reading in readings])
    prior = prior_u**2
    innovation = (slope * prior) @ slope.T + spread @ spread.T
    gain = np.linalg.solve(innovation, slope * prior).T
    return Weighings(
        shown, readings, gain @ residual, np.eye(count) - gain @ slope, gain @ by_reading
    )


def _shown(found: Seen, table: MassTable, sums: Sums, prior_u: Floats) -> WeighedIn:
    spread = (found.slope * prior_u**2) @ found.slope.T + found.covariance
    chi = float(found.residual @ np.linalg.solve(spread, found.residual))
    u_measured, u_residual = np.sqrt(np.diag(found.covariance)), np.sqrt(np.diag(spread))
    x = 1 if found.result is not None else 0
    mass = float(found.values[0]) if found.result is not None else float(sums.values[found.row, 0])
    suspects, names = suspects_of(found.weighed, table, found.row, found.result)
    with_y = len(found.values) > 2
    return WeighedIn(
        found.weighed.id,
        found.weighed.weighing.state,
        found.weighed.weighing.method,
        mass,
        float(u_measured[0]) if x else 0.0,
        float(found.values[x]),
        float(u_measured[x]),
        float(found.values[2]) if with_y else None,
        float(u_measured[2]) if with_y else None,
        float(found.residual[0]) if x else 0.0,
        float(u_residual[0]) if x else 0.0,
        float(found.residual[x]),
        float(u_residual[x]),
        chi_square_chance(chi, len(found.residual)),
        suspects,
        names,
    )


def _tipped(one: Weighed) -> WeighedIn:
    weighing = one.weighing
    tips: Literal["nose", "tail"] = "nose" if weighing.tips == "nose" else "tail"
    bounds = bounds_from_tipping([weighing.stand_x_mm or 0.0], [tips], STAND_U_MM)
    return WeighedIn(
        one.id,
        weighing.state,
        "stand",
        0.0,
        0.0,
        float("nan"),
        float("inf"),
        None,
        None,
        0.0,
        0.0,
        0.0,
        float("inf"),
        1.0,
        (),
        (),
        bounds.low_mm,
        bounds.high_mm,
    )
