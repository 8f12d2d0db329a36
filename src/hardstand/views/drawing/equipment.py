"""Items in model millimetres: their boxes in each view, the faces with ports, the room of their plugs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Any, Protocol

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.parts import Face
from hardstand.standards.rotation import rotation
from hardstand.views.drawing.hull import Floats, box_corners, cut, seen, tube_corners
from hardstand.views.drawing.shapes import Group, Hatched, Path, Shape, area, line

# The axis a face looks along, in the part's own axes, and its sense.
OUTWARD: Mapping[Face, tuple[int, float]] = {
    "front": (0, -1.0), "back": (0, 1.0), "left": (1, -1.0), "right": (1, 1.0),
    "top": (2, 1.0), "bottom": (2, -1.0),
}  # fmt: skip
TOWARD_VIEWER = {"plan": "top", "elevation": "left", "section": "front"}
_PITCH_MM, _INSET_MM, _CONTACT_MM = 3.4, 1.6, 1.6  # of the row of contacts that marks a face


class Solid(Protocol):
    """What this needs of a solid of the fit engine."""

    centre_mm: Floats
    rotation: Floats
    half_mm: Floats


@lru_cache(maxsize=4096)
def _corners(shape: str, size_mm: tuple[float, float, float]) -> Floats:
    if shape == "box":
        return box_corners(np.array(size_mm) / 2.0)
    return tube_corners(0, size_mm[0] / 2.0, max(size_mm[1:]) / 2.0)


def corners(item: PlacedItem) -> Floats:
    """The corners of an item's box, or points on the rims of its cylinder, (V, 3), in mm."""
    own = _corners(item.part.shape, item.size_mm)
    return np.asarray(item.centre_mm + own @ rotation(item.turn_deg, item.tilt_deg).T)


def described(item: PlacedItem) -> str:
    """An item in words: name, size, station."""
    size = " × ".join(f"{one:g}" for one in item.size_mm)
    x, y, z = (f"{one:g}".replace("-", "−") for one in item.centre_mm)
    return f"{item.name}: {size} mm, middle at x {x}, y {y}, z {z}"


def item_group(item: PlacedItem, view: str, *, selected: bool, ports: bool) -> Group:
    """An item as it is seen in a view. `ports` marks the faces that have ports in use."""
    shapes: list[Shape] = [area("selected" if selected else "item", seen(corners(item), view))]
    if ports:
        shapes += [row for face in item.faces_used() for row in _contacts(item, face, view)]
    return Group(f"item.{item.id}", view, tuple(shapes), described(item))


def item_cut(item: PlacedItem, x_mm: float, *, selected: bool, rising: bool) -> Group | None:
    """An item where the plane at a station cuts it, hatched; None where it does not."""
    outline = cut(corners(item), x_mm)
    if len(outline) < 3:
        return None
    shapes = (area("selected" if selected else "item", outline), Hatched(outline, rising))
    return Group(f"item.{item.id}", "section", shapes, described(item))


def _contacts(item: PlacedItem, face: Face, view: str) -> list[Shape]:
    """A row of contacts just inside the edge of a face that is seen from its side."""
    axis, sense = OUTWARD[face]
    turn = rotation(item.turn_deg, item.tilt_deg)
    half = np.array(item.size_mm) / 2.0
    flat = half.copy()
    flat[axis] = 0.0
    middle = np.zeros(3)
    middle[axis] = sense * (half[axis] - _INSET_MM)
    edge = seen(np.asarray(item.centre_mm + (box_corners(flat) + middle) @ turn.T), view)
    if len(edge) != 2:  # the face looks at the viewer, or is tilted
        return []
    (u0, v0), (u1, v1) = edge
    long = float(np.hypot(u1 - u0, v1 - v0))
    du, dv = (u1 - u0) / long, (v1 - v0) / long
    count = int((long - _PITCH_MM) // _PITCH_MM)
    first = (long - (count - 1) * _PITCH_MM) / 2.0
    strokes = []
    for number in range(count):
        a = first + number * _PITCH_MM - _CONTACT_MM / 2.0
        square = ((a, -0.8), (a + _CONTACT_MM, -0.8), (a + _CONTACT_MM, 0.8), (a, 0.8))
        strokes.append(tuple((u0 + s * du - t * dv, v0 + s * dv + t * du) for s, t in square))
    return [Path("solid", tuple(strokes), closed=True)] if strokes else []


def plug_groups(items: Iterable[PlacedItem], solids: Any, view: str) -> dict[str, list[Group]]:
    """The room of plugs in a view, by item, from the fit engine's zones; none where it did not run.

    A thin line across shows where the plug ends and the bend of its lead begins.
    """
    by_id = {one.id: one for one in items}
    found: dict[str, list[Group]] = {}
    for piece in getattr(solids, "pieces", ()):
        item = by_id.get(piece.owner.id)
        if piece.role != "zone" or item is None:
            continue
        face: Face = piece.subject.rpartition(".")[2]
        shapes = _room(item, face, piece.body, view)
        found.setdefault(item.id, []).append(Group(f"item.{item.id}", f"{view}-plug", shapes))
    return found


def _room(item: PlacedItem, face: Face, body: Solid, view: str) -> tuple[Shape, ...]:
    outline = seen(body.centre_mm + box_corners(body.half_mm) @ body.rotation.T, view)
    axis, sense = OUTWARD[face]
    ports = [one.port for one in item.ports if one.used and one.port.face == face]
    deepest = max(ports, key=lambda port: port.plug_mm + port.bend_mm)
    flat, middle = body.half_mm.copy(), np.zeros(3)
    flat[axis] = 0.0
    middle[axis] = sense * (deepest.plug_mm - body.half_mm[axis])
    end = seen(body.centre_mm + (box_corners(flat) + middle) @ body.rotation.T, view)
    split = (line("plug", *end),) if len(end) == 2 and deepest.bend_mm > 0.0 else ()
    return (area("plug", outline), *split)
