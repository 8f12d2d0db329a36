"""Node: nose-wheel share, tip-back and overturn angle in every state with the gear down."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from hardstand.asbuilt.value import PlacedLeg
from hardstand.engines.balance.model import Floats, Headline, OnWheels
from hardstand.engines.balance.tail_clearance import tail_clearance
from hardstand.engines.balance.wheels import STEP_MM, wheel_arrays, wheel_figures
from hardstand.figures import FigureSet, Input

QUANTITIES = (
    ("nose-share", "pct", "share of the weight on the nose wheel"),
    ("tip-back", "deg", "tip-back angle"),
    ("overturn", "deg", "overturn angle"),
)


def three_legs(legs: Sequence[PlacedLeg]) -> tuple[PlacedLeg, PlacedLeg, PlacedLeg] | None:
    """Nose, left and right leg, or None where the aeroplane does not stand on just these."""
    by_place = {leg.leg.place: leg for leg in legs}
    if len(legs) != 3 or set(by_place) != {"nose", "left", "right"}:
        return None
    return by_place["nose"], by_place["left"], by_place["right"]


def _values(cg_mm: Floats, contact_mm: Floats) -> Floats:
    """The quantities (V, 3, S) of V variants of the states' CGs (V, S, 3) and contacts (V, 3, 3)."""
    share, _, tip_back, overturn = wheel_arrays(cg_mm, contact_mm)
    return np.stack([100.0 * share[..., 0], tip_back, overturn], axis=1)


def _slopes(cg_mm: Floats, contact_mm: Floats) -> tuple[Floats, Floats]:
    """Slopes (3, S, axis) by the CG's place and (3, S, wheel, axis) by the contacts; central differences."""
    count = 12  # the three axes of the CG, then those of the three wheels
    ends = []
    for by in (-STEP_MM, STEP_MM):
        cg = np.repeat(cg_mm[None], count, axis=0)
        contact = np.repeat(contact_mm[None], count, axis=0)
        for axis in range(3):
            cg[axis, :, axis] += by
            for wheel in range(3):
                contact[3 + 3 * wheel + axis, wheel, axis] += by
        ends.append(_values(cg, contact))
    slope = np.moveaxis((ends[1] - ends[0]) / (2.0 * STEP_MM), 0, -1)
    return slope[..., :3], slope[..., 3:].reshape(*slope.shape[:-1], 3, 3)


def _above_ground(cg_mm: Floats, contact_mm: Floats) -> bool:
    """Whether the CG (3,) or CGs (S, 3) stand over a triangle, and still do a difference's step off."""
    try:
        wheel_figures(cg_mm, contact_mm)
        _slopes(np.atleast_2d(cg_mm), contact_mm)
    except ValueError:
        return False
    return True


def on_wheels(slices: Any, earlier: Any) -> OnWheels | None:
    """Stance of every gear-down state with all three legs on; None where there is none such.

    States whose CG is not above the ground that the contact points make are left out, and `problem`
    says so; likewise where the points make no triangle. Slopes by the CG and the contact points
    are central differences; the CG's own follow the build-up, and a contact point that a weigh-in
    used is the same cause here.
    """
    head: Headline | None = earlier["balance.headline"]
    legs = three_legs(slices.legs)
    if head is None or legs is None:
        return None
    items = {leg.leg.item for leg in legs}
    standing = [
        head.row(state.id)
        for state in slices.states
        if state.gear == "down" and state.id in head.state_ids and not items & set(state.without)
    ]
    if not standing:
        return None
    contact = np.array([[one.value for one in leg.contact] for leg in legs])
    rows = standing
    if not _above_ground(head.cg_mm[standing], contact):
        rows = [row for row in standing if _above_ground(head.cg_mm[row], contact)]
    if not rows:
        none = np.zeros(0)
        return OnWheels((), none, none, none, None, _CONTACTS, _no_figures())
    problem = "" if len(rows) == len(standing) else _CONTACTS
    return _stance(slices, head, legs, contact, rows, problem)


_CONTACTS = (
    "the contact points of the three wheels do not make a triangle on the ground with the CG above it: "
    "see contact_mm of the legs"
)


def _no_figures() -> FigureSet:
    return FigureSet((), np.zeros(0), (), (), np.zeros((0, 0)))


def _stance(
    slices: Any,
    head: Headline,
    legs: Sequence[PlacedLeg],
    contact: Floats,
    rows: list[int],
    problem: str,
) -> OnWheels:
    cg = head.cg_mm[rows]
    inputs, columns = with_contacts(head.inputs, legs)
    values = _values(cg[None], contact[None])[0]
    by_cg, by_contact = _slopes(cg, contact)
    slope = np.zeros((3, len(rows), len(inputs)))
    for axis in range(3):
        slope[..., : len(head.inputs)] += by_cg[..., axis, None] * head.slope[rows, 1 + axis][None]
        for leg in range(3):
            slope[..., columns[leg][axis]] += by_contact[..., leg, axis]
    ids = tuple(head.state_ids[row] for row in rows)
    steps = {
        f"balance.{name}@{state}": (f"balance.cg-x@{state}", f"balance.cg-z@{state}")
        for name, _, _ in QUANTITIES
        for state in ids
    }
    figures = FigureSet(
        tuple(f"balance.{name}@{state}" for name, _, _ in QUANTITIES for state in ids),
        values.reshape(-1),
        tuple(unit for _, unit, _ in QUANTITIES for _ in ids),
        inputs,
        slope.reshape(-1, len(inputs)),
        labels=tuple(f"{label}, {state}" for _, _, label in QUANTITIES for state in ids),
        steps=steps,
        method="statics on three wheels",
    )
    tail = tail_clearance(slices.tail_strike, contact, columns, values[1], slope[1], figures, ids)
    return OnWheels(
        ids, values[0], values[1], values[2], tail.strike_deg, problem or tail.problem, tail.figures
    )


def with_contacts(
    inputs: tuple[Input, ...], legs: Sequence[PlacedLeg]
) -> tuple[tuple[Input, ...], list[list[int]]]:
    """The inputs with the legs' contact points among them once each, and their columns [leg][axis]."""
    known = {one.address: column for column, one in enumerate(inputs)}
    found = list(inputs)
    columns = []
    for leg in legs:
        columns.append([known.setdefault(one.address, len(known)) for one in leg.contact])
        found += [one for one in leg.contact if known[one.address] >= len(found)]
    return tuple(found), columns
