"""From an aeroplane's harness to an assignment problem."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

from hardstand.description.network import Channel
from hardstand.engines.harness.model import Netlist
from hardstand.engines.harness.netlist import circuit
from hardstand.engines.harness.planning.currents import balances, capacities
from hardstand.engines.harness.planning.fitting import Fitting
from hardstand.engines.harness.planning.grouping import commanded, groups, guessed, stops
from hardstand.engines.harness.planning.outputs import Outputs, outputs
from hardstand.engines.harness.planning.plugged import Plugged, plugged
from hardstand.engines.harness.planning.problem import Failure, Problem
from hardstand.engines.harness.planning.survival import Survival
from hardstand.findings import Limit


@dataclass(frozen=True)
class Translation:
    """A problem with what its numbers stand for: plugs, outputs, plugs of each channel.

    `dead` are the units whose outputs have no power or no command as it is: nothing is put there;
    `guessed` says which of an item's plugs a channel was taken to command.
    """

    net: Netlist
    problem: Problem
    plugs: tuple[Plugged, ...]
    channels: tuple[Channel, ...]
    has: Mapping[str, tuple[int, ...]]
    dead: tuple[str, ...]
    guessed: tuple[str, ...] = ()


def translate(
    asbuilt: Any, net: Netlist, limits: Mapping[str, Limit], keep: Collection[str] = (),
    split: Collection[str] = (),
) -> Translation:  # fmt: skip
    """The aeroplane as a problem. `keep` and `split` name channels, items or leads.

    Assumed: any output of a receiver or distribution unit can be set to any channel that reaches its
    unit; what a gyro steadies now is to be steadied. Packs, buses and controllers' outputs stay.
    """
    channels = tuple(asbuilt.channels)
    drives = {item for one in channels if one.id in split for item in one.drives}
    plugs = plugged(net, {*split, *drives})
    moved = {lead for one in plugs for lead in one.leads}
    bare = circuit(SimpleNamespace(
        items=asbuilt.items, joints=asbuilt.joints, loads=asbuilt.loads,
        leads=[one for one in asbuilt.leads if one.id not in moved]), {})  # fmt: skip
    found = outputs(net, moved)
    alive, failures = _failures(bare, found)
    has = commanded(channels, plugs)
    about = Fitting(bare, found, alive, limits)
    rows = tuple(about.plug(one, _named(channels, has, p), keep) for p, one in enumerate(plugs))
    problem = Problem(
        found.places, rows, (*groups(channels, has), *stops(channels, has)), failures,
        capacities(bare, found, sum(one.ma for one in rows), limits), balances(bare, found),
    )  # fmt: skip
    dead = {place.item for c, place in enumerate(found.places) if c not in alive}
    return Translation(net, problem, plugs, channels, has, tuple(sorted(dead)),
                       tuple(guessed(channels, has, plugs)))  # fmt: skip


def _named(
    channels: Sequence[Channel], has: Mapping[str, tuple[int, ...]], plug: int
) -> list[Channel]:
    return [one for one in channels if plug in has[one.id]]


def _failures(bare: Netlist, found: Outputs) -> tuple[set[int], tuple[Failure, ...]]:
    """The places that work now, and what alone stops some of them from it."""
    survival = Survival(bare)
    ends = {(place.item, place.domain) for place in found.places}

    def dead(lost: str) -> frozenset[int]:
        alive = survival.alive(lost, ends)
        return frozenset(c for c, place in enumerate(found.places)
                         if (place.item, place.domain) not in alive)  # fmt: skip

    anyway = dead("")
    made = {lost: dead(lost) - anyway for lost in survival.behind(sorted(ends))}
    rails = {lost: made.get(lost.partition(".")[0]) for lost in made if "." in lost}
    failures = tuple(Failure(lost, places) for lost, places in made.items()
                     if places and not (lost in rails and rails[lost] == places))  # fmt: skip
    return set(range(len(found.places))) - anyway, failures
