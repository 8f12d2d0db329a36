"""What may stand elsewhere in an aeroplane, and what a form ticks of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.asbuilt.value import PlacedItem

ITEM, TRAY = "item.", "tray."  # begin the names of the ticks of a form


def free_items(asbuilt: AsBuilt) -> list[PlacedItem]:
    """The items that may move, in the order described."""
    from hardstand.placement import movable

    return list(movable(asbuilt)[0])


def staying(asbuilt: AsBuilt) -> dict[str, str]:
    """The items on trays that may not move, by id, and why."""
    from hardstand.placement import movable

    return movable(asbuilt)[1]


def ticked(values: Mapping[str, str], every: Sequence[PlacedItem]) -> list[PlacedItem]:
    """The items whose tick and whose tray's tick are set."""
    return [one for one in every if f"{ITEM}{one.id}" in values and f"{TRAY}{one.on}" in values]
