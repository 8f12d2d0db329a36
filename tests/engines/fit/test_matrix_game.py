from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import linprog

from hardstand.engines.fit.matrix_game import game_value


def test_value_is_that_of_the_linear_programme() -> None:
    """The value equals the optimum of the linear programme that defines it."""
    games = np.random.default_rng(4).normal(size=(60, 3, 3))
    games[20:40] = np.round(games[20:40])
    games[40:50, 1] = games[40:50, 0]
    expected = []
    for game in games:
        # Most v with weights @ game >= v, weights not negative, summing to one.
        found = linprog(
            [0.0, 0.0, 0.0, -1.0],
            A_ub=np.column_stack([-game.T, np.ones(3)]),
            b_ub=np.zeros(3),
            A_eq=[[1.0, 1.0, 1.0, 0.0]],
            b_eq=[1.0],
            bounds=[(0.0, None)] * 3 + [(None, None)],
        )
        expected.append(float(np.asarray(found.x)[3]))
    assert game_value(games) == pytest.approx(np.array(expected), abs=1e-9)
