"""How each figure is read off solved cases, for many pieces of moments at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.model import PowerNetwork
from hardstand.engines.power.network.model import Solution
from hardstand.engines.power.states import Asked
from hardstand.engines.power.wanted import How, Wanted

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Seen:
    """Pieces of M moments each, one after the other: currents `a` (P, L, 3), factors on copper (P)."""

    solution: Solution
    a: Floats
    copper: Floats


def read(power: PowerNetwork, these: Asked, rows: Sequence[Wanted], seen: Seen) -> Floats:
    """The figures of all pieces, (P, figures)."""
    found = np.zeros((len(seen.a), len(rows)))
    for how, reader in _READERS.items():
        mine = [at for at, one in enumerate(rows) if one.how == how]
        if mine:
            some = [rows[at] for at in mine]
            found[:, mine] = reader(power, these, some, seen)
    return found


def _shaped(these: Asked, values: Any, moments: Sequence[int], columns: Sequence[int]) -> Any:
    """Columns of some moments of every piece, (P, moments, columns)."""
    pieces = values.reshape(-1, len(these.moments), values.shape[1])
    return pieces[:, moments][:, :, columns]


def _worst(these: Asked) -> list[int]:
    """The rows of the worst moments on one pack alone, and on all where packs have no partners."""
    return [at for at, one in enumerate(these.moments) if one.worst]


def _of_warm(these: Asked) -> list[int]:
    return [at for at, one in enumerate(these.moments) if one.name.startswith("warm")]


def _lowest(power: PowerNetwork, these: Asked, rows: Sequence[Wanted], seen: Seen) -> Floats:
    columns = [power.network.node_at[one.at] for one in rows]
    volts = _shaped(these, seen.solution.node_v, _worst(these), columns)
    alive = _shaped(these, seen.solution.fed, _worst(these), columns)
    least = np.where(alive, volts, np.inf).min(axis=1)
    lowest = np.where(alive.any(axis=1), least, 0.0)
    return np.asarray(lowest - np.array([one.by for one in rows]))


def _currents(
    power: PowerNetwork, these: Asked, rows: Sequence[Wanted], seen: Seen, moments: Sequence[int]
) -> Floats:
    columns = [power.network.element_at[one.at] for one in rows]
    return np.asarray(_shaped(these, seen.solution.current_a, moments, columns))


def _mean(power: PowerNetwork, these: Asked, rows: Sequence[Wanted], seen: Seen) -> Floats:
    mean = [at for at, one in enumerate(these.moments) if one.name == "mean"]
    return np.asarray(_currents(power, these, rows, seen, mean)[:, 0])


def _peak(power: PowerNetwork, these: Asked, rows: Sequence[Wanted], seen: Seen) -> Floats:
    return np.asarray(_currents(power, these, rows, seen, _worst(these)).max(axis=1))


def _contact(power: PowerNetwork, these: Asked, rows: Sequence[Wanted], seen: Seen) -> Floats:
    most = np.abs(_currents(power, these, rows, seen, _of_warm(these))).max(axis=1)
    return np.asarray(100.0 * most / np.array([one.by for one in rows]))


def _heat(power: PowerNetwork, these: Asked, rows: Sequence[Wanted], seen: Seen) -> Floats:
    columns = [power.network.element_at[one.at] for one in rows]
    return np.asarray(_shaped(these, seen.solution.heat_w, _of_warm(these), columns).max(axis=1))


def _drop(power: PowerNetwork, _: Asked, rows: Sequence[Wanted], seen: Seen) -> Floats:
    at = {one.end: row for row, one in enumerate(power.consumers)}
    stall = seen.a[:, [at[one.at] for one in rows], 2]
    return 1e-3 * np.array([one.by for one in rows]) * seen.copper[:, None] * stall


def _stated(_: PowerNetwork, __: Asked, rows: Sequence[Wanted], seen: Seen) -> Floats:
    return np.tile([one.by for one in rows], (len(seen.a), 1))


_Reader = Callable[[PowerNetwork, Asked, Sequence[Wanted], Seen], Floats]
_READERS: dict[How, _Reader] = {
    "lowest": _lowest, "mean": _mean, "peak": _peak, "contact": _contact, "heat": _heat,
    "drop": _drop, "stated": _stated,
}  # fmt: skip
