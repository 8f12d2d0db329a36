"""Where a port is: the middle of its row of plugs on the face of its box, in the aeroplane's axes."""

from __future__ import annotations

from collections.abc import Iterable

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.network import Joint
from hardstand.description.parts import Face
from hardstand.standards.rotation import turned

OUT = {"front": (-1, 0, 0), "back": (1, 0, 0), "left": (0, -1, 0), "right": (0, 1, 0),
        "top": (0, 0, 1), "bottom": (0, 0, -1)}  # fmt: skip


def places_mm(
    items: Iterable[PlacedItem], joints: Iterable[Joint]
) -> dict[str, tuple[float, float, float] | None]:
    """The places of the ends of items and joints, by end, x, y, z in mm; None where none is given."""
    found: dict[str, tuple[float, float, float] | None] = {}
    for item in items:
        by_face = {face: _middle_mm(item, face) for face in {one.port.face for one in item.ports}}
        found |= {f"{item.id}.{one.name}": by_face[one.port.face] for one in item.ports}
    for joint in joints:
        found |= dict.fromkeys(ends_of_joint(joint), joint.at_mm)
    return found


def ends_of_joint(joint: Joint) -> list[str]:
    """The ends of a joint: its ways, or the joint itself."""
    return [f"{joint.id}.{way}" for way in joint.ways] or [joint.id]


def _middle_mm(item: PlacedItem, face: Face) -> tuple[float, float, float]:
    """The middle of a face. Assumes that the row lies there: wrong by half a face at most."""
    out = OUT[face]
    half = tuple(side / 2.0 * way for side, way in zip(item.size_mm, out, strict=True))
    dx, dy, dz = turned((half[0], half[1], half[2]), item.turn_deg, item.tilt_deg)
    x, y, z = item.centre_mm
    return x + dx, y + dy, z + dz
