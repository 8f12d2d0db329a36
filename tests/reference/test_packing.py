"""Layout finding against published packing problems whose optimum is known."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from hardstand.engines.fit.layout.board import board
from hardstand.engines.fit.layout.cost import faults
from hardstand.engines.fit.layout.feasible import feasibility
from hardstand.engines.fit.layout.problem import Item, Place, Problem, Spot, Tray

DATA = Path(__file__).parent / "data" / "packing.toml"
CASES: dict[str, dict[str, Any]] = {
    case["id"]: case for case in tomllib.loads(DATA.read_text(encoding="utf-8"))["case"]
}


def sheet(
    width: int, height: int, sizes: list[tuple[int, int]], turns: tuple[int, ...] = (0,)
) -> Problem:
    """Rectangles to be packed into a sheet of width by height."""
    tray = Tray("sheet", ((0, 0), (width, 0), (width, height), (0, height)))
    items = tuple(
        Item(f"r{k}", (*size, 1), (Place("sheet"),), turns=turns) for k, size in enumerate(sizes)
    )
    return Problem((tray,), items)


@pytest.mark.parametrize(
    "case_id", ["pk-01", pytest.param("pk-02", marks=pytest.mark.slow), "pk-03"]
)
def test_perfect_packings_are_found(case_id: str) -> None:
    """All rectangles fit the sheet of optimal height without waste, and none less high would do.

    Sources: Hopper and Turton, European Journal of Operational Research 128 (2001) 34-57, C1
    problems 1 and 2; Burke, Kendall and Whitwell, Operations Research 52 (2004) 655-671, N1. Grade:
    seen (in a public collection). By area nothing lower can be had.
    """
    case = CASES[case_id]
    sizes = [(w, h) for w, h in case["inputs"]["items_w_h"]]
    width, height = case["inputs"]["strip_width"], case["expected"]["optimal_height"]
    assert sum(w * h for w, h in sizes) == width * height == case["expected"]["total_area"]
    problem = sheet(width, height, sizes)
    made = board(problem)
    found = feasibility(made, 1, 60.0, tries=1)
    assert found.standings is not None
    assert not faults(problem, made.layout(found.standings))
    placement = case["expected"]["one_optimal_placement"]
    assert not faults(problem, tuple(Spot("sheet", 0, x, y) for x, y in placement))


def test_the_squared_square_passes_and_one_moved_square_does_not() -> None:
    """Duijvestijn's 21 squares tile the square of side 112; any one moved by 1 mm is a fault.

    Source: A. J. W. Duijvestijn, Journal of Combinatorial Theory B 25 (1978) 240-243. Grade: seen.
    """
    case = CASES["pk-04"]
    side = case["expected"]["container_side"]
    placed = case["expected"]["placement_side_x_y"]
    problem = sheet(side, side, [(one, one) for one, _, _ in placed])
    spots = [Spot("sheet", 0, x, y) for _, x, y in placed]
    assert not faults(problem, tuple(spots))
    for k, (_, x, y) in enumerate(placed):
        moved = [*spots[:k], Spot("sheet", 0, x + 1, y), *spots[k + 1 :]]
        assert faults(problem, tuple(moved))


@pytest.mark.parametrize("n", [2, 3, 4, 5, 6])
def test_the_smallest_rectangle_for_squares_of_1_to_n(n: int) -> None:
    """The squares fit a rectangle of the published area and, proven, none of smaller area.

    Source: OEIS A038666. Grade: seen.
    """
    case = CASES["pk-05"]
    at = case["inputs"]["n"].index(n)
    area, (width, height) = (
        case["expected"]["minimum_area"][at],
        case["expected"]["one_optimal_size"][at],
    )
    sizes = [(k, k) for k in range(n, 0, -1)]
    found = feasibility(board(sheet(width, height, sizes)), 1, 30.0)
    assert width * height == area
    assert found.standings is not None
    for low in range(n, int(area**0.5) + 1):
        high = (area - 1) // low
        if high < low or low * high < sum(w * h for w, h in sizes):
            continue
        smaller = feasibility(board(sheet(low, high, sizes)), 1, 30.0)
        assert smaller.standings is None
        assert smaller.proven
