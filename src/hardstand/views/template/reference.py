"""What is only shown: where items stand, the faces of their ports, middles and numbers of openings."""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.description.parts import Face
from hardstand.standards.rotation import rotation
from hardstand.views.drawing.equipment import OUTWARD, corners
from hardstand.views.drawing.hull import box_corners, seen
from hardstand.views.template.value import Mark, Point, Ring, Round, Slot, Stroke, Word

if TYPE_CHECKING:
    from shapely import Polygon

_INSET, PAD_MM, _CROSS, _APART, _INNER = 1.5, 3.0, 2.0, 3.2, 3.0


def item_marks(item: PlacedItem) -> Iterator[Mark]:
    """An item's outline from above, a second line inside each face with ports in use, its name."""
    about = f"item.{item.id}"
    outline = seen(corners(item), "plan")
    yield Ring("reference", about, outline)
    for face in item.faces_used():
        edge = _face_line(item, face)
        if edge is not None:
            yield Stroke("reference", about, edge)
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    middle = ((max(xs) + min(xs)) / 2.0, (max(ys) + min(ys)) / 2.0)
    yield Word("reference", about, middle, item.name, max(wide, high) - PAD_MM, upright=high > wide)


def _face_line(item: PlacedItem, face: Face) -> tuple[Point, ...] | None:
    """A line just inside a face that is seen from its side; None where it looks up or down."""
    axis, sense = OUTWARD[face]
    half = np.array(item.size_mm) / 2.0
    flat, middle = half.copy(), np.zeros(3)
    flat[axis] = 0.0
    middle[axis] = sense * (half[axis] - _INSET)
    turn = rotation(item.turn_deg, item.tilt_deg)
    edge = seen(np.asarray(item.centre_mm + (box_corners(flat) + middle) @ turn.T), "plan")
    return edge if len(edge) == 2 else None


def centre_marks(cut: Ring | Round | Slot) -> Iterator[Stroke]:
    """A cross through the middle of a round opening, and through both ends of a slot."""
    if isinstance(cut, Round):
        yield from _cross(cut.about, cut.centre, cut.diameter / 2.0 + _CROSS)
    elif isinstance(cut, Slot):
        for end in (cut.start, cut.end):
            yield from _cross(cut.about, end, cut.width / 2.0 + 1.0)


def _cross(about: str, at: Point, reach: float) -> Iterator[Stroke]:
    x, y = at
    yield Stroke("reference", about, ((x - reach, y), (x + reach, y)))
    yield Stroke("reference", about, ((x, y - reach), (x, y + reach)))


def number_marks(
    shapes: Sequence[tuple[str, Polygon]], plate: Polygon, inside: Container[str]
) -> Iterator[Word]:
    """The number of each opening: in the middle of those `inside`, if they are large enough for it.

    Beside the others, on the plate and off the other openings where that can be.
    """
    from shapely import Point as Spot
    from shapely import unary_union

    every = unary_union([shape for _, shape in shapes])
    for number, (about, shape) in enumerate(shapes, 1):
        inner = shape.buffer(-_INNER)
        if not inner.is_empty and about in inside:
            spot = inner.representative_point()
            yield Word("reference", about, (spot.x, spot.y), str(number), 12.0)
            continue
        low_x, low_y, high_x, high_y = shape.bounds
        x, y = (low_x + high_x) / 2.0, (low_y + high_y) / 2.0
        ways = ((high_x + _APART, high_y + 1.0), (low_x - _APART, high_y + 1.0), (high_x + _APART, low_y - 1.0),
                (low_x - _APART, low_y - 1.0), (x + _APART, high_y + _APART), (x + _APART, low_y - _APART),
                (high_x + _APART + 1.0, y + 2.5), (low_x - _APART - 1.0, y + 2.5))  # fmt: skip
        free = [at for at in ways if plate.covers(Spot(at).buffer(2.2))
                and not every.intersects(Spot(at).buffer(2.0))]  # fmt: skip
        yield Word("reference", about, (free or ways)[0], str(number), 12.0)
