"""The judge: what a layout costs and what is wrong with it, from the problem alone.

Nothing of the search or the proof is used here but footprints: solver and judge share no shortcut.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.fit.layout.footprint import Footprint, Part, footprint
from hardstand.engines.fit.layout.problem import Item, ItemPort, Layout, Problem, Rectangle, Spot
from hardstand.engines.fit.layout.raster import cells_inside

Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Cost:
    """The parts of a layout's cost in points; lead_mm: weighted lead length; off_g_mm by balance."""

    leads: int
    centred: int
    balances: int
    apart: int
    places: int
    lead_mm: float
    off_g_mm: tuple[float, ...]

    @property
    def total(self) -> int:
        """The sum that is minimised."""
        return self.leads + self.centred + self.balances + self.apart + self.places


def evaluate(problem: Problem, layout: Layout) -> Cost:
    """The cost of a layout, legal or not. One point is half a millimetre of lead of weight one.

    >>> from hardstand.engines.fit.layout.problem import Lead, Place, Point, Tray
    >>> tray = Tray("t", ((0, 0), (100, 0), (100, 50), (0, 50)))
    >>> box = Item("box", (10, 10, 10), (Place("t"),))
    >>> lead = Lead("l", ItemPort("box"), Point((50, 25, 5)), 2)
    >>> evaluate(Problem((tray,), (box,), (lead,)), (Spot("t", 0, 0, 0),)).total
    260
    """
    shapes = [footprint(item, spot.turn) for item, spot in zip(problem.items, layout, strict=True)]
    numbers = {item.id: i for i, item in enumerate(problem.items)}

    def point(end: object) -> Ints:
        if isinstance(end, ItemPort):
            i = numbers[end.item]
            spot, z = layout[i], problem.tray(layout[i].tray).top_z_mm
            corner = (2 * spot.x_mm, 2 * spot.y_mm, round(2 * z))
            at: Ints = np.array(corner) + np.array(shapes[i].ports[end.port])
            return at
        return np.array([round(2 * value) for value in end.at_mm])  # type: ignore[attr-defined]

    spans = np.array(
        [np.abs(point(lead.start) - point(lead.end)).sum() for lead in problem.leads], dtype=int
    )
    weights = np.array([lead.weight for lead in problem.leads], dtype=int)
    middles = np.array([point(ItemPort(item.id)) for item in problem.items]).reshape(-1, 3)
    centred = sum(
        wish.weight * abs(int(middles[numbers[wish.item], 1]) - round(2 * wish.y_mm))
        for wish in problem.centred
    )
    masses = np.array([item.mass_g for item in problem.items])
    off = [
        int(masses @ middles[:, 0 if balance.axis == "x" else 1]) - 2 * balance.target_g_mm
        for balance in problem.balances
    ]
    balances = sum(
        balance.weight * abs(one) for balance, one in zip(problem.balances, off, strict=True)
    )
    apart = 0
    for near in problem.apart:
        one, other = (middles[numbers[item]] for item in near.items)
        short = 2 * near.distance_mm - int(np.abs(one - other)[:2].sum())
        apart += near.weight * max(0, short)
    places = sum(_place_cost(item, spot) for item, spot in zip(problem.items, layout, strict=True))
    return Cost(
        int(weights @ spans), centred, balances, apart, places, float(weights @ spans) / 2.0,
        tuple(one / 2.0 for one in off),
    )  # fmt: skip


def _place_cost(item: Item, spot: Spot) -> int:
    return next((place.cost for place in item.places if place.tray == spot.tray), 0)


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong: `what` is one of outside, keep-out, headroom, place or collision."""

    what: str
    about: tuple[str, ...]


def faults(problem: Problem, layout: Layout) -> tuple[Fault, ...]:
    """Everything that makes a layout illegal, save between fixed items; empty for a legal one.

    >>> tray_less = Problem((), ())
    >>> faults(tray_less, ())
    ()
    """
    found: list[Fault] = []
    shapes = [footprint(item, spot.turn) for item, spot in zip(problem.items, layout, strict=True)]
    for item, spot, shape in zip(problem.items, layout, shapes, strict=True):
        if item.fixed is not None:
            if spot != item.fixed:
                found.append(Fault("place", (item.id,)))
        else:
            found += _alone(problem, item, spot, shape)
    for i, one in enumerate(problem.items):
        for j in range(i):
            other = problem.items[j]
            apart = layout[i].tray != layout[j].tray
            if apart or (one.fixed is not None and other.fixed is not None):
                continue
            if _collide(problem, (layout[i], shapes[i]), (layout[j], shapes[j])):
                found.append(Fault("collision", (other.id, one.id)))
    return tuple(found)


def _alone(problem: Problem, item: Item, spot: Spot, shape: Footprint) -> list[Fault]:
    """The faults of one item on its tray, the others aside."""
    found = []
    tray = problem.tray(spot.tray)
    place = next((place for place in item.places if place.tray == spot.tray), None)
    middle = (2 * spot.x_mm + shape.length_mm, 2 * spot.y_mm + shape.width_mm)
    spans = () if place is None else zip(middle, (place.x_mm, place.y_mm), strict=True)
    if (
        place is None
        or spot.turn % 4 not in {turn % 4 for turn in item.turns}
        or any(span and not 2 * span[0] <= at <= 2 * span[1] for at, span in spans)
    ):
        found.append(Fault("place", (item.id, tray.id)))
    for part in shape.parts:
        room = _moved(part.room, spot)
        size = (room.x1_mm - room.x0_mm, room.y1_mm - room.y0_mm)
        inside = cells_inside(tray.outline_mm, (room.x0_mm, room.y0_mm), size).all()
        if not inside and not (part.plug and tray.plugs_overhang):
            found.append(Fault("outside", (item.id, tray.id)))
        if tray.headroom_mm is not None and part.top_mm > tray.headroom_mm:
            found.append(Fault("headroom", (item.id, tray.id)))
        found += [
            Fault("keep-out", (item.id, keep_out.id))
            for keep_out in tray.keep_outs
            if keep_out.bottom_mm < part.top_mm
            and part.bottom_mm < keep_out.top_mm
            and _overlap(room, keep_out.room, 0)
        ]
    for barrier in item.barriers:
        there = barrier.tray == tray.id and barrier.part < len(shape.parts)
        if there and _overlap(_moved(shape.parts[barrier.part].room, spot), barrier.room, 0):
            found.append(Fault("keep-out", (item.id, barrier.id)))
    return found


def _collide(problem: Problem, one: tuple[Spot, Footprint], other: tuple[Spot, Footprint]) -> bool:
    return any(
        _overlap(
            _moved(a.room, one[0]),
            _moved(b.room, other[0]),
            0 if a.plug or b.plug else problem.gap_mm,
        )
        for a in one[1].parts
        for b in other[1].parts
        if _meet(a, b) and not (a.plug and b.plug and problem.plug_rooms_shared)
    )


def _meet(a: Part, b: Part) -> bool:
    return a.bottom_mm < b.top_mm and b.bottom_mm < a.top_mm


def _moved(room: Rectangle, spot: Spot) -> Rectangle:
    return Rectangle(
        room.x0_mm + spot.x_mm,
        room.x1_mm + spot.x_mm,
        room.y0_mm + spot.y_mm,
        room.y1_mm + spot.y_mm,
    )


def _overlap(a: Rectangle, b: Rectangle, gap_mm: int) -> bool:
    return (
        a.x0_mm < b.x1_mm + gap_mm
        and b.x0_mm < a.x1_mm + gap_mm
        and a.y0_mm < b.y1_mm + gap_mm
        and b.y0_mm < a.y1_mm + gap_mm
    )
