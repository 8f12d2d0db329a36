"""Volts and amperes at rest, in the mean, at the worst moment, and on each pack alone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.kept import Kept
from hardstand.engines.power.figured import Figured, figured, figures_of
from hardstand.engines.power.islands import Island
from hardstand.engines.power.model import Moment, Moments, PowerNetwork
from hardstand.engines.power.states import asked, kind_of, moments_of
from hardstand.engines.power.wanted import Wanted, wanted
from hardstand.figures import FigureSet

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class _Question:
    """What one island is asked, equal to another with the same answer."""

    content: tuple[Any, ...]
    rows: tuple[Wanted, ...]
    phases: Sequence[Any]
    duties: Sequence[Any]
    island: Island = field(compare=False)

    def answered(self) -> Figured:
        power = self.island.power
        return figured(power, asked(power, self.phases, self.duties), self.rows)


def moments(slices: Any, earlier: Any, kept: Kept | None = None) -> Moments | None:
    """Node: the moments solved, with their figures; None without a network."""
    power: PowerNetwork | None = earlier["power.network"]
    if power is None:
        return None
    parts: tuple[Island, ...] = earlier["power.islands"]
    rows = wanted(power, bool(len(slices.phases)))
    lies_in = _places(power, parts, rows)
    questions = {
        name: _Question(one.content, tuple(rows[at] for at in lies_in[which]), slices.phases,
                        slices.duties, one)
        for which, one in enumerate(parts) for name in (one.power.network.nodes[0],)}  # fmt: skip
    found = list((kept or Kept()).each("islands", questions, _Question.answered).values())
    named = moments_of(power, bool(len(slices.phases)))
    return _whole(power, named, list(zip(parts, found, strict=True)),
                  figures_of(power, rows, [*zip(lies_in, found, strict=True)]))  # fmt: skip


def _places(
    power: PowerNetwork, parts: Sequence[Island], rows: Sequence[Wanted]
) -> list[list[int]]:
    """The figures that lie in each island, by their places."""
    domain = {one.end: one.domain for one in power.consumers}
    by_node = {name: at for at, one in enumerate(parts) for name in one.power.network.nodes}
    by_element = {name: at for at, one in enumerate(parts) for name in one.power.network.element_at}
    found: list[list[int]] = [[] for _ in parts]
    for at, one in enumerate(rows):
        node = one.at if one.how == "lowest" else domain[one.at] if one.how == "drop" else None
        found[by_element[one.at] if node is None else by_node[node]].append(at)
    return found


def rows_of(named: Sequence[Moment], own: Sequence[Moment]) -> list[int]:
    """For each moment of the whole that of an island: without a pack that it has not, all are on."""
    at = {one.name: row for row, one in enumerate(own)}
    return [at.get(one.name, at[kind_of(one.name)]) for one in named]


def _whole(
    power: PowerNetwork, named: tuple[Moment, ...], found: Sequence[tuple[Island, Figured]],
    figures: FigureSet,
) -> Moments:  # fmt: skip
    """The islands' moments put together."""
    count, loads = len(named), len(power.consumers)
    phases = found[0][1].asked.phases
    node_v = np.zeros((count, len(power.network.nodes)))
    fed, settled = np.zeros(node_v.shape, bool), np.ones(count, bool)
    current_a, load_a = np.zeros((count, len(power.network.elements))), np.zeros((count, loads))
    phase_a, mean_a, peak_a = np.zeros((len(phases), loads)), np.zeros(loads), np.zeros(loads)
    peak_at: dict[str, str] = {}
    for island, one in found:
        these, a, solution = one.asked, one.asked.currents.a, one.solution
        rows = rows_of(named, these.moments)
        node_v[:, island.nodes], fed[:, island.nodes] = solution.node_v[rows], solution.fed[rows]
        current_a[:, island.elements] = solution.current_a[rows]
        settled &= solution.settled[rows]
        load_a[:, island.consumers] = (these.weights * a).sum(axis=2)[rows]
        phase_a[:, island.consumers] = (these.phase_weights * a).sum(axis=2)
        mean_a[island.consumers] = (these.mean * a).sum(axis=1)
        peak_a[island.consumers] = (these.peak * a).sum(axis=1)
        peak_at |= these.peak_at
    return Moments(named, node_v, current_a, load_a, fed, settled, phases, phase_a, mean_a, peak_a,
                   _in_order(power, peak_at), figures)  # fmt: skip


def _in_order(power: PowerNetwork, peak_at: Mapping[str, str]) -> dict[str, str]:
    return {packs[0]: peak_at[packs[0]] for packs, _ in power.groups if packs[0] in peak_at}
