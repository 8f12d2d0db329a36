"""Small placement problems drawn at random, small enough to be solved by trying everything."""

from __future__ import annotations

import itertools

import numpy as np

from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.problem import (
    Balance,
    Centred,
    Face,
    Item,
    ItemPort,
    KeepOut,
    Lead,
    Place,
    PlugRoom,
    Point,
    Port,
    Problem,
    Rectangle,
    Spot,
    Tray,
)

FACES: tuple[Face, ...] = ("front", "back", "left", "right")


def small_problem(seed: int, items: int = 3) -> Problem:
    """Items of 2 to 5 mm on a slanted tray of 11 by 9 mm with a keep-out, and a bar beside it."""
    rng = np.random.default_rng(seed)
    low = KeepOut("low", Rectangle(4, 6, 3, 5), int(rng.integers(0, 4)))
    trays = (
        Tray("slanted", ((0, 0), (11, 0), (11, 6), (8, 9), (0, 9)), 2.0, 9, (low,)),
        Tray("bar", ((20, 2), (27, 2), (27, 7), (20, 7)), 6.5),
    )
    found = tuple(_item(rng, f"item-{k}") for k in range(items))
    ends = [ItemPort(item.id, "plug") for item in found]
    leads = [
        Lead(f"l{a}{b}", ends[a], ends[b], int(rng.integers(1, 4)))
        for a, b in itertools.combinations(range(items), 2)
    ]
    leads += [Lead(f"p{k}", end, Point((16.0, 3.5, 5.0)), 1) for k, end in enumerate(ends)]
    return Problem(
        trays,
        found,
        tuple(leads),
        (Centred(found[0].id, 4.0, 2),),
        (Balance("x", int(rng.integers(50, 200)), 1),),
        gap_mm=int(rng.integers(0, 2)),
        plug_rooms_shared=bool(rng.integers(0, 2)),
    )


def _item(rng: np.random.Generator, name: str) -> Item:
    length, width, height = (int(v) for v in rng.integers(2, 6, 3))
    room = PlugRoom(FACES[int(rng.integers(4))], int(rng.integers(1, 3)), height_mm=2)
    port = Port("plug", (float(length), width / 2, 1.0))
    places = (Place("slanted"), Place("bar", cost=int(rng.integers(0, 9))))
    turns = (0, 1) if rng.integers(2) else (0, 3)
    return Item(
        name, (length, width, height), places, (room,), (port,), turns, int(rng.integers(9))
    )


def every_spot(problem: Problem, item: Item) -> list[Spot]:
    """All spots of an item that are legal by itself."""
    alone = Problem(problem.trays, (item,))
    spans = {"slanted": ((0, 11), (0, 9)), "bar": ((20, 27), (2, 7))}
    return [
        spot
        for place in item.places
        for turn in item.turns
        for x in range(*spans[place.tray][0])
        for y in range(*spans[place.tray][1])
        if not faults(alone, ((spot := Spot(place.tray, turn, x, y)),))
    ]


def least_cost(problem: Problem) -> int | None:
    """The least cost over every legal layout; None without any. Only for very few items."""
    spots = [every_spot(problem, item) for item in problem.items]
    costed = [(evaluate(problem, layout).total, layout) for layout in itertools.product(*spots)]
    costed.sort(key=lambda one: one[0])
    return next((cost for cost, layout in costed if not faults(problem, layout)), None)
