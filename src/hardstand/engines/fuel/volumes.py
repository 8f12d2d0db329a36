"""How much fuel is in every tank in every state, from what the states say about the filling."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from hardstand.asbuilt.value import PlacedTank
from hardstand.description.fuel import State
from hardstand.engines.fuel.emptying import share_out

Floats = NDArray[np.float64]


def volumes_ml(tanks: Sequence[PlacedTank], states: Sequence[State]) -> Floats:
    """Fuel in every tank in every state, ml, (S, K).

    `fuel_pct` is of the main tanks together, drawn in their order of emptying; header tanks hold
    their own `header_pct`. A tank whose item is off in a state holds nothing, and the others'
    filling is then of what the others hold.

    >>> volumes_ml((), (State(id="ref"),)).shape
    (1, 0)
    """
    result = np.zeros((len(states), len(tanks)))
    absent = [frozenset(state.without) for state in states]
    for pattern in set(absent):
        rows = [s for s, one in enumerate(absent) if one == pattern]
        aboard = [k for k, tank in enumerate(tanks) if tank.item not in pattern]
        chosen = [states[s] for s in rows]
        result[np.ix_(rows, aboard)] = _all_aboard_ml([tanks[k] for k in aboard], chosen)
    return result


def _all_aboard_ml(tanks: Sequence[PlacedTank], states: Sequence[State]) -> Floats:
    capacity = np.array([tank.capacity.value for tank in tanks], dtype=np.float64)
    header = np.array([tank.header for tank in tanks], dtype=bool)
    order = np.array([tank.order for tank in tanks], dtype=np.int64)
    result = np.zeros((len(states), len(tanks)))
    header_share = np.array([state.header_pct for state in states]) / 100.0
    result[:, header] = header_share[:, None] * capacity[header]
    if np.any(~header):
        main = capacity[~header]
        share = np.array([state.fuel_pct for state in states]) / 100.0
        none_header = np.zeros(main.size, dtype=bool)
        result[:, ~header] = share_out(share * main.sum(), main, order[~header], none_header)
    return result
