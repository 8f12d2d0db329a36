"""The moments' figures with their sensitivities, by changing one input at a time.

All changes are solved in one batch: each input by one standard uncertainty (its effect is close to
straight over so little), the copper and the rest voltage of cells in networks of their own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.defaults import AGE, COLD, COPPER, OPEN_V
from hardstand.engines.power.model import PowerNetwork
from hardstand.engines.power.network.cases import Cases
from hardstand.engines.power.network.model import Solution
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.solve import solve
from hardstand.engines.power.states import Asked, cases_of, factors
from hardstand.figures import FigureSet, Input

Floats = NDArray[np.float64]
LEAST_STEP = 1e-6
Row = tuple[str, str, str]  # address, unit, label


@dataclass(frozen=True, eq=False)
class Seen:
    """What a figure may look at: the solved moments, the currents by state, the factor on copper."""

    solution: Solution
    a: Floats
    copper: float


def figure_set(
    power: PowerNetwork, these: Asked, rows: Sequence[Row], valued: Callable[[Seen], Floats]
) -> tuple[Solution, FigureSet]:
    """The moments solved, and the figures that `valued` reads off them, in the order of `rows`."""
    networks, inputs = _changes(power, these)
    pieces = [(power.network, cases_of(power, these, these.currents.a, factors(power))), *networks]
    solutions = _solved(pieces)
    base = valued(Seen(solutions[0], these.currents.a, 1.0))
    slope = np.zeros((len(rows), len(inputs)))
    for column, (one, solution) in enumerate(zip(inputs, solutions[1:], strict=True)):
        a = these.currents.a
        if column < len(these.currents.inputs):
            a = these.currents.changed(column, _step(one))
        copper = 1.0 + COPPER.u if one is COPPER else 1.0
        slope[:, column] = (valued(Seen(solution, a, copper)) - base) / _step(one)
    slope[np.abs(slope) < LEAST_STEP] = 0.0
    used = [bool(column.any()) for column in slope.T]
    return solutions[0], FigureSet(
        tuple(one[0] for one in rows), base, tuple(one[1] for one in rows),
        tuple(one for one, use in zip(inputs, used, strict=True) if use), slope[:, used],
        labels=tuple(one[2] for one in rows),
        method="currents summed at the nodes of the network; slopes by changing one input at a time",
    )  # fmt: skip


def _step(one: Input) -> float:
    """By how much an input is changed: one standard uncertainty, never nothing."""
    return one.u if one.u > 0.0 else 1e-3


def _changes(
    power: PowerNetwork, these: Asked
) -> tuple[list[tuple[Network, Cases]], list[Input]]:
    """For each input the network and cases in which it alone is changed."""
    a, worn = these.currents.a, factors(power)
    found: list[tuple[Network, Cases]] = []
    inputs = [*these.currents.inputs, AGE, COLD]
    for which, one in enumerate(these.currents.inputs):
        found.append((power.network, cases_of(power, these, these.currents.changed(which, _step(one)),
                                              worn)))  # fmt: skip
    older = factors(power, AGE.value + _step(AGE))
    colder = factors(power, cold_degc=COLD.value + _step(COLD))
    found += [(power.network, cases_of(power, these, a, one)) for one in (older, colder)]
    for address, share in _by_address(power):
        plain = cases_of(power, these, a, worn)
        found.append((power.network, replace(plain, resistance_factor=plain.resistance_factor * share)))
        inputs.append(address)
    plain = cases_of(power, these, a, worn)
    found += [(power.copper, plain), (power.rested, plain)]
    return found, [*inputs, COPPER, replace(OPEN_V, u=OPEN_V.u)]


def _by_address(power: PowerNetwork) -> list[tuple[Input, Floats]]:
    """Each resistance once, and what it does to the packs that have it, (packs)."""
    found: dict[str, tuple[Input, Floats]] = {}
    for column, pack in enumerate(power.network.packs):
        one = power.inputs[pack.id]
        share = found.setdefault(one.address, (one, np.ones(len(power.network.packs))))[1]
        share[column] = 1.0 + _step(one) / one.value
    return list(found.values())


def _solved(pieces: Sequence[tuple[Network, Cases]]) -> list[Solution]:
    """Every piece solved, those of one network together."""
    from hardstand.engines.power.stacked import stacked

    found: list[Solution | None] = [None] * len(pieces)
    for network in {id(one): one for one, _ in pieces}.values():
        mine = [at for at, (one, _) in enumerate(pieces) if one is network]
        whole = solve(network, stacked([pieces[at][1] for at in mine]))
        count = pieces[mine[0]][1].count
        for place, at in enumerate(mine):
            found[at] = whole.rows(slice(place * count, (place + 1) * count))
    return [one for one in found if one is not None]
