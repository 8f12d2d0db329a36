"""Cases of one network: what is drawn, how full the packs are, what has failed; as arrays."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.network.network import Network

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Cases:
    """K cases. Each array has K rows, or one row that all cases share.

    `load_a` (K, loads); `charge` (K, packs), fractions; `resistance_factor` (K, packs) on top of the
    packs' own; `cell_v` (K, 1) on top of the rest voltage of every cell, and `copper_factor` (K, 1) on
    the resistance of every resistor; `set_v` (K, regulators); `closed` (K, switches); `opened`, `shorted` and `stuck`
    (K, elements), as `failures` explains them. Make them with `cases`.
    """

    load_a: Floats
    charge: Floats
    resistance_factor: Floats
    cell_v: Floats
    copper_factor: Floats
    set_v: Floats
    closed: Bools
    opened: Bools
    shorted: Bools
    stuck: Bools

    @property
    def count(self) -> int:
        """How many cases there are."""
        return max(len(getattr(self, one.name)) for one in fields(self))

    def take(self, rows: NDArray[np.intp] | slice) -> Cases:
        """The cases of some rows; arrays of one row stay as they are."""
        values: dict[str, Any] = {one.name: getattr(self, one.name) for one in fields(self)}
        return Cases(
            **{name: each[rows] if len(each) > 1 else each for name, each in values.items()}
        )

    def times(self, count: int) -> Cases:
        """Each case `count` times, one after the other: all first cases, then all second ones."""
        every = {one.name: getattr(self, one.name) for one in fields(self)}
        return Cases(
            **{
                name: np.repeat(each, count, axis=0) if len(each) > 1 else each
                for name, each in every.items()
            }
        )


def cases(network: Network, **given: Floats | Bools | list[Any]) -> Cases:
    """Cases of a network; what is not given is as the elements say, with nothing failed.

    Parameters: `given` by the names of `Cases`, each of shape (K, n) or (n).

    Raises ValueError where a shape does not fit.

    >>> from hardstand.engines.power.network.elements import Load
    >>> from hardstand.engines.power.network.network import network
    >>> lamp = network([Load(id="lamp", start="rail", end="0", draw_a=0.5)])
    >>> cases(lamp, load_a=[[0.1], [0.2], [0.3]]).count
    3
    """
    every, packs = len(network.elements), network.packs
    plain: dict[str, Any] = {
        "load_a": [load.draw_a for load in network.loads],
        "charge": [pack.charge for pack in packs],
        "resistance_factor": np.ones(len(packs)),
        "cell_v": np.zeros(1),
        "copper_factor": np.ones(1),
        "set_v": [regulator.set_v for regulator in network.regulators],
        "closed": [switch.closed for switch in network.switches],
        "opened": np.zeros(every, bool),
        "shorted": np.zeros(every, bool),
        "stuck": np.zeros(every, bool),
    }
    if unknown := given.keys() - plain.keys():
        raise ValueError(f"cases have no {', '.join(sorted(unknown))}")
    made: dict[str, Any] = {}
    for name, default in plain.items():
        kind = bool if name in ("closed", "opened", "shorted", "stuck") else float
        value = np.atleast_2d(np.asarray(given.get(name, default), kind))
        if value.shape[1] != len(default):
            raise ValueError(f"{name} has {value.shape[1]} columns, and the network {len(default)}")
        made[name] = value
    counts = {len(value) for value in made.values()} - {1}
    if len(counts) > 1:
        raise ValueError(f"the arrays have different numbers of cases: {sorted(counts)}")
    return Cases(**made)


def with_loads(network: Network, one: Cases, load_a: Mapping[str, float]) -> Cases:
    """The same cases with some loads drawing another current in all of them, by their ids.

    Raises KeyError for an id that is no load.
    """
    columns = {load.id: at for at, load in enumerate(network.loads)}
    changed = one.load_a.copy()
    for name, value in load_a.items():
        changed[:, columns[name]] = value
    return replace(one, load_a=changed)
