"""Small plans of channels, made at random from a seed, and the best of them found by trying all."""

from __future__ import annotations

import itertools
import random

from hardstand.engines.harness.planning.cost import evaluate, faults
from hardstand.engines.harness.planning.problem import (
    LEVELS,
    Bar,
    Capacity,
    Cost,
    Failure,
    Group,
    Level,
    Place,
    Plug,
    Problem,
    Share,
    Spot,
)


def random_problem(seed: int) -> Problem:
    """A problem of up to three places, five outputs and four plugs, with a bit of everything."""
    rng = random.Random(seed)  # noqa: S311 problems to try, not secrets
    places = tuple(
        Place(tuple(f"{name}.out-{n}" for n in range(rng.randint(1, 2))), name, f"{name}.rail")
        for name in "abc"[: rng.randint(1, 3)]
    )
    spots = [(c, n) for c, place in enumerate(places) for n in range(len(place.ends))]
    count = rng.randint(1, min(4, len(spots)))
    now: list[Spot] = rng.sample(spots, count)
    if count > 1 and rng.random() < 0.3:
        now[1] = now[0]  # two at one output
    plugs = tuple(_plug(rng, f"L{k}", now[k], places) for k in range(count))
    groups = tuple(
        Group(f"group {k}", rng.choice([1, 10, 100]),
              tuple(sorted(rng.sample(range(count), rng.randint(1, count)))))
        for k in range(rng.randint(0, 3))
    )  # fmt: skip
    failures = tuple(
        Failure(f"f{k}", frozenset(c for c in range(len(places)) if rng.random() < 0.5))
        for k in range(rng.randint(0, 3))
    )
    capacities = tuple(
        Capacity(f"r{c}", "", rng.randint(0, 500), rng.randint(900, 4000), frozenset([c]))
        for c in range(len(places)) if rng.random() < 0.5
    )  # fmt: skip
    family = tuple(Share(one.item, rng.randint(0, 500), {c: rng.choice([0, 30, 60])})
                   for c, one in enumerate(places))  # fmt: skip
    return Problem(places, plugs, groups, failures, capacities, (family,))


def _plug(rng: random.Random, name: str, now: Spot, places: tuple[Place, ...]) -> Plug:
    fits = {c: rng.randint(10, 900) for c in range(len(places)) if c == now[0] or rng.random() < 0.8}
    whys: list[Bar] = ["gyro", "current"]
    barred = {c: rng.choice(whys) for c in fits if rng.random() < 0.1}
    short = frozenset(c for c in fits if rng.random() < 0.3)
    return Plug(name, now, rng.randint(0, 1500), fits, barred, short, kept=rng.random() < 0.15)


def best_of_all(problem: Problem, order: tuple[Level, ...] = LEVELS) -> Cost | None:
    """The least cost over every way to give each plug an output, by counting; None where none is legal."""
    spots = [(c, n) for c, place in enumerate(problem.places) for n in range(len(place.ends))]
    legal = [evaluate(problem, plan)
             for plan in itertools.product(spots, repeat=len(problem.plugs))
             if not faults(problem, plan)]  # fmt: skip
    return min(legal, key=lambda one: one.ranked(order), default=None)

