"""Simulated annealing of many layouts side by side, overlap being allowed at a price.

All layouts of the herd take a step at once as arrays. The price of overlap follows each layout:
it rises while the layout overlaps and falls while it does not. Now and then the worse half of the
herd is replaced by copies of the better half. Random numbers come from the seed alone.
"""

from __future__ import annotations

from collections.abc import Callable

from hardstand.engines.fit.layout.board import Board, Standing
from hardstand.engines.fit.layout.herd import Annealed, Annealer
from hardstand.engines.fit.layout.herding import Drive


def anneal(
    board: Board,
    start: list[Standing] | None,
    seed: int,
    steps: int,
    herd: int = 96,
    hot: tuple[float, float] = (0.0075, 1.5e-5),
    stop: Callable[[], bool] = lambda: False,
) -> Annealed:
    """Anneal a herd of layouts over a number of steps; see the module.

    `hot`: temperature at start and end as shares of the cost at the start.
    """
    drive = Drive(Annealer(board, seed, herd), start, steps, hot)
    while drive.step < steps and not (drive.step % 64 == 0 and stop()):
        drive.once()
    return drive.result()
