"""Node: gyros: alignment with the axes, distance to centreline, CG and what shakes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.model import Check, Gap, Gyros
from hardstand.engines.fit.nearest import add_nearest
from hardstand.engines.fit.piece import Solids
from hardstand.figures import Input

if TYPE_CHECKING:
    from hardstand.engines.balance.model import Headline

SHAKES = ("turbine", "pump")
ABOUT_AXES = ("roll", "pitch", "yaw")


def gyros(slices: Any, earlier: Any) -> Gyros:
    """Checks on every item of kind gyro. slices: aeroplane."""
    solids: Solids = earlier["fit.solids"]
    found, gaps = Collected("plain geometry"), list[Gap]()
    pieces = [solids.pieces[k] for k in solids.of_role("item")]
    shaking = [one for one in pieces if one.owner.kind in SHAKES]
    asked = []
    for item, frame in ((one.item, one) for one in solids.frames.values()):
        if item.kind != "gyro":
            continue
        _alignment(found, gaps, item)
        _centreline(found, frame)
        if item.part.has_accelerometer:
            _from_cg(found, gaps, frame, earlier["balance.headline"], slices)
        own = [one for one in pieces if one.owner.id == item.id]
        asked.append(("gyro-engine", own, shaking))
    add_nearest(found, asked)
    return Gyros(found.figures(), tuple(found.checks), tuple(gaps))


def _alignment(found: Collected, gaps: list[Gap], item: PlacedItem) -> None:
    if item.misalignment is None:
        text = (
            f"How far {item.name}'s axes are off the aeroplane's is not stated: measure roll, pitch "
            "and yaw with a square or an inclinometer and give misalignment_deg."
        )
        gaps.append(Gap("gyro-alignment", (item.id,), text))
        return
    worst = int(np.argmax([abs(one.value) + 2.0 * one.u for one in item.misalignment]))
    one = item.misalignment[worst]
    found.add(
        Check(
            "gyro-alignment",
            "fit.gyro-alignment",
            (item.id,),
            f"fit.gyro-alignment@{item.id}",
            (ABOUT_AXES[worst],),
        ),
        abs(one.value),
        f"misalignment in {ABOUT_AXES[worst]}, {item.name}",
        {one: float(np.sign(one.value)) or 1.0},
        "deg",
    )


def _centreline(found: Collected, frame: ItemFrame) -> None:
    item = frame.item
    side = 1.0 if item.centre_mm[1] >= 0.0 else -1.0
    found.add(
        Check(
            "gyro-centreline",
            "fit.gyro-centreline",
            (item.id,),
            f"fit.gyro-centreline@{item.id}",
            station_mm=item.centre_mm[0],
        ),
        abs(item.centre_mm[1]),
        f"distance from the centreline, {item.name}",
        {one: side * float(way[1]) for one, way in frame.places if way[1] != 0.0},
    )


def _from_cg(
    found: Collected, gaps: list[Gap], frame: ItemFrame, head: Headline | None, slices: Any
) -> None:
    """Distance of an accelerometer from the CG of the state that the CG range belongs to."""
    item = frame.item
    if head is None or not head.state_ids:
        text = f"Without a computed CG the distance of {item.name} from it is not known."
        gaps.append(Gap("gyro-cg", (item.id,), text))
        return
    state = slices.aeroplane.cg_range_state
    row = head.row(state) if state in head.state_ids else 0
    away = np.array(item.centre_mm) - head.cg_mm[row]
    distance = float(np.linalg.norm(away))
    way = away / distance if distance > 0.0 else np.array([1.0, 0.0, 0.0])
    slopes: dict[Input, float] = {}
    for one, moves in frame.places:
        slopes[one] = float(way @ moves)
    for column, one in enumerate(head.inputs):
        by_cg = float(-way @ head.slope[row, 1:4, column])
        if by_cg != 0.0:
            slopes[one] = slopes.get(one, 0.0) + by_cg
    address = f"fit.gyro-cg@{item.id}"
    found.add(
        Check("gyro-cg", "fit.gyro-cg", (item.id,), address, (head.state_ids[row],)),
        distance,
        f"distance from the CG, {item.name}",
        slopes,
        steps=tuple(f"balance.cg-{axis}@{head.state_ids[row]}" for axis in "xyz"),
    )
