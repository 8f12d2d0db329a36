"""Every single failure, solved on the island that it lies in and laid over the whole network.

Solved are the worst moment on worn packs and the busiest minute on full ones. A plug pair may part
leads of several islands at once; what fails in one island leaves the others as they are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.kept import Kept
from hardstand.engines.power.islands import Island
from hardstand.engines.power.model import PowerNetwork
from hardstand.engines.power.network.failures import single_failures, with_failures
from hardstand.engines.power.network.solve import solve
from hardstand.engines.power.states import asked, cases_of, factors

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Index = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Sweep:
    """The failures of one island, or of the whole, F of them with none at first.

    `failures` are element or joint and kind (both empty for none). `node_v`, `fed` (F, nodes) and
    `pack_a` (F, packs) at the worst moment; `full_v` (F, nodes) in the busiest minute; `settled` (F).
    `most_a` (2, elements) the greatest current of each element over the failures that last (all but
    short circuits), at the worst moment and in the busiest minute; `most_at` in which failure.
    """

    failures: tuple[tuple[str, str], ...]
    node_v: Floats
    fed: Bools
    full_v: Floats
    pack_a: Floats
    settled: Bools
    most_a: Floats
    most_at: Index


@dataclass(frozen=True)
class _Question:
    """What one island is asked, equal to another with the same answer."""

    content: tuple[Any, ...]
    phases: Sequence[Any]
    duties: Sequence[Any]
    island: Island = field(compare=False)

    def answered(self) -> Sweep:
        return _swept(self.island.power, self.phases, self.duties)


def sweep(
    power: PowerNetwork, parts: Sequence[Island], phases: Sequence[Any], duties: Sequence[Any],
    kept: Kept | None = None,
) -> Sweep:  # fmt: skip
    """All single failures of a network, in the order of its elements, then every plug pair parted.

    Parameters: `power` and its islands `parts`; `phases` and `duties` of the flight; `kept`, what the
    last run left.

    Returns `Sweep` of the whole.
    """
    questions = {one.power.network.nodes[0]: _Question(one.content, phases, duties, one)
                 for one in parts}  # fmt: skip
    found = list((kept or Kept()).each("islands", questions, _Question.answered).values())
    failures = (("", ""), *((one.element, one.kind) for one in single_failures(power.network)),
                *((joint, "open") for joint in power.together))  # fmt: skip
    return _laid_over(power, failures, list(zip(parts, found, strict=True)))


def _laid_over(
    power: PowerNetwork, failures: tuple[tuple[str, str], ...],
    found: Sequence[tuple[Island, Sweep]],
) -> Sweep:  # fmt: skip
    """What every island has in each failure: its own row, or as it is without one."""
    count = len(failures)
    node_v = np.zeros((count, len(power.network.nodes)))
    full_v, fed = node_v.copy(), np.zeros(node_v.shape, bool)
    settled: Bools = np.ones(count, bool)
    most_a = np.zeros((2, len(power.network.elements)))
    most_at = np.zeros(most_a.shape, np.intp)
    number = {each: row for row, each in enumerate(failures)}
    pack_a = np.zeros((count, len(power.packs)))
    column = {one: at for at, one in enumerate(power.packs)}
    for island, one in found:
        at = {each: row for row, each in enumerate(one.failures)}
        rows = np.array([at.get(each, 0) for each in failures], np.intp)
        node_v[:, island.nodes], full_v[:, island.nodes] = one.node_v[rows], one.full_v[rows]
        fed[:, island.nodes] = one.fed[rows]
        pack_a[:, [column[pack] for pack in island.power.packs]] = one.pack_a[rows]
        settled = np.logical_and(settled, one.settled[rows])
        most_a[:, island.elements] = one.most_a
        whole = np.array([number.get(each, 0) for each in one.failures], np.intp)
        most_at[:, island.elements] = whole[one.most_at]
    return Sweep(failures, node_v, fed, full_v, pack_a, settled, most_a, most_at)


def _swept(power: PowerNetwork, phases: Sequence[Any], duties: Sequence[Any]) -> Sweep:
    """The failures of one island solved; without a pack it is dead in all of them."""
    these, network = asked(power, phases, duties), power.network
    names = [one.name for one in these.moments]
    pick = [names.index("peak"), names.index("warm") if "warm" in names else names.index("rest")]
    moments = cases_of(power, these, these.currents.a, factors(power)).take(np.array(pick))
    single = single_failures(network) if power.packs else ()
    parted = {joint: [network.element_at[one] for lead in leads for one in power.of_lead[lead]]
              for joint, leads in power.together.items() if power.packs}  # fmt: skip
    swept = with_failures(network, moments, (None, *single, *(None for _ in parted)))
    for place, columns in enumerate(parted.values(), 1 + len(single)):
        swept.opened[2 * place : 2 * place + 2, columns] = True
    solution = solve(network, swept)
    failures = (("", ""), *((one.element, one.kind) for one in single),
                *((joint, "open") for joint in parted))  # fmt: skip
    packs = [network.element_at[one] for one in power.packs]
    settled: Bools = np.asarray(solution.settled.reshape(-1, 2).all(axis=1))
    return Sweep(failures, solution.node_v[::2], solution.fed[::2], solution.node_v[1::2],
                 solution.current_a[::2, packs], settled,
                 *_most(failures, solution.current_a, settled))


def _most(
    failures: tuple[tuple[str, str], ...], current_a: Floats, settled: Bools
) -> tuple[Floats, Index]:
    """The greatest currents over failures that last, and where: wire is no answer to a short circuit."""
    counts = settled & np.array([kind != "short" for _, kind in failures])
    amperes = np.abs(current_a).reshape(len(failures), 2, -1) * counts[:, None, None]
    at = amperes.argmax(axis=0)
    return np.take_along_axis(amperes, at[None], axis=0)[0], at
