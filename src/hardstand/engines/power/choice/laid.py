"""What the choice of wire needs of the routes: how long each lead is, and what it is tied to.

Lengths that the builder states come first, so that moving an item changes nothing as long as the same
leads run together: this node settles.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from hardstand.engines.harness.model import Makings, Netlist, Routes
from hardstand.engines.power.defaults import WIRE_LENGTH_MM
from hardstand.engines.power.model import PowerNetwork

SHORT_MM = 100.0  # along less than this a bundle cools by its ends; common practice


@dataclass(frozen=True, slots=True)
class Laid:
    """Of each lead with power: its length (mm) and whence that is known; bundles as sets of leads."""

    lengths: tuple[tuple[str, float, str], ...]
    bundles: tuple[tuple[str, ...], ...]


def laid(slices: Any, earlier: Any) -> Laid:
    """Node: lengths described, else by the route, else 500 mm; bundles of 100 mm and more."""
    del slices
    power: PowerNetwork | None = earlier["power.network"]
    net: Netlist = earlier["harness.circuit"]
    if power is None:
        return Laid((), ())
    cut = {one.lead: one.cut_mm for one in _makings(earlier).leads}
    lengths = tuple((lead, *_length(net, cut, lead)) for lead in power.of_lead
                    if not net.leads[lead].row.direct)  # fmt: skip
    routes: Routes = earlier["harness.routes"]
    own = {lead for lead, _, _ in lengths}
    bundles = dict.fromkeys(one.leads for one in routes.stretches
                            if one.length_mm >= SHORT_MM and not own.isdisjoint(one.leads))  # fmt: skip
    return Laid(lengths, tuple(sorted(bundles)))


def _makings(earlier: Any) -> Makings:
    found: Makings = earlier["harness.making"]
    return found


def _length(net: Netlist, cut: dict[str, float | None], lead: str) -> tuple[float, str]:
    stated = net.leads[lead].length_mm
    if stated is not None:
        return stated, "described"
    by_route = cut.get(lead)
    return (WIRE_LENGTH_MM, "usual") if by_route is None else (by_route, "route")
