"""Finding layouts: proofs on few free items, the bound on many, and the search against annealing.

Run as a script with the parts wanted: six, eight, bound, annealing (all without any). Alone on a
quiet machine with two cores: half an hour.
"""

from __future__ import annotations

import multiprocessing
import random
import statistics
import sys
import time
from dataclasses import replace

from benchmarks.annealing import anneal_one
from benchmarks.layout_demo import demo_problem
from benchmarks.layout_instances import random_aeroplane, three_trays
from hardstand.engines.fit.layout.board import board
from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.plain import solve_plain
from hardstand.engines.fit.layout.problem import Problem
from hardstand.engines.fit.layout.solve import Answer, Progress, solve

TIGHTNESSES = (0.40, 0.50, 0.60)


def few_free(problem: Problem, count: int, seed: int, base: Answer) -> Problem:
    """The problem with `count` seeded items free and the others where a good layout has them."""
    assert base.layout is not None
    free = set(random.Random(seed).sample([item.id for item in problem.items], count))  # noqa: S311
    items = tuple(
        item if item.id in free else replace(item, fixed=spot)
        for item, spot in zip(problem.items, base.layout, strict=True)
    )
    return replace(problem, items=items)


def subsets(count: int, seconds: float = 60.0) -> None:
    """Ten seeded subsets of the demo's items, the others fixed."""
    problem = demo_problem()
    base = solve(problem, stages=1, seconds=20.0, prove=False)
    times, gaps = [], []
    for seed in range(10):
        few, start = few_free(problem, count, seed, base), time.perf_counter()
        answer = solve(few, stages=1000, seconds=seconds)
        times.append(time.perf_counter() - start)
        gaps.append(answer.gap_pct or 0.0)
        print(
            f"  {count} free, seed {seed}: {answer.ending}, {times[-1]:.1f} s, gap {gaps[-1]:.2f} %"
        )
    print(f"{count} free: slowest {max(times):.1f} s, largest gap {max(gaps):.2f} %")


def bounds(seconds: float = 60.0) -> None:
    """First layout, best layout and bound for all items, and the plain formulation's bound.

    The processor's time tells what each of the two got of a machine that others use too.
    """
    for name, make in (("three trays", three_trays), ("demo", demo_problem)):
        problem = make()
        told: list[tuple[float, Progress]] = []
        start, begun = time.perf_counter(), time.process_time()
        answer = solve(
            problem, stages=1000, seconds=seconds,
            progress=lambda one, start=start, told=told: told.append(  # type: ignore[misc]
                (time.perf_counter() - start, one)
            ),
        )  # fmt: skip
        between = time.process_time()
        plain = solve_plain(board(problem), seconds)
        ended = time.process_time()
        assert answer.cost is not None
        best = min(answer.cost.total, plain.cost or answer.cost.total)
        ours, theirs = best - answer.bound, best - plain.bound
        print(
            f"{name}: first layout {told[0][0]:.2f} s; {answer.cost.total}, bound {answer.bound}, "
            f"gap {answer.gap_pct:.1f} %; plain {plain.cost}, bound {plain.bound}; "
            f"distance to the best known {_of(ours, theirs)}; "
            f"processor {between - begun:.0f} s and {ended - between:.0f} s",
            flush=True,
        )


def _of(ours: int, theirs: int) -> str:
    if theirs == 0:
        return f"{ours}, where the plain one has proven its own"
    return f"{ours / theirs:.2f} of the plain one's"


def _annealed(job: tuple[Problem, int, float]) -> int | None:
    made = board(job[0])
    found = anneal_one(made, job[1], job[2])
    if found.standings is None:
        return None
    layout = made.layout(found.standings)
    assert not faults(job[0], layout)
    return evaluate(job[0], layout).total


def _searched(job: tuple[Problem, int, float]) -> int | None:
    answer = solve(job[0], seed=job[1], stages=1000, seconds=job[2], prove=False)
    return None if answer.cost is None else answer.cost.total


def against_annealing(seconds: float = 30.0, instances: int = 20) -> None:
    """Random aeroplanes of three tightnesses: two searches, one a core, against two annealings."""
    ratios = []
    with multiprocessing.get_context("spawn").Pool(2) as pool:
        tuned = pool.map(_annealed, [(three_trays(), seed, seconds) for seed in (1, 2)])
        print(f"annealing on three trays: {tuned}")
        for seed in range(instances):
            problem = random_aeroplane(seed, TIGHTNESSES[seed % 3])
            costs = pool.map(_annealed, [(problem, one, seconds) for one in (1, 2)])
            theirs = min((one for one in costs if one is not None), default=None)
            found = pool.map(_searched, [(problem, one, seconds) for one in (1, 2)])
            ours = min((one for one in found if one is not None), default=None)
            line = f"  {seed} ({len(problem.items)} items, {TIGHTNESSES[seed % 3]:.2f}): "
            print(f"{line}annealing {costs}, ours {found}", flush=True)
            if ours is not None and theirs is not None:
                ratios.append(ours / theirs)
            elif ours is None and theirs is not None:
                ratios.append(float("inf"))
    print(f"ours over annealing: median {statistics.median(ratios):.4f}, worst {max(ratios):.4f}")


def main() -> None:
    """Run the parts named on the command line."""
    parts = sys.argv[1:] or ["six", "eight", "bound", "annealing"]
    if "six" in parts:
        subsets(6)
    if "eight" in parts:
        subsets(8)
    if "bound" in parts:
        bounds()
    if "annealing" in parts:
        against_annealing()


if __name__ == "__main__":
    main()
