"""How far the nose may rise before the tail touches, and what the tip-back angle has to spare."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from hardstand.asbuilt.value import Inputs3
from hardstand.engines.balance.model import Floats
from hardstand.engines.balance.wheels import STEP_MM, strike_arrays, tail_strike_deg
from hardstand.figures import FigureSet


@dataclass(frozen=True, eq=False)
class TailClearance:
    """The tail-strike angle (None where it is not told), why not, and the figures with the spare."""

    strike_deg: float | None
    problem: str
    figures: FigureSet


def tail_clearance(
    tail: Inputs3 | None,
    contact_mm: Floats,
    columns: list[list[int]],
    tip_back_deg: Floats,
    tip_back_slope: Floats,
    figures: FigureSet,
    state_ids: tuple[str, ...],
) -> TailClearance:
    """Add tip-back less tail-strike of every state to the figures.

    Parameters: tail, the point that touches first; contact_mm (3, 3) of the wheels with their
    `columns` [leg][axis] among the figures' inputs; tip_back_deg (S,) with slope (S, inputs).
    """
    if tail is None:
        return TailClearance(None, "", figures)
    point = np.array([one.value for one in tail])
    try:
        strike = tail_strike_deg(point, contact_mm)
    except ValueError:
        return TailClearance(
            None, "tail_strike_mm of [ground] lies ahead of the main wheels", figures
        )
    if strike <= 0.0:
        return TailClearance(
            None,
            "tail_strike_mm of [ground] lies on or under the ground the wheels stand on",
            figures,
        )
    own = len(figures.inputs)
    slope = np.pad(tip_back_slope, ((0, 0), (0, 3)))
    by_tail, by_contact = _slopes(point, contact_mm)
    for axis in range(3):
        slope[:, own + axis] -= by_tail[axis]
        for leg in range(3):
            slope[:, columns[leg][axis]] -= by_contact[leg, axis]
    addresses = tuple(f"balance.tip-back-spare@{state}" for state in state_ids)
    steps = {
        f"balance.tip-back-spare@{state}": (f"balance.tip-back@{state}",) for state in state_ids
    }
    added = replace(
        figures,
        addresses=figures.addresses + addresses,
        values=np.concatenate([figures.values, tip_back_deg - strike]),
        units=figures.units + ("deg",) * len(state_ids),
        inputs=(*figures.inputs, *tail),
        sensitivity=np.vstack([np.pad(figures.sensitivity, ((0, 0), (0, 3))), slope]),
        labels=figures.labels + tuple(f"tip-back beyond tail-strike, {one}" for one in state_ids),
        steps={**figures.steps, **steps},
    )
    return TailClearance(strike, "", added)


def _slopes(point_mm: Floats, contact_mm: Floats) -> tuple[Floats, Floats]:
    """Slopes of the angle by the point (axis,) and by the contacts (wheel, axis); central differences."""
    steps = STEP_MM * np.eye(12)
    tail, contact = steps[:, :3], steps[:, 3:].reshape(12, 3, 3)
    low, high = (
        strike_arrays(point_mm + sign * tail, contact_mm + sign * contact)[0] for sign in (-1.0, 1.0)
    )
    slope = (high - low) / (2.0 * STEP_MM)
    return slope[:3], slope[3:].reshape(3, 3)
