"""Ways to bring the CG where it should be by sliding what may slide, or by ballast."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Container, Iterable, Mapping, Sequence
from itertools import chain

import numpy as np

from hardstand.asbuilt.value import MassPoint, PlacedItem
from hardstand.changes import AddRow, AnyChange, Change
from hardstand.description.items import BallastPlace, Lead
from hardstand.engines.balance.judged import Judged
from hardstand.engines.balance.model import WayOut
from hardstand.engines.balance.shifts import after_adding, ballast_to_reach_g

FINEST_MM = 1.0  # a builder places to the millimetre
ROUNDING_MM = 1e-6
SAME_PLACE_MM = 5.0  # ballast this near to a place for it lies in it


def parallel(items: Sequence[PlacedItem], leads: Iterable[Lead]) -> list[tuple[int, ...]]:
    """Groups of pack items (indices) that feed the same item and must be alike."""
    by_sink: dict[str, set[int]] = {}
    index = {item.id: i for i, item in enumerate(items)}
    for lead in leads:
        ends = [end.partition(".")[0] for end in (lead.from_, lead.to)]
        for one, other in (ends, ends[::-1]):
            if one in index and other not in index:
                by_sink.setdefault(other, set()).add(index[one])
    return [tuple(sorted(group)) for group in by_sink.values() if len(group) > 1]


def way_out(
    kind: str, text: str, changes: Sequence[AnyChange], cg_mm: float, added_g: float, judged: Judged
) -> WayOut:
    """A way with the CG it leads to (station, mm) and whether that is in range and target."""
    inside = [
        ends is None or ends[0] - ROUNDING_MM <= cg_mm <= ends[1] + ROUNDING_MM
        for ends in (judged.range_mm, judged.target_mm)
    ]
    aft_mm = cg_mm - judged.mark_mm
    words = f"{text}: the CG comes to {aft_mm:.1f} mm"
    return WayOut(
        kind,
        words,
        tuple(changes),
        aft_mm,
        added_g,
        inside[0],
        inside[1],
        distance_mm=abs(cg_mm - judged.goal_mm),
    )


def called(items: Sequence[PlacedItem]) -> dict[str, str]:
    """What each item is called in a sentence, by id: its name where no other has it, else its id."""
    count = Counter(item.name for item in items)
    return {item.id: item.name if count[item.name] == 1 else item.id for item in items}


def moved(item: PlacedItem, by_mm: float) -> Change:
    """The change that slides an item along x."""
    x, y, z = item.centre_mm
    old = [x, y] if item.on is not None else [x, y, z]
    return Change(f"item.{item.id}.at_mm", old, [round(x + by_mm, 3), *old[1:]])


def ballast_row(place: BallastPlace, grams: float, taken: Container[str]) -> AddRow:
    """The change that fixes ballast at one of its places, under an id that is not `taken`."""
    name = f"ballast, {place.name or place.id}"
    ids = (f"ballast-{place.id}{tail}" for tail in chain(("",), (f"-{n}" for n in range(2, 1000))))
    row_id = next(one for one in ids if one not in taken)
    row = {"id": row_id, "name": name, "mass_g": grams, "at_mm": list(place.at_mm)}
    return AddRow("mass", row | {"zone": "ballast"})


def room_g(place: BallastPlace, masses: Iterable[MassPoint]) -> float:
    """What a ballast place can still take, g: ballast that lies there already counts."""
    there = (
        point.mass.value
        for point in masses
        if point.group == "ballast"
        and math.dist([one.value for one in point.at], place.at_mm) < SAME_PLACE_MM
    )
    return max(place.most_g - sum(there), 0.0)


def slides(
    items: Sequence[PlacedItem],
    masses: Mapping[str, MassPoint],
    groups: Sequence[tuple[int, ...]],
    judged: Judged,
) -> list[WayOut]:
    """Every movable item, and every group of packs in parallel, slid as far as the goal asks."""
    movable = [i for i, item in enumerate(items) if item.movable_x_mm is not None]
    sets = [group for group in groups if all(i in movable for i in group)]
    sets += [(i,) for i in movable if not any(i in group for group in sets)]
    found = []
    name = called(items)
    for members in sets:
        chosen = [items[i] for i in members]
        moved_g = sum(masses[item.id].mass.value for item in chosen)
        spans = [(item.movable_x_mm, item.centre_mm[0]) for item in chosen]
        low = max(span[0] - x for span, x in spans if span)
        high = min(span[1] - x for span, x in spans if span)
        if moved_g <= 0.0 or low > high:
            continue
        wanted = (judged.goal_mm - judged.cg_mm) * judged.mass_g / moved_g
        by_mm = float(np.clip(round(wanted / FINEST_MM) * FINEST_MM, low, high))
        if by_mm == 0.0:
            continue
        names = " and ".join(name[item.id] for item in chosen)
        text = f"move {names} {abs(by_mm):.0f} mm {'aft' if by_mm > 0 else 'forward'}"
        cg_mm = judged.cg_mm + moved_g * by_mm / judged.mass_g
        found.append(
            way_out("slide", text, [moved(one, by_mm) for one in chosen], cg_mm, 0.0, judged)
        )
    return found


def ballast(
    places: Sequence[BallastPlace], masses: Sequence[MassPoint], judged: Judged
) -> list[WayOut]:
    """The least ballast at each place: just into the range, and to the goal."""
    found = []
    middle = "target" if judged.target_mm else "range"
    for place in places:
        goals = {judged.goal_mm: f"to the middle of the {middle}"}
        ends = judged.range_mm
        if ends is not None and not ends[0] <= judged.cg_mm <= ends[1]:
            goals[float(np.clip(judged.cg_mm, *ends))] = "just into the range"
        for goal, words in goals.items():
            needed = ballast_to_reach_g(judged.mass_g, judged.cg_mm, goal, place.at_mm[0])
            grams = float(np.ceil(needed))
            if not 0.0 < grams <= room_g(place, masses):
                continue
            cg_mm = after_adding(judged.mass_g, judged.cg_mm, grams, place.at_mm[0]).cg_mm
            text = f"{grams:.0f} g of ballast at {place.name or place.id}, {words}"
            change = ballast_row(place, grams, {point.id for point in masses})
            found.append(way_out("ballast", text, [change], float(cg_mm), grams, judged))
    return found
