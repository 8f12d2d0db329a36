"""The choice of wire and plug for every lead that carries power, as a node."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Netlist, Supply
from hardstand.engines.power.choice.case import Case, spread_of
from hardstand.engines.power.choice.choose import Warming, chosen, warm_degc
from hardstand.engines.power.choice.currents import LEAST_A, LeadCurrents, lead_currents
from hardstand.engines.power.choice.downstream import downstream
from hardstand.engines.power.choice.figured import figures_of, unit_feeds
from hardstand.engines.power.choice.laid import Laid
from hardstand.engines.power.choice.needs import needs
from hardstand.engines.power.choice.plugs import smallest_class
from hardstand.engines.power.choice.sizes import AWG, MM2
from hardstand.engines.power.choice.there import mass_g, plugs_of
from hardstand.engines.power.choice.tied import conductors_of, others
from hardstand.engines.power.defaults import INSIDE, STILL_AIR
from hardstand.engines.power.model import Choices, Failures, Moments, PowerNetwork, WireChoice

Floats = NDArray[np.float64]


def choices(slices: Any, earlier: Any) -> Choices | None:
    """Node: wire and plug of every lead with power; None without a network."""
    power: PowerNetwork | None = earlier["power.network"]
    if power is None:
        return None
    moments: Moments = earlier["power.moments"]
    failed: Failures = earlier["power.failures"]
    net: Netlist = earlier["harness.circuit"]
    supply: Supply = earlier["harness.supply"]
    way: Laid = earlier["power.laid"]
    every = tuple(lead for lead, _, _ in way.lengths)
    after = downstream(power, supply, every)
    found = lead_currents(power, moments, failed, supply, after, every, slices)
    kept = np.flatnonzero(found.worst_a > LEAST_A)  # of the others nobody stated a current
    leads = tuple(every[at] for at in kept)
    slopes, u = spread_of(supply, leads)
    case = Case(
        power, moments, net, supply, slices.limits, leads,
        np.array([mm for _, mm, _ in way.lengths])[kept] if len(kept) else np.zeros(0),
        np.array([net.leads[one].area_mm2 or np.nan for one in leads]),
        _some(found, kept), after, u,
    )  # fmt: skip
    return _chosen(case, way, slopes, tuple(one for one in every if one not in leads))


def _some(found: LeadCurrents, kept: NDArray[np.intp]) -> LeadCurrents:
    rows = kept.tolist()
    return LeadCurrents(
        found.normal_a[kept], tuple(found.normal_at[at] for at in rows), found.worst_a[kept],
        tuple(found.worst_at[at] for at in rows), found.calm_a[kept], found.lasting_a[kept],
        tuple(found.lasting_at[at] for at in rows),
    )  # fmt: skip


def _chosen(case: Case, way: Laid, slopes: Floats, silent: tuple[str, ...]) -> Choices:
    leads, currents = case.leads, case.currents
    around = others(case.net, way, dict(zip(leads, currents.calm_a.tolist(), strict=True)))
    tied = np.array([around.get(one, (0.0, 0.0)) for one in leads]).reshape(len(leads), 2)
    these = Warming(
        currents.lasting_a, np.array([float(conductors_of(case.net, one)) for one in leads]),
        tied[:, 0], tied[:, 1], INSIDE.value, case.u_current, STILL_AIR.u, INSIDE.u)  # fmt: skip
    least, most = needs(case), case.high("power.wire-warmth")
    by_gauge, why = chosen(AWG, least, these, most)
    by_section, by_why = chosen(MM2, least, these, most)
    warm = warm_degc(these, case.area_mm2)
    plug_a = (1.0 + 2.0 * case.u_current) * np.maximum(
        currents.lasting_a / (0.01 * case.high("harness.pin-load")),
        currents.worst_a / (0.01 * case.high("harness.pin-peak")))  # fmt: skip
    from_where = {lead: how for lead, _, how in way.lengths}
    wires, metal = [], np.full((len(leads), 2), np.inf)
    for row, lead in enumerate(leads):
        own = case.net.leads[lead].row
        by_mm2 = own.area_mm2 is not None
        ladder, at = (MM2, by_section) if by_mm2 else (AWG, by_gauge)
        if at[row] < len(ladder.sizes):
            metal[row, 1] = ladder.area_mm2[at[row]]
        metal[row, 0] = case.area_mm2[row]
        gauge, section = int(by_gauge[row]), int(by_section[row])
        wires.append(WireChoice(
            lead, case.net.leads[lead].ends, float(case.length_mm[row]), from_where[lead],
            conductors_of(case.net, lead), float(currents.normal_a[row]), currents.normal_at[row],
            float(currents.worst_a[row]), currents.worst_at[row], float(currents.lasting_a[row]),
            currents.lasting_at[row], float(warm[row]) if np.isfinite(warm[row]) else None,
            own.awg, own.area_mm2,
            int(AWG.sizes[gauge]) if gauge < len(AWG.sizes) else None,
            MM2.sizes[section] if section < len(MM2.sizes) else None,
            (by_why if by_mm2 else why)[row], mass_g(case, lead, row, metal[row]),
            plugs_of(case.net, lead),
            smallest_class(float(plug_a[row]), conductors_of(case.net, lead)),
        ))  # fmt: skip
    feeds = unit_feeds(case)
    calm = replace(these, current_a=currents.calm_a)
    return Choices(tuple(wires), silent, metal, warm_degc(calm, case.area_mm2),
                   {domain: one.leads for domain, one in feeds.items()},
                   figures_of(case, these, feeds, slopes))  # fmt: skip
