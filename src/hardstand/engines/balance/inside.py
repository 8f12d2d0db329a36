"""Node: the chance that the CG is inside its range and every state flown keeps its static margin."""

from __future__ import annotations

from typing import Any

import numpy as np

from hardstand.engines.balance.bounds import low_of
from hardstand.engines.balance.margins import LEAST_PCT
from hardstand.engines.balance.model import Floats, Headline, Inside, Stability
from hardstand.engines.balance.uniform_normal import chance_below
from hardstand.figures import FigureSet

DRAWS = 4096
SEED = 4102


def inside(slices: Any, earlier: Any) -> Inside | None:
    """The joint chance over the judged state and all states flown; None where nothing is judged.

    The CGs of all states are drawn together from their common causes (seeded, so always alike); for
    each draw the chance of the neutral point is exact, so that sampling adds next to nothing. A
    probability of the model: it says nothing about what the model leaves out.
    """
    head: Headline | None = earlier["balance.headline"]
    stability: Stability | None = earlier["balance.stability"]
    if head is None:
        return None
    table = slices.aeroplane
    ranged = table.cg_range_mm is not None and table.cg_range_state in head.state_ids
    flown = [state.id for state in slices.states if state.flown and state.id in head.state_ids]
    point = stability.point if stability is not None and flown else None
    if slices.cg_mark is None or not ranged:
        if point is None:
            return None
        ranged = False
    wanted = [f"balance.cg-mac@{state}" for state in flown] if point is not None else []
    wanted += [f"balance.cg@{table.cg_range_state}"] if ranged else []
    drawn = _drawn(head.figures, wanted)
    chances = np.ones(DRAWS)
    if point is not None:
        limit = max(low_of(slices.limits["balance.static-margin"]), LEAST_PCT)
        worst = drawn[:, : len(flown)].max(axis=1) + limit
        chances -= chance_below(worst, point.lower_pct, point.upper_pct, point.normal_u_pct)
    if ranged:
        low, high = table.cg_range_mm
        chances *= (drawn[:, -1] >= low) & (drawn[:, -1] <= high)
    address = "balance.chance-inside@flown"
    value = 100.0 * float(chances.mean())
    figures = FigureSet(
        (address,),
        np.array([value]),
        ("pct",),
        (),
        np.zeros((1, 0)),
        np.array([100.0 * float(chances.std()) / np.sqrt(DRAWS)]),
        ("chance that the CG is in its range and every state flown keeps its margin",),
        {address: tuple(wanted)},
        f"{DRAWS} draws of all CGs together, seed {SEED}; neutral point exact",
    )
    return Inside(value, tuple(flown) if point is not None else (), ranged, figures)


def _drawn(figures: FigureSet, addresses: list[str]) -> Floats:
    """Draws (DRAWS, A) of several figures of a set together."""
    rows = [figures.addresses.index(one) for one in addresses]
    spread = figures.sensitivity[rows] * figures.input_u
    size, direction = np.linalg.eigh(spread @ spread.T)
    root = direction * np.sqrt(np.maximum(size, 0.0))
    random = np.random.default_rng(SEED).standard_normal((DRAWS // 2, len(rows)))
    both = np.concatenate([random, -random])  # in pairs, so that the mean is exact
    return np.asarray(figures.values[rows] + both @ root.T, dtype=np.float64)
