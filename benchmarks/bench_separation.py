"""Signed distance of many pairs: our batch against a compiled library called pair by pair.

Run it as a script. Both work on the same pairs in the same process, each the best of several, so
the ratio says something even on a machine that is busy or slow. Where the library has no build
only our own time is shown.
"""

from __future__ import annotations

from collections.abc import Callable
from time import perf_counter
from typing import Any

import numpy as np

from hardstand.engines.fit.body import Body
from hardstand.engines.fit.separation import separation
from hardstand.engines.fit.shapes import box, cylinder

COUNTS = (10, 100, 1_000, 10_000)
ROUNDS = 5


def random_bodies(count: int, seed: int) -> list[Body]:
    """Turned boxes and cylinders of 5 to 400 mm; about a fifth of the pairs of two lists overlap."""
    rng = np.random.default_rng(seed)
    bodies = []
    for _ in range(count):
        place, sizes = rng.uniform(-250.0, 250.0, 3), rng.uniform(5.0, 400.0, 3)
        turn, tilt = rng.uniform(0.0, 360.0), (rng.uniform(0.0, 360.0), rng.uniform(0.0, 360.0))
        if rng.uniform() < 0.5:
            bodies.append(box(place, sizes, turn, tilt))
        else:
            bodies.append(cylinder(place, sizes[0] / 2.0, sizes[1], turn, tilt))
    return bodies


def best_of(call: Callable[[], object]) -> float:
    """Least of several times of a call, in s."""
    times = []
    for _ in range(ROUNDS):
        start = perf_counter()
        call()
        times.append(perf_counter() - start)
    return min(times)


def library_call(first: list[Body], second: list[Body]) -> Callable[[], object] | None:
    """A call that measures all pairs by the library coal, shapes made beforehand; None without it."""
    try:
        import coal
    except ImportError:
        return None
    request = coal.DistanceRequest()
    request.enable_signed_distance = True

    def placed(body: Body) -> tuple[Any, Any]:
        if body.kind == "box":
            shape = coal.Box(*(2.0 * body.half_mm))
        else:
            shape = coal.Cylinder(body.half_mm[0], 2.0 * body.half_mm[2])
        return shape, coal.Transform3s(body.rotation, body.centre_mm)

    ready = [(*placed(a), *placed(b)) for a, b in zip(first, second, strict=True)]
    return lambda: [coal.distance(*pair, request, coal.DistanceResult()) for pair in ready]


def main() -> None:
    """Print one line for each number of pairs."""
    print(f"signed distance of box and cylinder pairs, best of {ROUNDS}")
    for count in COUNTS:
        first, second = random_bodies(count, 1), random_bodies(count, 2)
        ours = best_of(lambda a=first, b=second: separation(a, b))  # type: ignore[misc]
        line = f"{count:6d} pairs: batch {1e3 * ours:8.1f} ms, {1e6 * ours / count:8.1f} µs a pair"
        call = library_call(first, second)
        if call is None:
            print(f"{line}; library not installed, no ratio")
            continue
        theirs = best_of(call)
        print(f"{line}; library pair by pair {1e3 * theirs:7.1f} ms; ratio {ours / theirs:6.1f}")


if __name__ == "__main__":
    main()
