"""An island's moments solved, its figures with their sensitivities, and those of all put together.

All changes are solved in one batch: each input by one standard uncertainty (its effect is close to
straight over so little).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.defaults import AGE, COLD, COPPER, OPEN_V
from hardstand.engines.power.duty import currents
from hardstand.engines.power.model import PowerNetwork
from hardstand.engines.power.network.cases import Cases
from hardstand.engines.power.network.model import Solution
from hardstand.engines.power.network.solve import solve
from hardstand.engines.power.reading import Seen, read
from hardstand.engines.power.stacked import stacked
from hardstand.engines.power.states import Asked, cases_of, factors
from hardstand.engines.power.wanted import Wanted
from hardstand.figures import FigureSet, Input

Floats = NDArray[np.float64]
LEAST_STEP = 1e-6


@dataclass(frozen=True, eq=False)
class Figured:
    """An island's moments: solution, values (figures) and slopes (figures, inputs) by its own inputs."""

    asked: Asked
    solution: Solution
    values: Floats
    inputs: tuple[Input, ...]
    slopes: Floats


def figured(power: PowerNetwork, these: Asked, rows: Sequence[Wanted]) -> Figured:
    """Solve an island's moments as they are and with each input changed.

    Parameters: `power`, the island; `these`, its moments; `rows`, the figures that lie in it.

    Returns `Figured`.
    """
    drawing, by_pack = these.currents.inputs, inputs_of_packs(power)
    inputs = (*drawing, AGE, COLD, *(one for one, _ in by_pack), COPPER, OPEN_V)
    a = np.tile(these.currents.a, (1 + len(inputs), 1, 1))
    for row, one in enumerate(drawing):
        a[1 + row] = these.currents.changed(row, _step(one))
    copper = np.ones(len(a))
    copper[-2] = 1.0 + COPPER.u
    seen = Seen(solve(power.network, _changed(power, these, a, by_pack)), a, copper)
    values = read(power, these, rows, seen)
    slopes = (values[1:] - values[0]) / np.array([_step(one) for one in inputs])[:, None]
    return Figured(these, seen.solution.rows(slice(0, len(these.moments))), values[0], inputs, slopes.T)


def _step(one: Input) -> float:
    """By how much an input is changed: one standard uncertainty, never nothing."""
    return one.u if one.u > 0.0 else 1e-3


def _changed(
    power: PowerNetwork, these: Asked, a: Floats, by_pack: Sequence[tuple[Input, Floats]]
) -> Cases:
    """The cases: all moments, then all of them again for each input."""
    worn, own = factors(power), these.currents.a
    older = factors(power, AGE.value + _step(AGE))
    colder = factors(power, cold_degc=COLD.value + _step(COLD))
    drawn = a[: 1 + len(these.currents.inputs)]
    first = cases_of(power, these, own, worn)
    load_a = (these.weights * drawn[:, None]).sum(axis=3)
    pieces = [replace(first, load_a=one) for one in load_a]
    pieces += [cases_of(power, these, own, one) for one in (older, colder)]
    pieces += [replace(first, resistance_factor=first.resistance_factor * share)
               for _, share in by_pack]  # fmt: skip
    pieces += [replace(first, copper_factor=np.full((1, 1), 1.0 + COPPER.u)),
               replace(first, cell_v=np.full((1, 1), -OPEN_V.u))]  # fmt: skip
    return stacked(pieces)


def inputs_of_packs(power: PowerNetwork) -> list[tuple[Input, Floats]]:
    """Each resistance once, and what it does to the packs that have it, (packs)."""
    found: dict[str, tuple[Input, Floats]] = {}
    for column, pack in enumerate(power.network.packs):
        one = power.inputs[pack.id]
        share = found.setdefault(one.address, (one, np.ones(len(power.network.packs))))[1]
        share[column] = 1.0 + _step(one) / one.value
    return list(found.values())


def figures_of(
    power: PowerNetwork, rows: Sequence[Wanted], found: Sequence[tuple[list[int], Figured]]
) -> FigureSet:
    """The islands' figures in the order of the whole; inputs that move none are left out."""
    inputs = (*currents(power.consumers).inputs, AGE, COLD,
              *(one for one, _ in inputs_of_packs(power)), COPPER, OPEN_V)  # fmt: skip
    column = {one.address: at for at, one in enumerate(inputs)}
    values, slopes = np.zeros(len(rows)), np.zeros((len(rows), len(inputs)))
    for places, one in found:
        if places:
            values[places] = one.values
            slopes[np.ix_(places, [column[each.address] for each in one.inputs])] = one.slopes
    slopes[np.abs(slopes) < LEAST_STEP] = 0.0
    used = (slopes != 0.0).any(axis=0).tolist()
    return FigureSet(
        tuple(one.address for one in rows), values, tuple(one.unit for one in rows),
        tuple(one for one, use in zip(inputs, used, strict=True) if use), slopes[:, used],
        labels=tuple(one.label for one in rows),
        method="currents summed at the nodes of the network; slopes by changing one input at a time",
    )  # fmt: skip
