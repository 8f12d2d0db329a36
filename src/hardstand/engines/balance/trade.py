"""Node: what moves the CG of the judged state, what to weigh next, and the ways out, best first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from hardstand.changes import AddRow
from hardstand.engines.balance.judged import Judged, judged_states, to_mend
from hardstand.engines.balance.model import Headline, MassTable, Trade, WayOut
from hardstand.engines.balance.next_weighing import next_single, whole_weighed_u_mm
from hardstand.engines.balance.pareto import pareto_front
from hardstand.engines.balance.ways import ballast, parallel, slides
from hardstand.engines.balance.ways_packs import packs


def trade(slices: Any, earlier: Any) -> Trade | None:
    """Sensitivities of the judged state's CG (the first state where none is judged) and ways out."""
    table: MassTable | None = earlier["balance.masses"]
    head: Headline | None = earlier["balance.headline"]
    if table is None or head is None:
        return None
    judged = to_mend(judged_states(slices, head))
    row = judged.row if judged else 0
    best, u_now = next_single(head, row)
    per_10g = {
        point.id: 10.0 * (point.at[0].value - float(head.cg_mm[row, 0])) / float(head.mass_g[row])
        for point in slices.masses
    }
    ways = tuple(_ways(slices, judged)) if judged is not None else ()
    return Trade(
        head.state_ids[row] if judged else None,
        per_10g,
        best,
        u_now,
        ways,
        whole_weighed_u_mm(head, row, slices.legs),
        front_of(ways),
    )


def _ways(slices: Any, judged: Judged) -> list[WayOut]:
    """All ways with what is on board in the judged state; what is off there moves nothing."""
    state = next(one for one in slices.states if one.id == judged.state_id)
    masses = {point.id: point for point in slices.masses if point.table == "item"}
    items = [item for item in slices.items if item.id not in state.without]
    pack_items = [item for item in items if item.kind == "pack"]
    groups = parallel(pack_items, slices.leads)
    movable = [*pack_items, *(item for item in items if item.kind != "pack")]
    found = [
        *slides(movable, masses, groups, judged),
        *packs(pack_items, masses, slices, groups, judged),
        *ballast(slices.ballast_places, slices.masses, judged),
    ]
    # the search over packs also finds what sliding alone does
    different = {
        repr(sorted(map(repr, way.changes))): way for way in reversed(found) if way.changes
    }
    return sorted(different.values(), key=_preference)


def _preference(way: WayOut) -> tuple[object, ...]:
    """Order of ways: reaching range, then target; no ballast; nothing given up; little to change."""
    return (
        not way.reaches_range,
        not way.reaches_target,
        any(isinstance(change, AddRow) for change in way.changes),
        way.charge_lost_mah,
        max(way.added_g, 0.0),
        len(way.changes),
        way.distance_mm,
    )


def front_of(ways: Sequence[WayOut]) -> tuple[int, ...]:
    """The numbers of the ways that no other beats in all of what they cost.

    Ways that stay out of the range count only where none reaches it.
    """
    if not ways:
        return ()
    cost = np.array(
        [
            [way.distance_mm, max(way.added_g, 0.0), way.charge_lost_mah, len(way.changes)]
            for way in ways
        ]
    ).round(3)
    reaches = np.array([way.reaches_range for way in ways])
    if reaches.any():
        cost[~reaches] = np.inf
    return tuple(int(number) for number in np.flatnonzero(pareto_front(cost)))
