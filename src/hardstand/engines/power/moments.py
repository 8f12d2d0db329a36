"""Volts and amperes at rest, in the mean, at the worst moment, and on each pack alone."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.power.figured import Row, Seen, figure_set
from hardstand.engines.power.model import Moments, PowerNetwork
from hardstand.engines.power.network.elements import Regulator
from hardstand.engines.power.states import Asked, asked

Floats = NDArray[np.float64]
Reader = Callable[[Seen], float]
FLYING = {"pitch", "roll", "yaw", "flaps", "speed-brake"}
SEVEN_V_CLASS = 6.5  # a rail set lower is judged by what hangs on it alone


def moments(slices: Any, earlier: Any) -> Moments | None:
    """Node: the moments solved, with their figures; None without a network."""
    power: PowerNetwork | None = earlier["power.network"]
    if power is None:
        return None
    these = asked(power, slices.phases, slices.duties)
    rows, readers = [], []
    for row, reader in [*_rails(power, these), *_items(power, these), *_drops(power),
                        *_packs(power, these), *_heat(power, these), *_contacts(power, these),
                        *_unlike(power)]:
        rows.append(row)
        readers.append(reader)
    solution, figures = figure_set(
        power, these, rows, lambda seen: np.array([read(seen) for read in readers]))
    a = these.currents.a
    return Moments(
        these.moments, solution.node_v, solution.current_a, (these.weights * a).sum(axis=2),
        solution.fed, solution.settled, these.phases, (these.phase_weights * a).sum(axis=2),
        (these.mean * a).sum(axis=1), (these.peak * a).sum(axis=1), these.peak_at, figures,
    )  # fmt: skip


def flying_rails(power: PowerNetwork) -> tuple[str, ...]:
    """The rails from which leads go to flight servos, of the 7 V class or without a regulator."""
    flight = {one.domain for one in power.consumers
              if one.kind == "servo" and set(one.functions) & FLYING}  # fmt: skip
    return tuple(
        rail for rail, set_v in power.rails.items()
        if power.targets.get(rail, frozenset()) & flight and (set_v is None or set_v >= SEVEN_V_CLASS))


def _worst(these: Asked) -> list[int]:
    """The rows of the worst moments on one pack alone, and on all where packs have no partners."""
    return [at for at, one in enumerate(these.moments) if one.worst]


def _lowest(power: PowerNetwork, these: Asked, node: str) -> Reader:
    column, rows = power.network.node_at[node], _worst(these)

    def read(seen: Seen) -> float:
        volts = seen.solution.node_v[rows, column]
        alive = seen.solution.fed[rows, column]
        return float(volts[alive].min()) if alive.any() else 0.0

    return read


def _rails(power: PowerNetwork, these: Asked) -> list[tuple[Row, Reader]]:
    return [((f"power.rail@{rail}", "v", f"{rail} at the worst moment on one worst pack"),
             _lowest(power, these, rail)) for rail in flying_rails(power)]  # fmt: skip


def _items(power: PowerNetwork, these: Asked) -> list[tuple[Row, Reader]]:
    found: list[tuple[Row, Reader]] = []
    for one in power.consumers:
        if one.least_v is not None and _can_be_fed(power, one.domain):
            slug = "reset-headroom" if one.resets else "low-headroom"
            words = "its reset" if one.resets else "the least that it is rated for"
            read = _lowest(power, these, one.domain)
            least = one.least_v
            found.append(((f"power.{slug}@{one.end}", "v", f"{one.end} over {words}, at worst"),
                          lambda seen, read=read, least=least: read(seen) - least))  # type: ignore[misc]
    return found


def _can_be_fed(power: PowerNetwork, domain: str) -> bool:
    return any(domain in fed for _, fed in power.groups)


def _drops(power: PowerNetwork) -> list[tuple[Row, Reader]]:
    at = {one.end: row for row, one in enumerate(power.consumers)}
    return [((f"power.lead-drop@{one.end}", "v", f"drop in {', '.join(one.leads)} at stall"),
             lambda seen, row=at[one.end], mohm=one.wire_mohm:  # type: ignore[misc]
             1e-3 * mohm * seen.copper * seen.a[row, 2]) for one in power.strands]  # fmt: skip


def _packs(power: PowerNetwork, these: Asked) -> list[tuple[Row, Reader]]:
    found: list[tuple[Row, Reader]] = []
    names, worst = [one.name for one in these.moments], _worst(these)
    mean = names.index("mean") if "mean" in names else None
    for pack in power.packs:
        column = power.network.element_at[pack]
        if mean is not None:
            found.append(((f"power.mean-current@{pack}", "a", f"mean current of {pack}"),
                          lambda seen, row=mean, column=column:  # type: ignore[misc]
                          float(seen.solution.current_a[row, column])))  # fmt: skip
        found.append(((f"power.peak-current@{pack}", "a", f"highest current of {pack}, alone"),
                      lambda seen, rows=worst, column=column:  # type: ignore[misc]
                      float(seen.solution.current_a[rows, column].max())))  # fmt: skip
    return found


def _warm(these: Asked) -> list[int]:
    return [at for at, one in enumerate(these.moments) if one.name.startswith("warm")]


def _heat(power: PowerNetwork, these: Asked) -> list[tuple[Row, Reader]]:
    rows = _warm(these)
    return [((f"power.regulator-heat@{one.id}", "w", f"heat of the regulator {one.id}"),
             lambda seen, at=at: float(seen.solution.heat_w[rows, at].max()))  # type: ignore[misc]
            for at, one in enumerate(power.network.elements)
            if rows and isinstance(one, Regulator)]  # fmt: skip


def _contacts(power: PowerNetwork, these: Asked) -> list[tuple[Row, Reader]]:
    rows, at = _warm(these), power.network.element_at
    return [((f"power.contact-load@{end}", "pct", f"lasting current of the plug of {end}"),
             lambda seen, column=at[lead], may=may:  # type: ignore[misc]
             100.0 * float(np.abs(seen.solution.current_a[rows, column]).max()) / may)
            for end, (lead, may) in power.plugs.items() if rows and lead in at]  # fmt: skip


def _unlike(power: PowerNetwork) -> list[tuple[Row, Reader]]:
    found: list[tuple[Row, Reader]] = []
    for packs, _ in power.groups:
        sizes = [one.capacity_mah for one in power.network.packs if one.id in packs]
        if len(sizes) > 1:
            less = 100.0 * (1.0 - min(sizes) / max(sizes))
            found.append(((f"power.capacity-difference@{'+'.join(packs)}", "pct",
                           f"by how much the capacities of {', '.join(packs)} differ"),
                          lambda _, less=less: less))  # type: ignore[misc]
    return found
