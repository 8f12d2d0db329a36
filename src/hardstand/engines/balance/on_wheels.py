"""Node: nose-wheel share, tip-back and overturn angle in every state with the gear down."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from hardstand.asbuilt.value import Inputs3, PlacedLeg
from hardstand.engines.balance.model import Floats, Headline, OnWheels
from hardstand.engines.balance.wheels import tail_strike_deg, wheel_figures
from hardstand.figures import FigureSet, Input

STEP_MM = 0.5  # of the central differences; the figures are smooth over it to nine digits
QUANTITIES = (
    ("nose-share", "pct", "share of the weight on the nose wheel"),
    ("tip-back", "deg", "tip-back angle"),
    ("overturn", "deg", "overturn angle"),
)


def three_legs(legs: tuple[PlacedLeg, ...]) -> tuple[PlacedLeg, PlacedLeg, PlacedLeg] | None:
    """Nose, left and right leg, or None where the aeroplane does not stand on just these."""
    by_place = {leg.leg.place: leg for leg in legs}
    if len(legs) != 3 or set(by_place) != {"nose", "left", "right"}:
        return None
    return by_place["nose"], by_place["left"], by_place["right"]


def _values(cg_mm: Floats, contact_mm: Floats) -> Floats:
    found = wheel_figures(cg_mm, contact_mm)
    return np.stack([100.0 * found.nose_share, found.tip_back_deg, found.overturn_deg])


def _slope(of: Callable[[Floats], Floats], at: Floats, entry: tuple[int, ...]) -> Floats:
    ends = []
    for by in (-STEP_MM, STEP_MM):
        moved = at.copy()
        moved[entry] += by
        ends.append(of(moved))
    return (ends[1] - ends[0]) / (2.0 * STEP_MM)


def on_wheels(slices: Any, earlier: Any) -> OnWheels | None:
    """Stance of every gear-down state; None without three legs, or where they make no triangle.

    The tail-strike angle needs `[ground]`. Slopes by the CG and the contact points are central
    differences; the CG's own follow the build-up.
    """
    head: Headline | None = earlier["balance.headline"]
    legs = three_legs(slices.legs)
    down = [s for s, state in enumerate(slices.states) if state.gear == "down"]
    if head is None or legs is None or not down:
        return None
    contacts = [leg.contact for leg in legs]
    contact = np.array([[one.value for one in at] for at in contacts])
    cg = head.cg_mm[down]
    try:
        values = _values(cg, contact)
    except ValueError:
        return None
    inputs = (*head.inputs, *(one for at in contacts for one in at))
    slope = np.zeros((3, len(down), len(inputs)))
    base = len(head.inputs)
    for axis in range(3):
        by_cg = _slope(lambda moved: _values(moved, contact), cg, (slice(None), axis))  # type: ignore[arg-type]
        slope[:, :, :base] += by_cg[:, :, None] * head.slope[down, 1 + axis][None]
        for leg in range(3):
            slope[:, :, base + 3 * leg + axis] = _slope(
                lambda moved: _values(cg, moved), contact, (leg, axis)
            )
    ids = tuple(head.state_ids[s] for s in down)
    strike, spare = _tail_strike(slices.tail_strike, contact)
    return OnWheels(
        ids,
        values[0],
        values[1],
        values[2],
        strike,
        _figures(
            ids, values, slope, inputs, slices.tail_strike if spare else None, contact, strike
        ),
    )


def _tail_strike(tail: Inputs3 | None, contact: Floats) -> tuple[float | None, bool]:
    if tail is None:
        return None, False
    try:
        return tail_strike_deg([one.value for one in tail], contact), True
    except ValueError:
        return None, False


def _figures(
    ids: tuple[str, ...],
    values: Floats,
    slope: Floats,
    inputs: tuple[Input, ...],
    tail: Inputs3 | None,
    contact: Floats,
    strike: float | None,
) -> FigureSet:
    addresses = [f"balance.{name}@{state}" for name, _, _ in QUANTITIES for state in ids]
    labels = [f"{label}, {state}" for _, _, label in QUANTITIES for state in ids]
    units = [unit for _, unit, _ in QUANTITIES for _ in ids]
    rows, kept = values.reshape(-1), slope.reshape(-1, len(inputs))
    steps: dict[str, tuple[str, ...]] = {
        f"balance.{name}@{state}": (f"balance.cg-x@{state}", f"balance.cg-z@{state}")
        for name, _, _ in QUANTITIES
        for state in ids
    }
    if tail is not None and strike is not None:
        point = np.array([one.value for one in tail])
        by_tail = np.array(
            [
                _slope(lambda moved: np.array(tail_strike_deg(moved, contact)), point, (axis,))
                for axis in range(3)
            ]
        )
        base = len(inputs) - 9
        by_contact = np.array(
            [
                [
                    _slope(
                        lambda moved: np.array(tail_strike_deg(point, moved)), contact, (leg, axis)
                    )
                    for axis in range(3)
                ]
                for leg in range(3)
            ]
        )
        spare = slope[1].copy()
        spare[:, base:] -= by_contact.reshape(-1)
        kept = np.pad(kept, ((0, 0), (0, 3)))
        kept = np.vstack([kept, np.hstack([spare, np.tile(-by_tail, (len(ids), 1))])])
        inputs = (*inputs, *tail)
        rows = np.concatenate([rows, values[1] - strike])
        addresses += [f"balance.tip-back-spare@{state}" for state in ids]
        labels += [f"tip-back beyond tail-strike, {state}" for state in ids]
        units += ["deg"] * len(ids)
        steps |= {
            f"balance.tip-back-spare@{state}": (f"balance.tip-back@{state}",) for state in ids
        }
    return FigureSet(
        tuple(addresses),
        rows,
        tuple(units),
        inputs,
        kept,
        labels=tuple(labels),
        steps=steps,
        method="statics on three wheels",
    )
