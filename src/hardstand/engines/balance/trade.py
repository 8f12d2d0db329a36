"""Node: what moves the CG of the judged state, what to weigh next, and the ways out, best first."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.changes import AddRow
from hardstand.engines.balance.judged import Judged, judged_state
from hardstand.engines.balance.model import Headline, MassTable, Trade, WayOut
from hardstand.engines.balance.uncertainty import next_measurement
from hardstand.engines.balance.ways import ballast, parallel, slides
from hardstand.engines.balance.ways_packs import packs

ACHIEVABLE = {"g": 1.0, "mm": 0.5}  # standard uncertainty of one careful weighing or measuring
NEXT = 5


def trade(slices: Any, earlier: Any) -> Trade | None:
    """Sensitivities of the judged state's CG (the first state where none is judged) and ways out."""
    table: MassTable | None = earlier["balance.masses"]
    head: Headline | None = earlier["balance.headline"]
    if table is None or head is None:
        return None
    judged = judged_state(slices, head)
    row = judged.row if judged else 0
    slope = head.slope[row, 1]
    u = np.array([one.u for one in head.inputs])
    can = np.array(
        [
            ACHIEVABLE.get(one.unit, np.inf) if one.kind != "measured" else np.inf
            for one in head.inputs
        ]
    )
    after = next_measurement(slope, u, np.where(np.isfinite(can), can, u))
    best = tuple(
        (head.inputs[i].address, float(after.u_after[i]))
        for i in after.order[:NEXT]
        if after.variance_removed[i] > 0.0
    )
    per_10g = {
        point.id: 10.0 * (point.at[0].value - float(head.cg_mm[row, 0])) / float(head.mass_g[row])
        for point in slices.masses
    }
    ways = tuple(_ways(slices, judged)) if judged is not None else ()
    return Trade(head.state_ids[row] if judged else None, per_10g, best, after.u_now, ways)


def _ways(slices: Any, judged: Judged) -> list[WayOut]:
    masses = {point.id: point for point in slices.masses if point.table == "item"}
    pack_items = [item for item in slices.items if item.kind == "pack"]
    groups = parallel(pack_items, slices.leads)
    movable = [*pack_items, *(item for item in slices.items if item.kind != "pack")]
    found = [
        *slides(movable, masses, groups, judged),
        *packs(pack_items, masses, slices, groups, judged),
        *ballast(slices.ballast_places, judged),
    ]
    found = [way for way in found if way.changes]
    goal = judged.goal_mm - judged.mark_mm
    return sorted(found, key=lambda way: _preference(way, goal))


def _preference(way: WayOut, goal_mm: float) -> tuple[object, ...]:
    """Order of ways: reaching range, then target; no ballast; nothing given up; little to change."""
    return (
        not way.reaches_range,
        not way.reaches_target,
        any(isinstance(change, AddRow) for change in way.changes),
        way.charge_lost_mah,
        max(way.added_g, 0.0),
        len(way.changes),
        abs(way.cg_mm - goal_mm),
    )
