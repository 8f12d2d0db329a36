from __future__ import annotations

import numpy as np
import pytest

from hardstand.engines.balance.fitted import solved
from tests.aeroplanes import SMALL, assessed, weighed_as

CG = (955.0, 1.5, -12.0)


def test_a_singular_covariance_is_solved_in_the_least_squares_sense() -> None:
    """Two exact rows that say the same: each counts half, however different their sizes."""
    spread = np.outer([1.0, 1000.0], [1.0, 1000.0])
    found = solved(spread, spread @ np.array([2.0, 0.003]))
    assert spread @ found == pytest.approx(spread @ np.array([2.0, 0.003]))
    regular = np.array([[4.0, 1.0], [1.0, 9e6]])
    right = np.array([[1.0, 2.0], [3.0, 4.0]])
    np.testing.assert_allclose(solved(regular, right), np.linalg.solve(regular, right), rtol=1e-9)


def test_the_order_of_weigh_ins_does_not_count() -> None:
    """Two weigh-ins the other way round give the same aeroplane."""
    one, two = weighed_as(8950.0, CG), weighed_as(8960.0, CG, name="second")
    forth, back = assessed(SMALL, one + two), assessed(SMALL, two + one)
    for figure in ("balance.cg@full", "balance.mass@low", "balance.cg-z@empty"):
        assert forth.figure(figure).value == pytest.approx(back.figure(figure).value, rel=1e-9)
        assert forth.figure(figure).u == pytest.approx(back.figure(figure).u, rel=1e-6)


def test_exact_readings_are_met() -> None:
    """With scales, wheels and level known exactly the weighed state is what was weighed."""
    exactly = weighed_as(8950.0, (955.0, 1.5, 0.0), tol="reading_tol_g = 0").replace("0.05", "0")
    exactly = exactly.replace("station_tol_mm = 0.5", "station_tol_mm = 0")
    found = assessed(SMALL, exactly)
    assert found.figure("balance.mass@empty").value == pytest.approx(8950.0, abs=1e-3)
    assert found.figure("balance.cg-x@empty").value == pytest.approx(955.0, abs=1e-2)
    assert found.figure("balance.mass@empty").u == pytest.approx(0.0, abs=1e-6)


def test_a_weigh_in_with_the_gear_down_tells_of_the_flown_states_too() -> None:
    """A weigh-in 2 mm farther aft moves the CG with the gear up about as far."""
    built = assessed()
    x, z = (built.figure(f"balance.built-cg-{axis}@empty").value for axis in "xz")
    found = assessed(SMALL, weighed_as(8900.0, (x + 2.0, 0.0, z)))
    for state in ("empty", "low"):
        shift = (
            found.figure(f"balance.cg-x@{state}").value
            - built.figure(f"balance.cg-x@{state}").value
        )
        assert 1.2 < shift < 2.0
