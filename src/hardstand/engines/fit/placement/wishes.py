"""What is wished for beside short leads: balance, the gyro's place, aerials, access for hands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from hardstand.asbuilt.value import AsBuilt
from hardstand.engines.balance.model import Headline
from hardstand.engines.fit.layout.problem import Apart, Balance, Centred, ItemPort, Lead
from hardstand.engines.fit.placement import prices
from hardstand.engines.fit.placement.grid import SHIFT_MM
from hardstand.engines.fit.placement.leads import on_grid
from hardstand.engines.fit.placement.parts import Shape


@dataclass(frozen=True, slots=True)
class Target:
    """The CG that is aimed at in one state, and what is aboard then: masses g, places mm."""

    state: str
    mass_g: float
    cg_mm: tuple[float, float]
    wanted_mm: tuple[float, float]
    mark_x_mm: float
    low_mm: float
    high_mm: float


def target_of(asbuilt: AsBuilt, head: Headline | None) -> Target | None:
    """The CG wished for: the middle of the target, else of the range, in the state it is meant for."""
    table, mark = asbuilt.aeroplane, asbuilt.cg_mark
    if head is None or mark is None:
        return None
    for wanted, state in (
        (table.cg_target_mm, table.cg_target_state),
        (table.cg_range_mm, table.cg_range_state),
    ):
        if wanted is not None and state in head.state_ids:
            row = head.row(str(state))
            x, y = float(head.cg_mm[row, 0]), float(head.cg_mm[row, 1])
            middle = mark[0].value + (wanted[0] + wanted[1]) / 2.0
            mass = float(head.mass_g[row])
            return Target(str(state), mass, (x, y), (middle, 0.0), mark[0].value, *wanted)
    return None


def balances(
    target: Target | None, shapes: Mapping[str, Shape], masses_g: Mapping[str, int]
) -> tuple[Balance, ...]:
    """The moments of the items that move at which the CG is where it is wished for."""
    if target is None or not shapes:
        return ()
    total = sum(masses_g.values())
    found = []
    for k, axis, price in ((0, "x", prices.CG_X), (1, "y", prices.CG_Y)):
        now = sum(masses_g[one] * shape.item.centre_mm[k] for one, shape in shapes.items())
        missing = (target.wanted_mm[k] - target.cg_mm[k]) * target.mass_g
        weight = max(1, round(prices.POINTS * price / target.mass_g))
        moment = round(now + missing + SHIFT_MM * total)
        found.append(Balance("x" if axis == "x" else "y", moment, weight))
    return tuple(found)


def centred(shapes: Mapping[str, Shape]) -> tuple[Centred, ...]:
    """Gyros on the centreline."""
    weight = prices.points(prices.GYRO_OFF)
    return tuple(
        Centred(one, SHIFT_MM, weight) for one, shape in shapes.items() if shape.item.kind == "gyro"
    )


def apart(shapes: Mapping[str, Shape], asbuilt: AsBuilt) -> tuple[Apart, ...]:
    """Receivers whose aerials are not described as far apart as aerials have to be."""
    described = {row.item for row in asbuilt.antennas}
    receivers = [
        one
        for one, shape in shapes.items()
        if shape.item.kind == "receiver" and one not in described
    ]
    distance = round(asbuilt.limits["fit.aerial-apart"].low or 0.0)
    weight = prices.points(prices.APART)
    return tuple(Apart(pair, distance, weight) for pair in combinations(receivers, 2))


def links(
    shapes: Mapping[str, Shape], asbuilt: AsBuilt, target: Target | None, head: Headline | None
) -> tuple[Lead, ...]:
    """Wishes to be near a point, as leads from an item's middle: `access.`, `aerial.`, `gyro.` ids."""
    found: list[Lead] = []
    hatches = {row.id: row for row in asbuilt.hatches}
    for one, shape in shapes.items():
        z = shape.item.centre_mm[2]
        hatch = hatches.get(shape.item.through or "")
        if hatch is not None:
            x, y = _middle(hatch.outline_mm)
            found.append(_link("access", one, (x, y, z), prices.ACCESS))
        if shape.item.kind == "gyro" and shape.item.part.has_accelerometer and target and head:
            at = head.cg_mm[head.row(target.state)]
            found.append(
                _link("gyro", one, (float(at[0]), float(at[1]), float(at[2])), prices.GYRO_FROM_CG)
            )
    for row in asbuilt.antennas:
        if row.item in shapes:
            way = np.array(row.direction) / np.linalg.norm(row.direction)
            x, y, z = (float(v) for v in np.array(row.tip_mm) - row.length_mm * way)
            name = f"{row.item}.{row.id}"
            lead = _link("aerial", row.item, (x, y, z), float(prices.LEAD_WEIGHTS["aerial"]))
            found.append(Lead(f"aerial.{name}", lead.start, lead.end, lead.weight))
    return tuple(found)


def _link(what: str, item: str, at_mm: tuple[float, float, float], price: float) -> Lead:
    return Lead(f"{what}.{item}", ItemPort(item), on_grid(at_mm), prices.points(price))


def _middle(outline_mm: Sequence[tuple[float, float]]) -> tuple[float, float]:
    corners = np.array(outline_mm)
    x, y = (corners.min(axis=0) + corners.max(axis=0)) / 2.0
    return float(x), float(y)
