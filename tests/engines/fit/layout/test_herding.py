from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.fit.layout.annealing import anneal
from hardstand.engines.fit.layout.board import board
from hardstand.engines.fit.layout.cost import evaluate, faults
from hardstand.engines.fit.layout.herd import Annealer
from hardstand.engines.fit.layout.herding import Drive
from tests.engines.fit.layout.small_problems import small_problem


@pytest.mark.parametrize("seed", range(4))
def test_what_moves_add_up_to_is_what_the_whole_costs(seed: int) -> None:
    """After 300 moves the herd's running cost, overlap and moments equal those worked out anew."""
    problem = small_problem(seed, items=4)
    made = board(problem)
    drive = Drive(Annealer(made, seed, 8), None, 300, (0.0075, 1.5e-5))
    for _ in range(300):
        drive.once()
    cost, over = drive.it.whole(drive.herd)
    assert np.allclose(cost, drive.cost)
    assert np.allclose(over, drive.over, atol=1e-4)
    assert np.allclose(drive.it.moments(drive.herd), drive.moments)
    for row in range(8):
        first = drive.it.chart.first
        standings = [
            (int(drive.herd.stance[row, i] - first[i]), *map(int, drive.herd.corner[row, i]))
            for i in range(4)
        ]
        layout = made.layout(standings)  # type: ignore[arg-type]
        assert evaluate(problem, layout).total == pytest.approx(cost[row])
        assert (not faults(problem, layout)) == (over[row] < 1e-3)


def test_annealing_repeats_itself_and_is_legal() -> None:
    """The same seed gives the same layout; another one of the herd's layouts is legal, too."""
    made = board(small_problem(2, items=4))
    one, other = anneal(made, None, 5, 400, 8), anneal(made, None, 5, 400, 8)
    assert one.standings == other.standings
    assert one.herd == other.herd
    assert one.standings is not None
    assert not faults(made.problem, made.layout(one.standings))
