"""Ways to bring the CG where it should be with the packs at hand: all combinations are searched."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from hardstand.asbuilt.value import MassPoint, PlacedItem
from hardstand.changes import AnyChange
from hardstand.engines.balance.judged import Judged
from hardstand.engines.balance.model import WayOut
from hardstand.engines.balance.pack_choice import PackChoices, choose_packs
from hardstand.engines.balance.pack_kinds import (
    Kind,
    kinds_of,
    may_replace,
    pack_changes,
    places_of,
)
from hardstand.engines.balance.pack_places import BallastPlaces
from hardstand.engines.balance.ways import FINEST_MM, ballast_row, called, moved, room_g, way_out

SHOWN = 12
MOST_WAYS = 20_000  # of placing the packs; more are not searched, as an edit must not wait for it
LEAST_REST_G = 1.0


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
        if any(may_replace(one, parts[one.part], item) for one in hand)
    ]
    fitted = [items[i] for i in places]
    out_g = sum(masses[item.id].mass.value for item in fitted)
    moment = sum(masses[item.id].mass.value * masses[item.id].at[0].value for item in fitted)
    rest_g = judged.mass_g - out_g
    if not places or rest_g < LEAST_REST_G:
        return []
    kinds = kinds_of(fitted, masses, hand, parts)
    inside = [group for group in groups if all(i in places for i in group)]
    alike = tuple(tuple(places.index(i) for i in group) for group in inside)
    weights = BallastPlaces(
        np.array([place.at_mm[0] for place in slices.ballast_places], dtype=np.float64),
        np.array([room_g(place, slices.masses) for place in slices.ballast_places]),
    )
    try:
        choices = choose_packs(
            rest_g,
            (judged.mass_g * judged.cg_mm - moment) / rest_g,
            places_of(fitted, kinds, hand, parts, alike),
            weights,
            target_mm=judged.goal_mm,
            range_mm=judged.allowed_mm,
            limit=MOST_WAYS,
        )
    except ValueError:  # too many ways to search, or none that fills the places
        return []
    rows = np.flatnonzero(choices.front)[:SHOWN]
    return [_way(choices, int(row), fitted, kinds, masses, slices, judged) for row in rows]


def _way(
    choices: PackChoices,
    row: int,
    fitted: Sequence[PlacedItem],
    kinds: Sequence[Kind],
    masses: Mapping[str, MassPoint],
    slices: Any,
    judged: Judged,
) -> WayOut:
    """One choice as a way out, its CG worked out anew for stations a builder can set."""
    changes: list[AnyChange] = []
    words = []
    mass_g, moment = judged.mass_g, judged.mass_g * judged.cg_mm
    charge = 0.0
    name = called(fitted)
    alike = Counter(kind.name for kind in kinds)
    for p, item in enumerate(fitted):
        kind, before = kinds[int(choices.pack[row, p])], masses[item.id]
        other = kind.id != item.part.id
        by_mm = round((float(choices.at_mm[row, p]) - item.centre_mm[0]) / FINEST_MM) * FINEST_MM
        if other:
            changes += pack_changes(item, before, kind.id)
        if by_mm:
            changes.append(moved(item, by_mm))
        station = f"station {item.centre_mm[0] + by_mm:.0f}"
        if other:
            pack = kind.name if alike[kind.name] == 1 else kind.id
            words.append(f"fit {pack} as {name[item.id]} at {station}")
        elif by_mm:
            words.append(f"move {name[item.id]} to {station}")
        new_g = kind.mass_g if other else before.mass.value
        mass_g += new_g - before.mass.value
        moment += new_g * (before.at[0].value + by_mm) - before.mass.value * before.at[0].value
        charge += kind.charge_mah - (item.part.capacity_mah or 0.0) if other else 0.0
    grams = float(np.ceil(choices.ballast_g[row]))
    if grams > 0.0:
        place = slices.ballast_places[int(choices.ballast_place[row])]
        words.append(f"{grams:.0f} g of ballast at {place.name or place.id}")
        changes.append(ballast_row(place, grams, {point.id for point in slices.masses}))
        mass_g, moment = mass_g + grams, moment + grams * place.at_mm[0]
    if abs(charge) >= 1.0:
        words.append(f"{'+' if charge > 0 else '−'}{abs(charge):.0f} mAh of charge on board")
    found = way_out(
        "packs", "; ".join(words), changes, moment / mass_g, mass_g - judged.mass_g, judged
    )
    return replace(found, charge_lost_mah=max(-charge, 0.0))
