"""What a problem asks for, one requirement at a time, in words, and the problem without it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import chain

from hardstand.engines.fit.layout.problem import Item, Place, Problem, Rectangle, Tray


@dataclass(frozen=True, slots=True)
class Requirement:
    """One thing asked for. `kind`: item, fixed, place, plugs, keep-out, headroom or gap.

    `about`: the item, or tray and keep-out; `text`: a clause in words.
    """

    kind: str
    about: tuple[str, ...]
    text: str


def requirements(problem: Problem) -> list[Requirement]:
    """All requirements, those that are told last first: a minimal set keeps what is left.

    That an item is aboard comes last, so a contradiction is told by items only where need be.
    """
    found = []
    if problem.gap_mm:
        found.append(Requirement("gap", (), f"boxes stand {problem.gap_mm} mm apart"))
    for tray in problem.trays:
        if tray.headroom_mm is not None:
            text = f"{tray.headroom_mm:g} mm of height are free above {tray.id}"
            found.append(Requirement("headroom", (tray.id,), text))
        own = chain.from_iterable(item.barriers for item in problem.items)
        ids = [keep_out.id for keep_out in tray.keep_outs]
        ids += [barrier.id for barrier in own if barrier.tray == tray.id]
        for one in dict.fromkeys(ids):
            text = f"nothing enters {one} over {tray.id}"
            found.append(Requirement("keep-out", (tray.id, one), text))
    for item in problem.items:
        found += _of_item(item)
    found += [
        Requirement("item", (item.id,), f"{item.id} finds room")
        for item in problem.items
        if item.fixed is None
    ]
    return found


def _of_item(item: Item) -> list[Requirement]:
    found = []
    if item.fixed is not None:
        text = f"{item.id} stays at {item.fixed.x_mm}, {item.fixed.y_mm} mm on {item.fixed.tray}"
        found.append(Requirement("fixed", (item.id,), text))
    if any(place.x_mm or place.y_mm for place in item.places) and item.fixed is None:
        where = "; ".join(_range_text(place) for place in item.places if place.x_mm or place.y_mm)
        found.append(Requirement("place", (item.id,), f"{item.id} stays within {where}"))
    if item.plug_rooms:
        depth = max(room.depth_mm for room in item.plug_rooms)
        faces = ", ".join(room.face for room in item.plug_rooms)
        text = f"{item.id} keeps up to {depth} mm free for plugs ({faces})"
        found.append(Requirement("plugs", (item.id,), text))
    return found


def _range_text(place: Place) -> str:
    spans = [
        f"{axis} {span[0]} to {span[1]} mm"
        for axis, span in (("x", place.x_mm), ("y", place.y_mm))
        if span
    ]
    return f"{' and '.join(spans)} on {place.tray}"


def without(problem: Problem, dropped: set[Requirement]) -> Problem:
    """The problem with some requirements given up."""
    kinds: dict[str, set[tuple[str, ...]]] = {}
    for one in dropped:
        kinds.setdefault(one.kind, set()).add(one.about)
    gone = {about[0] for kind in ("item", "fixed") for about in kinds.get(kind, set())}
    plugs = {about[0] for about in kinds.get("plugs", set())}
    barred = kinds.get("keep-out", set())
    free = {about[0] for about in kinds.get("place", set())}
    items = tuple(
        replace(
            item,
            plug_rooms=() if item.id in plugs else item.plug_rooms,
            places=_anywhere(item.places) if item.id in free else item.places,
            barriers=tuple(
                one
                for one in item.barriers
                if (one.tray, one.id) not in barred and not (one.part and item.id in plugs)
            ),
        )
        for item in problem.items
        if item.id not in gone
    )
    trays = tuple(_tray_without(tray, kinds) for tray in problem.trays)
    return replace(
        problem,
        trays=trays,
        items=items,
        leads=(),
        centred=(),
        balances=(),
        apart=(),
        gap_mm=0 if "gap" in kinds else problem.gap_mm,
    )


def _anywhere(places: tuple[Place, ...]) -> tuple[Place, ...]:
    return tuple(replace(place, x_mm=None, y_mm=None) for place in places)


def _tray_without(tray: Tray, kinds: dict[str, set[tuple[str, ...]]]) -> Tray:
    gone = kinds.get("keep-out", set())
    kept = tuple(one for one in tray.keep_outs if (tray.id, one.id) not in gone)
    open_above = (tray.id,) in kinds.get("headroom", set())
    return replace(tray, keep_outs=kept, headroom_mm=None if open_above else tray.headroom_mm)


def relaxed(problem: Problem, requirement: Requirement, by_mm: int) -> Problem:
    """The problem with one requirement eased by so many millimetres; itself where it cannot be."""
    about = requirement.about
    eased: dict[str, Callable[[], Problem]] = {
        "gap": lambda: replace(problem, gap_mm=max(0, problem.gap_mm - by_mm)),
        "headroom": lambda: _trays(
            problem,
            about[0],
            lambda tray: replace(tray, headroom_mm=(tray.headroom_mm or 0) + by_mm),
        ),
        "place": lambda: _items(problem, about[0], lambda item: _wider(item, by_mm)),
        "plugs": lambda: _items(problem, about[0], lambda item: _shallower(item, by_mm)),
        "keep-out": lambda: _smaller(problem, (about[0], about[1]), by_mm),
        "longer": lambda: _trays(problem, about[0], lambda tray: stretched(tray, 0, by_mm)),
        "wider": lambda: _trays(problem, about[0], lambda tray: stretched(tray, 1, by_mm)),
    }
    return eased.get(requirement.kind, lambda: problem)()


def stretched(tray: Tray, axis: int, by_mm: int) -> Tray:
    """A tray that is longer (axis 0) or wider (1): what lies beyond its middle is moved outward.

    >>> stretched(Tray("t", ((0, 0), (100, 0), (100, 50), (0, 50))), 0, 3).outline_mm
    ((0, 0), (103, 0), (103, 50), (0, 50))
    """
    along = [point[axis] for point in tray.outline_mm]
    middle = (min(along) + max(along)) / 2.0
    moved = tuple(
        (x + (by_mm if axis == 0 and x > middle else 0), y + (by_mm if axis and y > middle else 0))
        for x, y in tray.outline_mm
    )
    return replace(tray, outline_mm=moved)


def _trays(problem: Problem, tray_id: str, change: Callable[[Tray], Tray]) -> Problem:
    trays = tuple(change(tray) if tray.id == tray_id else tray for tray in problem.trays)
    return replace(problem, trays=trays)


def _items(problem: Problem, item_id: str, change: Callable[[Item], Item]) -> Problem:
    items = tuple(change(item) if item.id == item_id else item for item in problem.items)
    return replace(problem, items=items)


def _wider(item: Item, by_mm: int) -> Item:
    def span(limits: tuple[int, int] | None) -> tuple[int, int] | None:
        return None if limits is None else (limits[0] - by_mm, limits[1] + by_mm)

    places = tuple(
        replace(place, x_mm=span(place.x_mm), y_mm=span(place.y_mm)) for place in item.places
    )
    return replace(item, places=places)


def _shallower(item: Item, by_mm: int) -> Item:
    rooms = tuple(replace(room, depth_mm=max(0, room.depth_mm - by_mm)) for room in item.plug_rooms)
    left = [part for part, room in enumerate(rooms, start=1) if room.depth_mm]
    numbers = {0: 0, **{part: k for k, part in enumerate(left, start=1)}}
    return replace(
        item,
        plug_rooms=tuple(room for room in rooms if room.depth_mm),
        barriers=tuple(
            replace(one, part=numbers[one.part]) for one in item.barriers if one.part in numbers
        ),
    )


def _smaller(problem: Problem, named: tuple[str, str], by_mm: int) -> Problem:
    """The problem with what is kept out of a tray shrunk on all four sides."""

    def shrunk(room: Rectangle) -> Rectangle | None:
        x0, x1 = room.x0_mm + by_mm, room.x1_mm - by_mm
        y0, y1 = room.y0_mm + by_mm, room.y1_mm - by_mm
        return Rectangle(x0, x1, y0, y1) if x0 < x1 and y0 < y1 else None

    def keep_outs(tray: Tray) -> Tray:
        rows = tuple(
            one if one.id != named[1] else replace(one, room=room)
            for one in tray.keep_outs
            if (room := one.room if one.id != named[1] else shrunk(one.room)) is not None
        )
        return replace(tray, keep_outs=rows)

    def barriers(item: Item) -> Item:
        rows = tuple(
            one if (one.tray, one.id) != named else replace(one, room=room)
            for one in item.barriers
            if (room := one.room if (one.tray, one.id) != named else shrunk(one.room)) is not None
        )
        return replace(item, barriers=rows)

    trays = tuple(keep_outs(one) if one.id == named[0] else one for one in problem.trays)
    return replace(problem, trays=trays, items=tuple(barriers(one) for one in problem.items))
