"""Computed ways out: thicker wire, a larger pack, packs with less resistance."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from hardstand.changes import Change
from hardstand.description.items import OnHand
from hardstand.description.parts import Part
from hardstand.engines.harness.model import Netlist
from hardstand.engines.power.defaults import CAPACITY_SHARE, WORST_CHARGE
from hardstand.engines.power.inside import pack_of
from hardstand.engines.power.islands import Island
from hardstand.engines.power.model import Choices, Moments, PowerNetwork
from hardstand.engines.power.network.cases import cases
from hardstand.engines.power.network.elements import Pack
from hardstand.engines.power.network.network import Network
from hardstand.engines.power.network.solve import solve
from hardstand.engines.power.rules_wire import thicker
from hardstand.engines.power.states import factors
from hardstand.figures import Figure
from hardstand.findings import Limit, Remedy


def thicker_wire(
    power: PowerNetwork, chosen: Choices, end: str, figure: Figure
) -> Remedy | None:
    """The chosen wire for all leads to a servo that are thinner: with it the drop is inside by U."""
    strand = next(one for one in power.strands if one.end == end)
    rows = [at for at, one in enumerate(chosen.wires) if one.lead in strand.leads]
    if len(rows) < len(strand.leads) or not np.isfinite(chosen.area_mm2[rows]).all() or any(
            chosen.wires[at].length_from == "usual" for at in rows):  # fmt: skip
        return None
    there, enough = chosen.area_mm2[rows].T
    remedy = thicker([chosen.wires[at] for at, thin in zip(rows, there < enough, strict=True) if thin])
    if remedy is None:
        return None
    long = np.array([chosen.wires[at].length_mm for at in rows])
    left = (long / np.maximum(there, enough)).sum() / (long / there).sum()
    return replace(remedy, effects=(f"at most {figure.value * left:.2f} V is then lost at stall",
                                      *remedy.effects))  # fmt: skip


def _fitting(
    net: Netlist, pack: str, on_hand: Sequence[OnHand], parts: Mapping[str, Part]
) -> Iterator[tuple[OnHand, Part]]:
    mine = net.boxes[pack].part
    for row in on_hand:
        part = parts.get(row.part)
        if part is not None and pack in row.instead_of and part.id != mine.id and (
                part.chemistry, part.cells) == (mine.chemistry, mine.cells):
            yield row, part


def larger_pack(
    power: PowerNetwork, net: Netlist, on_hand: Sequence[OnHand], parts: Mapping[str, Part],
    pack: str, figure: Figure, limit: Limit,
) -> Remedy | None:  # fmt: skip
    """The smallest pack on hand of the same cells on which a flight takes little enough."""
    now = next(one.capacity_mah for one in power.network.packs if one.id == pack)
    needed = now * (figure.value + figure.expanded) / (limit.high or 100.0)
    fit = sorted((part.capacity_mah or 0.0, part.id) for _, part in
                 _fitting(net, pack, on_hand, parts) if (part.capacity_mah or 0.0) >= needed)  # fmt: skip
    if not fit:
        label = f"{needed * 100.0 / CAPACITY_SHARE.value:.0f}"
        return Remedy(f"a pack of {needed:.0f} mAh or more ({label} mAh where it has lost a tenth)")
    return Remedy(f"use {fit[0][1]} for {pack}",
                  (Change(f"item.{pack}.part", net.boxes[pack].part.id, fit[0][1]),))  # fmt: skip


def stronger_pack(
    parted: Sequence[Island], moments: Moments, net: Netlist, on_hand: Sequence[OnHand],
    parts: Mapping[str, Part], rail: str, figure: Figure, limit: Limit,
) -> Remedy | None:  # fmt: skip
    """Packs on hand for all that feed a rail, of the same cells, with which it stands by U."""
    found = [(one, packs) for one in parted for packs, fed in one.power.groups if rail in fed]
    if not found:
        return None
    island, packs = found[0]
    for row, part in _fitting(net, packs[0], on_hand, parts):
        new = pack_of(replace(net.boxes[packs[0]], part=part))
        if new is None or row.count < len(packs) or not set(packs) <= set(row.instead_of):
            continue
        low = _on_one(island, moments, packs, new, rail)
        if low - figure.expanded > (limit.low or 0.0):
            changes = tuple(Change(f"item.{one}.part", net.boxes[one].part.id, part.id)
                            for one in packs)  # fmt: skip
            return Remedy(f"use {part.id} for {', '.join(packs)}", changes,
                          (f"{rail} then has {low:.2f} V on one worn, cold pack",))
    return None


def _on_one(
    island: Island, moments: Moments, packs: tuple[str, ...], new: Pack, rail: str
) -> float:
    """Lowest voltage of a rail with one of the new packs alone, at the worst moment."""
    own, load_a = island.power.network, moments.peak_a[island.consumers]
    changed = Network(tuple(
        replace(new, id=one.id, start=one.start, end=one.end)
        if isinstance(one, Pack) and one.id in packs else one for one in own.elements), own.nodes)
    opened = np.zeros((len(packs), len(own.elements)), bool)
    for row, one in enumerate(packs):
        for other in packs:
            opened[row, own.element_at[other]] = other != one
    result = solve(changed, cases(changed, load_a=load_a,
                                  charge=np.full(len(own.packs), WORST_CHARGE),
                                  resistance_factor=factors(island.power), opened=opened))  # fmt: skip
    return float(result.volts(rail).min())
