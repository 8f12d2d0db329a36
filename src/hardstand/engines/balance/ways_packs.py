"""Ways to bring the CG where it should be with the packs at hand: all combinations are searched."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from hardstand.asbuilt.value import MassPoint, PlacedItem
from hardstand.changes import AnyChange, Change
from hardstand.description.parts import Part
from hardstand.engines.balance.judged import Judged
from hardstand.engines.balance.model import WayOut
from hardstand.engines.balance.pack_choice import PackChoices, choose_packs
from hardstand.engines.balance.pack_places import BallastPlaces, PackPlaces
from hardstand.engines.balance.ways import FINEST_MM, ballast_row, moved, way_out

SHOWN = 12


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of pack that may be fitted: part, name, mass, how many there are, charge."""

    id: str
    name: str
    mass_g: float
    count: int
    charge_mah: float


def _may_replace(one: Any, part: Part, item: PlacedItem) -> bool:
    """Whether a pack on hand may take an item's place: as stated, else same cells and chemistry."""
    if item.kind != "pack":
        return False
    if one.instead_of:
        return item.id in one.instead_of
    return part.cells == item.part.cells and part.chemistry == item.part.chemistry


def _kinds(
    fitted: Sequence[PlacedItem],
    masses: Mapping[str, MassPoint],
    hand: Sequence[Any],
    parts: Mapping[str, Part],
) -> dict[str, Kind]:
    """The kinds of pack that are fitted or at hand, by part id."""
    kinds: dict[str, Kind] = {}

    def add(part: Part, mass_g: float, count: int) -> None:
        before = kinds[part.id].count if part.id in kinds else 0
        charge = part.capacity_mah or 0.0
        kinds[part.id] = Kind(part.id, part.name or part.id, mass_g, before + count, charge)

    for one in hand:
        add(parts[one.part], parts[one.part].mass_g or 0.0, one.count)
    for item in fitted:
        add(item.part, masses[item.id].mass.value, 1)
    return kinds


def _places(
    fitted: Sequence[PlacedItem],
    kinds: Sequence[Kind],
    hand: Sequence[Any],
    parts: Mapping[str, Part],
    alike: tuple[tuple[int, ...], ...],
) -> PackPlaces:
    low = np.full((len(fitted), len(kinds)), np.nan)
    high = low.copy()
    for p, item in enumerate(fitted):
        span = item.movable_x_mm or (item.centre_mm[0], item.centre_mm[0])
        for k, kind in enumerate(kinds):
            at_hand = [one for one in hand if one.part == kind.id]
            if kind.id == item.part.id or any(
                _may_replace(one, parts[one.part], item) for one in at_hand
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


def packs(
    items: Sequence[PlacedItem],
    masses: Mapping[str, MassPoint],
    slices: Any,
    groups: Sequence[tuple[int, ...]],
    judged: Judged,
) -> list[WayOut]:
    """All combinations of the packs at hand on the places of the packs fitted.

    Returns those that none other beats in ballast, added mass, distance from the goal and charge at
    once. Whether another pack fits its tray is for the fit to say once the way is taken.
    """
    hand, parts = slices.on_hand, slices.on_hand_parts
    places = [
        i
        for i, item in enumerate(items)
        if any(_may_replace(one, parts[one.part], item) for one in hand)
    ]
    if not places:
        return []
    fitted = [items[i] for i in places]
    kinds = list(_kinds(fitted, masses, hand, parts).values())
    inside = [group for group in groups if all(i in places for i in group)]
    alike = tuple(tuple(places.index(i) for i in group) for group in inside)
    out_g = sum(masses[item.id].mass.value for item in fitted)
    moment = sum(masses[item.id].mass.value * masses[item.id].at[0].value for item in fitted)
    rest_g = judged.mass_g - out_g
    weights = BallastPlaces(
        np.array([place.at_mm[0] for place in slices.ballast_places], dtype=np.float64),
        np.array([place.most_g for place in slices.ballast_places], dtype=np.float64),
    )
    try:
        choices = choose_packs(
            rest_g,
            (judged.mass_g * judged.cg_mm - moment) / rest_g,
            _places(fitted, kinds, hand, parts, alike),
            weights,
            target_mm=judged.goal_mm,
            range_mm=judged.allowed_mm,
        )
    except ValueError:  # too many ways to search, or none that fills the places
        return []
    rows = np.flatnonzero(choices.front)[:SHOWN]
    return [
        _way(choices, int(row), fitted, kinds, masses, slices.ballast_places, judged)
        for row in rows
    ]


def _way(
    choices: PackChoices,
    row: int,
    fitted: Sequence[PlacedItem],
    kinds: Sequence[Kind],
    masses: Mapping[str, MassPoint],
    places: Sequence[Any],
    judged: Judged,
) -> WayOut:
    """One choice as a way out, its CG worked out anew for stations a builder can set."""
    changes: list[AnyChange] = []
    words = []
    mass_g, moment = judged.mass_g, judged.mass_g * judged.cg_mm
    charge = 0.0
    for p, item in enumerate(fitted):
        kind = kinds[int(choices.pack[row, p])]
        by_mm = round((float(choices.at_mm[row, p]) - item.centre_mm[0]) / FINEST_MM) * FINEST_MM
        if kind.id != item.part.id:
            changes.append(Change(f"item.{item.id}.part", item.part.id, kind.id))
        if by_mm:
            changes.append(moved(item, by_mm))
        if kind.id != item.part.id or by_mm:
            words.append(f"{item.name}: {kind.name} at station {item.centre_mm[0] + by_mm:.0f}")
        before = masses[item.id]
        mass_g += kind.mass_g - before.mass.value
        moment += (
            kind.mass_g * (before.at[0].value + by_mm) - before.mass.value * before.at[0].value
        )
        charge += kind.charge_mah - (item.part.capacity_mah or 0.0)
    grams = float(np.ceil(choices.ballast_g[row]))
    if grams > 0.0:
        place = places[int(choices.ballast_place[row])]
        words.append(f"{grams:.0f} g of ballast at {place.name or place.id}")
        changes.append(ballast_row(place, grams))
        mass_g, moment = mass_g + grams, moment + grams * place.at_mm[0]
    if abs(charge) >= 1.0:
        words.append(f"{'+' if charge > 0 else '−'}{abs(charge):.0f} mAh of charge on board")
    found = way_out(
        "packs", "; ".join(words), changes, moment / mass_g, mass_g - judged.mass_g, judged
    )
    return replace(found, charge_lost_mah=max(-charge, 0.0))
