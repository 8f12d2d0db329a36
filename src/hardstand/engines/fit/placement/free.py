"""Which items may move, over which trays and turns, and why the others stay."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.asbuilt.value import AsBuilt, PlacedItem
from hardstand.engines.fit.item_solids import owner_of

Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Freedom:
    """Where an item may stand: on which trays, its middle within what range, at which quarter turns."""

    item: PlacedItem
    trays: tuple[str, ...]
    x_mm: Range | None
    y_mm: Range | None
    turns: tuple[int, ...]


class NotFreeError(ValueError):
    """An item that was asked to move cannot be moved: `item` its id, and why in words."""

    def __init__(self, item: str, why: str) -> None:
        self.item, self.why = item, why
        super().__init__(f"{item} {why}")


def freedoms(
    asbuilt: AsBuilt, wanted: Sequence[str] | None = None
) -> tuple[tuple[Freedom, ...], dict[str, str]]:
    """The items that may move, and for those that stay on their trays the reason by id.

    Without `wanted` all that stand level on a tray. An item with a range moves within it, along no
    other axis, and keeps its turn, as does a gyro. All others may turn; and go to another tray, save
    packs, what is reached through an opening, and what stands alone on a shelf made for it. Raises
    NotFreeError for a wanted item that cannot move.
    """
    by_id = {item.id: item for item in asbuilt.items}
    held: dict[str, str] = {}
    found = []
    for one in wanted if wanted is not None else ():
        why = "is no item of this aeroplane" if one not in by_id else _never(by_id[one])
        if why:
            raise NotFreeError(one, why)
    shared = _shared(asbuilt)
    joined = _joined(asbuilt)
    for item in asbuilt.items:
        if item.on is None:
            continue
        why = _never(item)
        if not why and wanted is None and item.id in joined:
            why = f"is fixed to {joined[item.id]}"
        if not why and wanted is not None and item.id not in wanted:
            why = "was not asked to move"
        if why:
            held[item.id] = why
        else:
            found.append(_freedom(item, shared))
    return tuple(found), held


def _never(item: PlacedItem) -> str:
    if item.on is None:
        return "stands on no tray"
    if item.tilt_deg != (0.0, 0.0):
        return "is tilted"
    if owner_of(item).hot:
        return "is hot"
    return ""


def _joined(asbuilt: AsBuilt) -> dict[str, str]:
    """Items that are mounted on another item, or carry one, and which."""
    items = {item.id for item in asbuilt.items}
    found = {}
    for item in asbuilt.items:
        for other in item.supports:
            if other in items:
                found[item.id], found[other] = other, item.id
    return found


def _shared(asbuilt: AsBuilt) -> tuple[str, ...]:
    """Trays for anything: those that are empty or carry more than one item."""
    count = Counter(item.on for item in asbuilt.items if item.on is not None)
    return tuple(tray.id for tray in asbuilt.trays if count[tray.id] != 1)


def _freedom(item: PlacedItem, shared: tuple[str, ...]) -> Freedom:
    assert item.on is not None
    x, y = item.movable_x_mm, item.movable_y_mm
    own, turn = item.on, round(item.turn_deg / 90.0) % 4
    if x is not None or y is not None:
        here_x, here_y = item.centre_mm[0], item.centre_mm[1]
        held_x, held_y = round(here_x), round(here_y)
        return Freedom(item, (own,), x or (held_x, held_x), y or (held_y, held_y), (turn,))
    turns = (turn,) if item.kind == "gyro" else (0, 1, 2, 3)
    stays = item.kind in ("pack", "gyro") or item.through is not None or own not in shared
    return Freedom(item, (own,) if stays else shared, None, None, turns)
