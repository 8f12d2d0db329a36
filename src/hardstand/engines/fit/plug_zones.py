"""The room that plugs take in front of each face with ports in use, bend of the lead included."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.parts import Face, Port
from hardstand.engines.fit.body import Floats, checked_body
from hardstand.engines.fit.item_frame import ItemFrame
from hardstand.engines.fit.item_solids import ELECTRIC_PORTS
from hardstand.engines.fit.piece import Owner, Piece

DEFAULT_HEIGHT_MM = 10.0
# The axis a face looks along and its sense, the axis of a row's width, and the axis and sense along
# which its height is counted: upward from the base on a side, forward from the aft edge on top.
FACES: dict[Face, tuple[int, float, int, int, float]] = {
    "front": (0, -1.0, 1, 2, 1.0),
    "back": (0, 1.0, 1, 2, 1.0),
    "left": (1, -1.0, 0, 2, 1.0),
    "right": (1, 1.0, 0, 2, 1.0),
    "top": (2, 1.0, 1, 0, -1.0),
    "bottom": (2, -1.0, 1, 0, -1.0),
}


@dataclass(frozen=True, slots=True)
class Stretch:
    """One stretch of a face that plugs take: `width_mm` None where it is the whole face's width."""

    face: Face
    base_mm: float
    width_mm: float | None
    height_mm: float
    depth_mm: float
    electric: bool


def stretches(item: PlacedItem) -> list[Stretch]:
    """The stretches of an item's faces that plugs in use take.

    Rows of ports on one face and base that fit side by side are taken side by side, in whatever
    order, so if one is in use the whole stretch is; rows too wide for that are the same stretch.
    The depth is the deepest plug and bend among those in use.
    """
    rows: dict[tuple[Face, float], dict[str, Port]] = {}
    used: dict[tuple[Face, float], dict[str, Port]] = {}
    for one in item.ports:
        key = (one.port.face, one.port.row_base_mm)
        rows.setdefault(key, {})[one.port.id] = one.port
        if one.used:
            used.setdefault(key, {})[one.port.id] = one.port
    found = []
    for (face, base), ports in used.items():
        face_width = item.size_mm[FACES[face][2]]
        known = [port.row_mm for port in rows[face, base].values()]
        given = [row for row in known if row is not None]
        together = sum(row[0] for row in given)
        widest = max((row[0] for row in given), default=0.0)
        whole = len(given) < len(known)
        width = together if together <= face_width else widest
        height = max([row[1] for row in given] + ([DEFAULT_HEIGHT_MM] if whole else []))
        depth = max(port.plug_mm + port.bend_mm for port in ports.values())
        electric = any(port.kind in ELECTRIC_PORTS for port in ports.values())
        found.append(Stretch(face, base, None if whole else width, height, depth, electric))
    return found


def zone_pieces(frame: ItemFrame, owner: Owner) -> list[Piece]:
    """The room of each stretch as a box outward from its face; none where nothing is plugged in."""
    found = []
    for one in stretches(frame.item):
        if one.depth_mm <= 0.0:
            continue
        offset, half, by_offset, by_half = _zone(frame.item, one)
        body = checked_body("box", frame.centre(offset), frame.rotation, half, (), 0.0)
        follows = frame.follows(by_offset, by_half)
        subject = f"{frame.item.id}.{one.face}"
        found.append(Piece(body, "zone", owner, subject, follows, one.electric))
    return found


def _zone(item: PlacedItem, one: Stretch) -> tuple[Floats, Floats, Floats, Floats]:
    """Middle and half size of a zone in the item's own axes, and how both follow its sizes."""
    axis, sense, across, up, rising = FACES[one.face]
    size = np.array(item.size_mm)
    offset, half = np.zeros(3), np.zeros(3)
    by_offset, by_half = np.zeros((3, 3)), np.zeros((3, 3))
    offset[axis] = sense * (size[axis] + one.depth_mm) / 2.0
    by_offset[axis, axis] = sense / 2.0
    height = min(one.height_mm, size[up])
    offset[up] = rising * (one.base_mm + height / 2.0 - size[up] / 2.0)
    by_offset[up, up] = -rising / 2.0
    half[axis], half[up] = one.depth_mm / 2.0, height / 2.0
    half[across] = (size[across] if one.width_mm is None else one.width_mm) / 2.0
    if one.width_mm is None:
        by_half[across, across] = 0.5
    return offset, half, by_offset, by_half


def port_point_mm(frame: ItemFrame, port_name: str) -> Floats | None:
    """The middle of the stretch of face that a port is in (3,), or None with no such port."""
    item = frame.item
    port = next((one.port for one in item.ports if one.name == port_name), None)
    if port is None:
        return None
    for one in stretches(item):
        if (one.face, one.base_mm) == (port.face, port.row_base_mm):
            offset = _zone(item, one)[0]
            axis, sense = FACES[one.face][:2]
            offset[axis] -= sense * one.depth_mm / 2.0
            return frame.centre(offset)
    return None
