from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.balance.moments import roll_up, sensitivity


def _random(seed: int, states: int = 3, count: int = 7) -> tuple[np.ndarray, ...]:
    """Return masses by state, places by state and a presence matrix with every state loaded."""
    rng = np.random.default_rng(seed)
    present = rng.integers(0, 2, (states, count)).astype(float)
    present[:, 0] = 1.0
    return rng.uniform(5, 3000, (states, count)), rng.normal(900, 500, (states, count, 3)), present


@given(st.integers(0, 2**32 - 1))
def test_inertia_does_not_depend_on_how_masses_are_grouped(seed: int) -> None:
    """Rolling up two halves and then the halves gives what rolling up all gives."""
    mass, at, present = _random(seed, states=1)
    whole = roll_up(mass, at, present)
    parts = []
    for group in (slice(0, 3), slice(3, None)):
        share = np.zeros_like(present)
        share[:, group] = 1.0
        parts.append(roll_up(mass, at, share))
    both = roll_up(
        np.concatenate([p.mass_g for p in parts]),
        np.concatenate([p.cg_mm for p in parts]),
        [[1, 1]],
        np.concatenate([p.inertia_kgm2 for p in parts]),
    )
    all_in = roll_up(mass, at, np.ones_like(present))
    assert both.cg_mm == pytest.approx(all_in.cg_mm, rel=1e-9)
    assert both.inertia_kgm2 == pytest.approx(all_in.inertia_kgm2, rel=1e-9, abs=1e-12)
    assert whole.mass_g[0] == pytest.approx(np.sum(mass * present))


@given(st.integers(0, 2**32 - 1))
def test_inertia_moves_with_the_aeroplane_and_is_physical(seed: int) -> None:
    """A shift of all masses changes nothing; each moment is at most the sum of the others."""
    mass, at, present = _random(seed)
    here, there = roll_up(mass, at, present), roll_up(mass, at + np.array([5e3, -40, 7]), present)
    assert there.inertia_kgm2 == pytest.approx(here.inertia_kgm2, rel=1e-6, abs=1e-9)
    principal = np.linalg.eigvalsh(here.inertia_kgm2)
    assert np.all(principal[:, 2] <= (principal[:, 0] + principal[:, 1]) * (1 + 1e-9) + 1e-12)


def test_product_is_positive_with_mass_aft_and_high() -> None:
    """A heavy fin aft and high makes the xz product positive and the tensor's element negative."""
    state = roll_up([1000.0, 1000.0], [[0.0, 0.0, 0.0], [1000.0, 0.0, 400.0]], [[1, 1]])
    assert state.product_xz_kgm2[0] == pytest.approx(2 * 1.0 * 0.5 * 0.2)
    assert state.inertia_kgm2[0, 0, 2] == pytest.approx(-0.2)


def test_slopes_are_those_of_differences() -> None:
    """Every analytic derivative agrees with a central difference of the roll-up."""
    mass, at, present = _random(7)
    matrix = sensitivity(mass[0], at[0], present).matrix()
    count = mass.shape[1]
    for column in range(4 * count):
        kind, item = divmod(column, count)
        step = 0.01
        results = []
        for sign in (1.0, -1.0):
            m, r = mass[0].copy(), at[0].copy()
            if kind == 0:
                m[item] += sign * step
            else:
                r[item, kind - 1] += sign * step
            state = roll_up(m, r, present)
            results.append(np.column_stack([state.mass_g, state.cg_mm]))
        slope = (results[0] - results[1]) / (2.0 * step)
        assert matrix[:, :, column] == pytest.approx(slope, abs=2e-7)


def test_a_state_without_mass_is_refused() -> None:
    """The error names the states that weigh nothing."""
    with pytest.raises(ValueError, match=r"states \[1\] weigh nothing"):
        roll_up([10.0, 20.0], np.zeros((2, 3)), [[1, 0], [0, 0]])
