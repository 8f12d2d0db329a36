"""Where a port is: the middle of its row of plugs on the face of its box, in the aeroplane's axes."""

from __future__ import annotations

from hardstand.asbuilt.value import PlacedItem
from hardstand.standards.rotation import turned

OUT = {"front": (-1, 0, 0), "back": (1, 0, 0), "left": (0, -1, 0), "right": (0, 1, 0),
        "top": (0, 0, 1), "bottom": (0, 0, -1)}  # fmt: skip


def port_point_mm(item: PlacedItem, name: str) -> tuple[float, float, float] | None:
    """The middle of the face that a port is on, x, y, z in mm; None where there is no such port.

    Assumes that the row lies in the middle of its face, which is wrong by half a face at most.
    """
    port = next((one.port for one in item.ports if one.name == name), None)
    if port is None:
        return None
    out = OUT[port.face]
    half = tuple(side / 2.0 * way for side, way in zip(item.size_mm, out, strict=True))
    dx, dy, dz = turned((half[0], half[1], half[2]), item.turn_deg, item.tilt_deg)
    x, y, z = item.centre_mm
    return x + dx, y + dy, z + dz
