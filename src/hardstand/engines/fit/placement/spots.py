"""Layouts as places in the aeroplane, and places as changes to the description."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from hardstand.engines.fit.layout.problem import Layout, Spot
from hardstand.engines.fit.placement.grid import corner, middle
from hardstand.engines.fit.placement.parts import Shape


@dataclass(frozen=True, slots=True)
class Place:
    """Where an item stands: its tray, the middle of its base in mm, its turn; and where it stood."""

    item: str
    name: str
    tray: str
    at_mm: tuple[float, float]
    turn_deg: float
    was_tray: str
    was_at_mm: tuple[float, float]
    was_turn_deg: float

    @property
    def moved(self) -> bool:
        """Whether it stands elsewhere than it did."""
        was = (self.was_tray, self.was_at_mm, self.was_turn_deg % 360.0)
        return (self.tray, self.at_mm, self.turn_deg % 360.0) != was


def places(shapes: Mapping[str, Shape], layout: Layout) -> tuple[Place, ...]:
    """The places of a layout, in the order of its items."""
    found = []
    for shape, spot in zip(shapes.values(), layout, strict=True):
        item = shape.item
        length, width = sides(shape, spot.turn)
        at = (float(middle(spot.x_mm, length)), float(middle(spot.y_mm, width)))
        was = (item.centre_mm[0], item.centre_mm[1])
        found.append(Place(item.id, item.name, spot.tray, at, 90.0 * spot.turn, str(item.on), was,
                           item.turn_deg))  # fmt: skip
    return tuple(found)


def present(shapes: Mapping[str, Shape]) -> Layout:
    """The layout as described, each item on the nearest whole millimetre."""
    found = []
    for shape in shapes.values():
        item = shape.item
        turn = round(item.turn_deg / 90.0) % 4
        length, width = sides(shape, turn)
        x, y = corner(item.centre_mm[0], length), corner(item.centre_mm[1], width)
        found.append(Spot(str(item.on), turn, x, y))
    return tuple(found)


def sides(shape: Shape, turn: int) -> tuple[int, int]:
    """Sides along x and y of an item's rectangle at a turn."""
    pair = (shape.length_mm, shape.width_mm)
    return pair if turn % 2 == 0 else (pair[1], pair[0])
