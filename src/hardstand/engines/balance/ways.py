"""Ways to bring the CG where it should be: sliding what may slide, other packs at hand, ballast."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from hardstand.asbuilt.value import MassPoint, PlacedItem
from hardstand.changes import AddRow, AnyChange, Change
from hardstand.engines.balance.judged import Judged
from hardstand.engines.balance.model import WayOut
from hardstand.engines.balance.pack_choice import PackChoices, choose_packs
from hardstand.engines.balance.pack_places import BallastPlaces, PackPlaces
from hardstand.engines.balance.shifts import after_adding, ballast_to_reach_g

SHOWN = 6
FINEST_MM = 1.0  # a builder places to the millimetre


def parallel(items: Sequence[PlacedItem], leads: Iterable[Any]) -> list[tuple[int, ...]]:
    """Groups of pack items (indices) that feed the same item and must be alike."""
    by_sink: dict[str, list[int]] = {}
    index = {item.id: i for i, item in enumerate(items)}
    for lead in leads:
        ends = [end.partition(".")[0] for end in (lead.from_, lead.to)]
        for one, other in (ends, ends[::-1]):
            if one in index and other not in index:
                by_sink.setdefault(other, []).append(index[one])
    return [tuple(sorted(set(group))) for group in by_sink.values() if len(set(group)) > 1]


def _way(
    kind: str, text: str, changes: Sequence[AnyChange], cg: float, added_g: float, judged: Judged
) -> WayOut:
    inside = [
        ends is None or ends[0] - 1e-6 <= cg <= ends[1] + 1e-6
        for ends in (judged.range_mm, judged.target_mm)
    ]
    return WayOut(
        kind,
        f"{text}: the CG comes to {cg - judged.mark_mm:.1f} mm",
        tuple(changes),
        cg - judged.mark_mm,
        added_g,
        inside[0],
        inside[1],
    )


def slides(
    items: Sequence[PlacedItem],
    masses: dict[str, MassPoint],
    groups: list[tuple[int, ...]],
    judged: Judged,
) -> list[WayOut]:
    """Every movable item, and every group of packs in parallel, slid as far as the goal asks."""
    movable = [i for i, item in enumerate(items) if item.movable_x_mm is not None]
    sets = [group for group in groups if all(i in movable for i in group)]
    sets += [(i,) for i in movable if not any(i in group for group in sets)]
    found = []
    for members in sets:
        chosen = [items[i] for i in members]
        moved_g = sum(masses[item.id].mass.value for item in chosen)
        if moved_g <= 0.0:
            continue
        wanted = (judged.goal_mm - judged.cg_mm) * judged.mass_g / moved_g
        low = max(item.movable_x_mm[0] - item.centre_mm[0] for item in chosen if item.movable_x_mm)
        high = min(item.movable_x_mm[1] - item.centre_mm[0] for item in chosen if item.movable_x_mm)
        by = float(np.clip(round(wanted / FINEST_MM) * FINEST_MM, low, high))
        if by == 0.0 or low > high:
            continue
        cg = judged.cg_mm + moved_g * by / judged.mass_g
        names = " and ".join(item.name for item in chosen)
        way = "aft" if by > 0 else "forward"
        found.append(
            _way(
                "slide",
                f"move {names} {abs(by):.0f} mm {way}",
                [_moved(item, by) for item in chosen],
                cg,
                0.0,
                judged,
            )
        )
    return found


def _moved(item: PlacedItem, by_mm: float) -> Change:
    x, y, z = item.centre_mm
    old = [x, y] if item.on is not None else [x, y, z]
    return Change(f"item.{item.id}.at_mm", old, [round(x + by_mm, 3), *old[1:]])


def ballast(places: Sequence[Any], judged: Judged) -> list[WayOut]:
    """The least ballast at each place: just into the range, and to the goal."""
    found = []
    for place in places:
        goals = {judged.goal_mm: "to the middle of the target"}
        if (
            judged.range_mm is not None
            and not judged.range_mm[0] <= judged.cg_mm <= judged.range_mm[1]
        ):
            goals[float(np.clip(judged.cg_mm, *judged.range_mm))] = "just into the range"
        for goal, words in goals.items():
            needed = float(ballast_to_reach_g(judged.mass_g, judged.cg_mm, goal, place.at_mm[0]))
            grams = float(np.ceil(needed)) if np.isfinite(needed) else np.inf
            if not 0.0 < grams <= place.most_g:
                continue
            cg = float(after_adding(judged.mass_g, judged.cg_mm, grams, place.at_mm[0]).cg_mm)
            row = {
                "id": f"ballast-{place.id}",
                "name": f"ballast, {place.name or place.id}",
                "mass_g": grams,
                "at_mm": list(place.at_mm),
                "zone": "ballast",
            }
            found.append(
                _way(
                    "ballast",
                    f"{grams:.0f} g of ballast at {place.name or place.id}, {words}",
                    [AddRow("mass", row)],
                    cg,
                    grams,
                    judged,
                )
            )
    return found


def packs(
    items: Sequence[PlacedItem],
    masses: dict[str, MassPoint],
    slices: Any,
    groups: list[tuple[int, ...]],
    judged: Judged,
) -> list[WayOut]:
    """All combinations of the packs at hand on the places of the packs fitted, best first."""
    hand = list(slices.on_hand)
    places = [
        i
        for i, item in enumerate(items)
        if any(_may_replace(one, slices.on_hand_parts[one.part], item) for one in hand)
    ]
    if not places:
        return []
    fitted = [items[i] for i in places]
    kinds, table = _kinds(fitted, masses, hand, slices.on_hand_parts)
    out_g = sum(masses[item.id].mass.value for item in fitted)
    moment = sum(masses[item.id].mass.value * masses[item.id].at[0].value for item in fitted)
    rest_g = judged.mass_g - out_g
    rest_cg = (judged.mass_g * judged.cg_mm - moment) / rest_g
    alike = tuple(
        tuple(places.index(i) for i in group) for group in groups if all(i in places for i in group)
    )
    weights = BallastPlaces(
        np.array([place.at_mm[0] for place in slices.ballast_places]),
        np.array([place.most_g for place in slices.ballast_places]),
    )
    try:
        choices = choose_packs(
            rest_g,
            rest_cg,
            PackPlaces(table[0], table[1], table[2], table[3], alike),
            weights,
            target_mm=judged.goal_mm,
            range_mm=judged.allowed_mm,
        )
    except ValueError:
        return []
    return [
        _pack_way(choices, row, fitted, kinds, slices.ballast_places, judged, out_g)
        for row in np.flatnonzero(choices.front)[:SHOWN]
    ]


def _may_replace(one: Any, part: Any, item: PlacedItem) -> bool:
    if item.kind != "pack":
        return False
    if one.instead_of:
        return item.id in one.instead_of
    return bool(part.cells == item.part.cells and part.chemistry == item.part.chemistry)


def _kinds(
    fitted: list[PlacedItem], masses: dict[str, MassPoint], hand: list[Any], parts: Any
) -> tuple[list[tuple[str, str]], tuple[Any, Any, Any, Any]]:
    """The kinds of pack (id, name), and their mass, stock and low and high station at each place."""
    kinds: dict[str, tuple[str, float, int]] = {}
    for item in fitted:
        name, _, count = kinds.get(item.part.id, (item.part.name or item.part.id, 0.0, 0))
        kinds[item.part.id] = (name, masses[item.id].mass.value, count + 1)
    for one in hand:
        part = parts[one.part]
        name, mass, count = kinds.get(one.part, (part.name or part.id, part.mass_g, 0))
        kinds[one.part] = (name, mass, count + one.count)
    ids = list(kinds)
    low = np.full((len(fitted), len(ids)), np.nan)
    high = low.copy()
    for p, item in enumerate(fitted):
        span = item.movable_x_mm or (item.centre_mm[0], item.centre_mm[0])
        for k, kind in enumerate(ids):
            allowed = kind == item.part.id or any(
                one.part == kind and _may_replace(one, parts[one.part], item) for one in hand
            )
            if allowed:
                low[p, k], high[p, k] = span
    mass = np.array([kinds[one][1] for one in ids], dtype=np.float64)
    stock = np.array([kinds[one][2] for one in ids], dtype=np.int64)
    return [(one, kinds[one][0]) for one in ids], (mass, stock, low, high)


def _pack_way(
    choices: PackChoices,
    row: int,
    fitted: list[PlacedItem],
    kinds: list[tuple[str, str]],
    places: Sequence[Any],
    judged: Judged,
    out_g: float,
) -> WayOut:
    changes: list[AnyChange] = []
    words = []
    for p, item in enumerate(fitted):
        part_id, name = kinds[int(choices.pack[row, p])]
        station = round(float(choices.at_mm[row, p]) / FINEST_MM) * FINEST_MM
        if part_id != item.part.id:
            changes.append(Change(f"item.{item.id}.part", item.part.id, part_id))
        if abs(station - item.centre_mm[0]) >= FINEST_MM:
            changes.append(_moved(item, station - item.centre_mm[0]))
        words.append(f"{item.name}: {name} at station {station:.0f}")
    grams = float(np.ceil(choices.ballast_g[row]))
    if grams > 0.0:
        place = places[int(choices.ballast_place[row])]
        words.append(f"{grams:.0f} g of ballast at {place.name or place.id}")
        changes.append(
            AddRow(
                "mass",
                {
                    "id": f"ballast-{place.id}",
                    "name": f"ballast, {place.name or place.id}",
                    "mass_g": grams,
                    "at_mm": list(place.at_mm),
                    "zone": "ballast",
                },
            )
        )
    return _way(
        "packs",
        "; ".join(words),
        changes,
        float(choices.cg_mm[row]),
        float(choices.added_g[row]) - out_g,
        judged,
    )
