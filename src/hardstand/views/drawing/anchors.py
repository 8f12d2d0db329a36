"""Where the ids that findings speak of lie in the aeroplane, in mm."""

from __future__ import annotations

import numpy as np

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.description.places import KeepOut
from hardstand.engines.balance.model import Headline

Triple = tuple[float, float, float]


def cg_point(assessment: Assessment, state: str) -> Triple | None:
    """The CG of a state, None where it was not worked out."""
    headline: Headline | None = assessment.results.get("balance.headline")
    if headline is None or state not in headline.state_ids:
        return None
    x, y, z = (float(one) for one in headline.cg_mm[headline.row(state)])
    return x, y, z


def judged_state(asbuilt: AsBuilt) -> str | None:
    """The state whose CG is drawn: that of the range, else the first described."""
    if asbuilt.aeroplane.cg_range_state is not None:
        return asbuilt.aeroplane.cg_range_state
    return asbuilt.states[0].id if asbuilt.states else None


def neutral_point_mm(assessment: Assessment) -> float | None:
    """Station of the neutral point, None where it was not worked out."""
    try:
        return assessment.figure("balance.neutral-point@wing").value
    except KeyError:
        return None


def anchors(asbuilt: AsBuilt, assessment: Assessment) -> dict[str, Triple]:
    """A point for every id that has a place; where two tables share an id, the item's."""
    found: dict[str, Triple] = {}
    for state in asbuilt.states:
        point = cg_point(assessment, state.id)
        if point is not None:
            found[state.id] = point
    for mass in asbuilt.masses:
        x, y, z = (one.value for one in mass.at)
        found[mass.id] = (x, y, z)
    for panel in asbuilt.panels:
        found[panel.id] = _middle([panel.root_mm, panel.tip_mm])
    for tray in asbuilt.trays:
        found[tray.id] = (*tray.outline_mm[0], tray.top_z_mm)
    for hatch in asbuilt.hatches:
        found[hatch.id] = (*hatch.outline_mm[0], 0.0)
    for row in asbuilt.keep_outs:
        found[row.id] = _of_keep_out(row)
    for leg in asbuilt.legs:
        found[leg.id] = leg.leg.pivot_mm
    found |= {item.id: item.centre_mm for item in asbuilt.items}
    for tank in asbuilt.tanks:
        x, y, z = (one.value for one in tank.centre)
        found.setdefault(tank.id, (x, y, z))
    return found


def _of_keep_out(row: KeepOut) -> Triple:
    if row.at_mm is not None:
        return row.at_mm
    if row.from_mm is not None and row.to_mm is not None:
        return _middle([row.from_mm, row.to_mm])
    if row.outline_mm is not None:
        return _middle([(x, y, row.top_mm or 0.0) for x, y in row.outline_mm])
    assert row.profile_mm is not None  # the only shape left is the underside
    assert row.y_mm is not None
    return _middle([(x, sum(row.y_mm) / 2.0, z) for x, z in row.profile_mm])


def _middle(points: list[Triple]) -> Triple:
    x, y, z = np.mean(np.array(points), axis=0)
    return float(x), float(y), float(z)
