"""How the pieces of one item follow its place, its size and the height of its tray."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from hardstand.asbuilt.value import PlacedItem
from hardstand.engines.fit.body import Floats
from hardstand.engines.fit.piece import Follow
from hardstand.figures import Input
from hardstand.standards.rotation import rotation

AXES = ("x", "y", "z")
_STILL, _WAYS = np.zeros(3), np.eye(3)


@dataclass(frozen=True, eq=False)
class ItemFrame:
    """An item's axes and inputs. `places` are its place's inputs with the direction each moves it."""

    item: PlacedItem
    rotation: Floats
    places: tuple[tuple[Input, Floats], ...]
    sizes: tuple[Input, Input, Input]
    lift: Floats

    def centre(self, offset_mm: Floats) -> Floats:
        """A point (3,) given from the middle of the box in the item's own axes, in the aeroplane's."""
        return np.asarray(self.item.centre_mm + self.rotation @ offset_mm)

    def follows(self, offset: Floats, half: Floats) -> tuple[Follow, ...]:
        """What a piece of the item follows.

        offset (3, 3): row k is how the piece's middle moves, in the item's own axes, per mm of size
        k; half (3, 3): row k is how its half sizes grow per mm of size k.
        """
        placed = tuple(Follow(one, way, _STILL) for one, way in self.places)
        centre = offset @ self.rotation.T
        centre[:, 2] += self.lift
        sized = tuple(map(Follow, self.sizes, centre, half))
        return placed + sized


def item_frame(item: PlacedItem, tray_top_mm: float | None) -> ItemFrame:
    """The frame of an item; `tray_top_mm` is the height of the tray it stands on, None off a tray.

    On a tray the height of the middle follows from the tray and the item's own height, so an error
    of the height moves its top twice as far as its middle and its base not at all.
    """
    matrix = rotation(item.turn_deg, item.tilt_deg)
    axes = AXES[:2] if item.on is not None else AXES
    places = [(item.place[k], _WAYS[k]) for k in range(len(axes))]
    lift = np.zeros(3)
    if item.on is not None:
        top = f"tray.{item.on}.top_z_mm"
        places.append(
            (
                Input(top, tray_top_mm or 0.0, "mm", item.height_u_mm, "declared", top, "tray"),
                _WAYS[2],
            )
        )
        lift = np.abs(matrix[2]) / 2.0
    return ItemFrame(item, matrix, tuple(places), item.size, lift)
