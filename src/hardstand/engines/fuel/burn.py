"""The fillings that a flight runs through: full to the reserve, and on to the last of the header."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hardstand.description.fuel import State

TO_RESERVE = 21
TO_EMPTY = 5
OF_HEADER = 5


def burn_fillings(
    reserve_pct: float, header_pct: float
) -> tuple[tuple[tuple[float, float], ...], int]:
    """Fillings (main tanks, header), per cent, in the order burned, and how many of them in flight.

    The first 21 run from full to the reserve; behind them come the main tanks down to nothing and
    then the header, which are not meant to be flown.

    >>> fillings, flown = burn_fillings(20.0, 100.0)
    >>> fillings[0], fillings[flown - 1], fillings[-1]
    ((100.0, 100.0), (20.0, 100.0), (0.0, 0.0))
    """
    flown = np.linspace(100.0, reserve_pct, TO_RESERVE)
    below = np.linspace(reserve_pct, 0.0, TO_EMPTY + 1)[1:]
    header = np.linspace(header_pct, 0.0, OF_HEADER + 1)[1:]
    steps = [(float(one), header_pct) for one in (*flown, *below)]
    steps += [(0.0, float(one)) for one in header]
    return tuple(steps), len(flown)


def burn_bases(states: Sequence[State]) -> tuple[State, ...]:
    """The state each run begins from: of those flown with the gear up, and down, the fullest."""
    bases = []
    for gear in ("up", "down"):
        flown = [state for state in states if state.flown and state.gear == gear]
        if flown:
            bases.append(max(flown, key=lambda state: state.fuel_pct))
    return tuple(bases)


def burn_states(base: State, reserve_pct: float) -> tuple[tuple[State, ...], int]:
    """The states of one run, at the attitude of `base` and with what it has on board."""
    fillings, flown = burn_fillings(reserve_pct, base.header_pct)
    states = tuple(
        base.model_copy(update={"id": f"{base.id}-{k}", "fuel_pct": main, "header_pct": header})
        for k, (main, header) in enumerate(fillings)
    )
    return states, flown
