"""The figures that the moments are asked for."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from hardstand.engines.power.model import PowerNetwork
from hardstand.engines.power.network.elements import Regulator

How = Literal["lowest", "mean", "peak", "drop", "heat", "contact", "stated"]
FLYING = {"pitch", "roll", "yaw", "flaps", "speed-brake"}
SEVEN_V_CLASS = 6.5  # a rail set lower is judged by what hangs on it alone


@dataclass(frozen=True, slots=True)
class Wanted:
    """One figure: how it is read, and where: a node ("lowest"), an element, a consumer's end ("drop").

    `by` is what is taken off a voltage (V), the loop of a wire (mohm), what a plug carries (A), or the
    figure itself where it is "stated".
    """

    address: str
    unit: str
    label: str
    how: How
    at: str
    by: float = 0.0


def wanted(power: PowerNetwork, phased: bool) -> tuple[Wanted, ...]:
    """Every figure of a network, with phases of a flight or without."""
    return (*_rails(power), *_items(power), *_drops(power), *_packs(power, phased),
            *(_warm(power) if phased else ()), *_unlike(power))  # fmt: skip


def flying_rails(power: PowerNetwork) -> tuple[str, ...]:
    """The rails from which leads go to flight servos, of the 7 V class or without a regulator."""
    flight = {one.domain for one in power.consumers
              if one.kind == "servo" and set(one.functions) & FLYING}  # fmt: skip
    return tuple(
        rail for rail, set_v in power.rails.items()
        if power.targets.get(rail, frozenset()) & flight and (set_v is None or set_v >= SEVEN_V_CLASS))


def _rails(power: PowerNetwork) -> Iterator[Wanted]:
    for rail in flying_rails(power):
        yield Wanted(f"power.rail@{rail}", "v", f"{rail} at the worst moment on one worst pack",
                     "lowest", rail)  # fmt: skip


def _items(power: PowerNetwork) -> Iterator[Wanted]:
    can_be_fed = {domain for _, fed in power.groups for domain in fed}
    for one in power.consumers:
        if one.least_v is not None and one.domain in can_be_fed:
            slug = "reset-headroom" if one.resets else "low-headroom"
            words = "its reset" if one.resets else "the least that it is rated for"
            yield Wanted(f"power.{slug}@{one.end}", "v", f"{one.end} over {words}, at worst", "lowest",
                         one.domain, one.least_v)  # fmt: skip


def _drops(power: PowerNetwork) -> Iterator[Wanted]:
    for one in power.strands:
        yield Wanted(f"power.lead-drop@{one.end}", "v", f"drop in {', '.join(one.leads)} at stall",
                     "drop", one.end, one.wire_mohm)  # fmt: skip


def _packs(power: PowerNetwork, phased: bool) -> Iterator[Wanted]:
    for pack in power.packs:
        if phased:
            yield Wanted(f"power.mean-current@{pack}", "a", f"mean current of {pack}", "mean", pack)
        yield Wanted(f"power.peak-current@{pack}", "a", f"highest current of {pack}, alone", "peak", pack)


def _warm(power: PowerNetwork) -> Iterator[Wanted]:
    for one in power.network.elements:
        if isinstance(one, Regulator):
            yield Wanted(f"power.regulator-heat@{one.id}", "w", f"heat of the regulator {one.id}",
                         "heat", one.id)  # fmt: skip
    for end, (lead, may) in power.plugs.items():
        if lead in power.network.element_at:
            yield Wanted(f"power.contact-load@{end}", "pct", f"lasting current of the plug of {end}",
                         "contact", lead, may)  # fmt: skip


def _unlike(power: PowerNetwork) -> Iterator[Wanted]:
    for packs, _ in power.groups:
        sizes = [one.capacity_mah for one in power.network.packs if one.id in packs]
        if len(sizes) > 1:
            yield Wanted(f"power.capacity-difference@{'+'.join(packs)}", "pct",
                         f"by how much the capacities of {', '.join(packs)} differ", "stated", packs[0],
                         100.0 * (1.0 - min(sizes) / max(sizes)))  # fmt: skip
