"""Node: gyros: alignment with the axes, distance to centreline, CG and what shakes."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.engines.balance.model import Headline
from hardstand.engines.fit.collected import Collected
from hardstand.engines.fit.follow_table import follow_table
from hardstand.engines.fit.item_frame import ItemFrame, item_frame
from hardstand.engines.fit.measured_pairs import measured
from hardstand.engines.fit.model import Check, Gap, Gyros
from hardstand.engines.fit.piece import Piece, Solids
from hardstand.figures import Input

SHAKES = ("turbine", "pump")
ABOUT_AXES = ("roll", "pitch", "yaw")


def gyros(slices: Any, earlier: Any) -> Gyros:
    """Checks on every item of kind gyro. slices: items, trays, aeroplane."""
    solids: Solids = earlier["fit.solids"]
    tops = {tray.id: tray.top_z_mm for tray in slices.trays}
    found, gaps = Collected("plain geometry"), list[Gap]()
    for item in sorted(slices.items, key=lambda one: one.id):
        if item.kind != "gyro":
            continue
        frame = item_frame(item, tops.get(item.on or ""))
        _alignment(found, gaps, item)
        _centreline(found, frame)
        if item.part.has_accelerometer:
            _from_cg(found, gaps, frame, earlier["balance.headline"], slices)
        nearest(found, solids, item.id, SHAKES, "gyro-engine")
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


def nearest(
    found: Collected, solids: Solids, item_id: str, kinds: tuple[str, ...], slug: str
) -> None:
    """Add the distance from an item's solid to the nearest of each kind of other items."""
    own = [k for k in solids.of_role("item") if solids.pieces[k].owner.id == item_id]
    others = [
        k
        for k in solids.of_role("item")
        if solids.pieces[k].owner.kind in kinds and solids.pieces[k].owner.id != item_id
    ]
    pieces = solids.pieces
    add_nearest(found, [pieces[k] for k in own], [pieces[k] for k in others], slug)


def add_nearest(found: Collected, own: list[Piece], others: list[Piece], slug: str) -> None:
    """Add the distance from some pieces to each other subject, nearest pieces of it."""
    pieces = [*own, *others]
    pairs = [(i, len(own) + j) for i in range(len(own)) for j in range(len(others))]
    if not pairs:
        return
    a, b = (np.array(side, dtype=np.intp) for side in zip(*pairs, strict=True))
    gaps = measured([piece.body for piece in pieces], a, b)
    table = follow_table(pieces)
    slope = table.slopes(a, b, gaps.normal)
    best: dict[tuple[str, str], int] = {}
    for row in np.argsort(gaps.distance_mm, kind="stable").tolist():
        best.setdefault((pieces[a[row]].subject, pieces[b[row]].subject), row)
    for (one, other), row in sorted(best.items()):
        first, second = pieces[a[row]].owner, pieces[b[row]].owner
        found.add(
            Check(slug, f"fit.{slug}", (first.id, second.id), f"fit.{slug}@{one}+{other}"),
            float(gaps.distance_mm[row]),
            f"distance, {first.name} to {second.name}",
            {table.inputs[k]: float(slope[row, k]) for k in np.flatnonzero(slope[row])},
        )
