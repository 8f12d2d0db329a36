"""The kinds of pack that may be fitted, where each may stand, and what a change of pack changes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from hardstand.asbuilt.value import MassPoint, PlacedItem
from hardstand.changes import AnyChange, Change
from hardstand.description.items import OnHand
from hardstand.description.parts import Part
from hardstand.engines.balance.pack_places import PackPlaces


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of pack that may be fitted: part, name, mass, how many there are, charge."""

    id: str
    name: str
    mass_g: float
    count: int
    charge_mah: float


def may_replace(one: OnHand, part: Part, item: PlacedItem) -> bool:
    """Whether a pack on hand may take an item's place: as stated, else same cells and chemistry.

    A pack whose cells or chemistry nobody states replaces nothing by itself.
    """
    if item.kind != "pack" or part.kind != "pack":
        return False
    if one.instead_of:
        return item.id in one.instead_of
    known = part.cells is not None and part.chemistry is not None
    return known and (part.cells, part.chemistry) == (item.part.cells, item.part.chemistry)


def kinds_of(
    fitted: Sequence[PlacedItem],
    masses: Mapping[str, MassPoint],
    hand: Sequence[OnHand],
    parts: Mapping[str, Part],
) -> list[Kind]:
    """The kinds of pack that are fitted or at hand; a kind that is fitted weighs what that one does."""
    kinds: dict[str, Kind] = {}

    def add(part: Part, mass_g: float, count: int) -> None:
        before = kinds[part.id].count if part.id in kinds else 0
        charge = part.capacity_mah or 0.0
        kinds[part.id] = Kind(part.id, part.name or part.id, mass_g, before + count, charge)

    for one in hand:
        if parts[one.part].kind == "pack":
            add(parts[one.part], parts[one.part].mass_g or 0.0, one.count)
    for item in fitted:
        add(item.part, masses[item.id].mass.value, 1)
    return list(kinds.values())


def places_of(
    fitted: Sequence[PlacedItem],
    kinds: Sequence[Kind],
    hand: Sequence[OnHand],
    parts: Mapping[str, Part],
    alike: tuple[tuple[int, ...], ...],
) -> PackPlaces:
    """Where each kind may stand: the span in which the item fitted there may be moved."""
    low = np.full((len(fitted), len(kinds)), np.nan)
    high = low.copy()
    for p, item in enumerate(fitted):
        here = item.centre_mm[0]
        span = item.movable_x_mm or (here, here)
        for k, kind in enumerate(kinds):
            offered = (one for one in hand if one.part == kind.id)
            if kind.id == item.part.id or any(
                may_replace(one, parts[one.part], item) for one in offered
            ):
                low[p, k], high[p, k] = span
    return PackPlaces(
        np.array([kind.mass_g for kind in kinds]),
        np.array([kind.count for kind in kinds], dtype=np.int64),
        low,
        high,
        alike,
        np.array([kind.charge_mah for kind in kinds]),
    )


def pack_changes(item: PlacedItem, mass: MassPoint, part_id: str) -> list[AnyChange]:
    """The changes that put another pack in an item's place.

    What the row says of this one pack by itself, its mass and its size, goes with it.
    """
    changes: list[AnyChange] = [Change(f"item.{item.id}.part", item.part.id, part_id)]
    own_mass = f"item.{item.id}.mass_g"
    if mass.mass.stands_at == own_mass:
        changes.append(Change(own_mass, mass.mass.value, None))
    if item.part.size_mm is not None and item.size_mm != item.part.size_mm:
        changes.append(Change(f"item.{item.id}.size_mm", list(item.size_mm), None))
    return changes
