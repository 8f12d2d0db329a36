"""How much metal each lead needs at least: for drop, for the volts after it, for its load, and to last."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Feed, Netlist, Supply
from hardstand.engines.power.choice.choose import least_mm2
from hardstand.engines.power.choice.currents import LeadCurrents
from hardstand.engines.power.choice.downstream import Downstream
from hardstand.engines.power.choice.sizes import GAUGES
from hardstand.engines.power.defaults import COPPER, LASTING_A_MM2, PACK_MM2
from hardstand.engines.power.model import Moments, PowerNetwork
from hardstand.standards.wire_resistance import RESISTIVITY, conductor_area_mm2

Floats = NDArray[np.float64]
_LOWEST = ("power.rail", "power.reset-headroom", "power.low-headroom")


@dataclass(frozen=True, eq=False)
class Case:
    """All that the choice is made of: leads (L) with lengths (mm), metal (nan: not known), currents.

    `u_current` (L) is the relative standard uncertainty of their currents.
    """

    power: PowerNetwork
    moments: Moments
    net: Netlist
    supply: Supply
    limits: Mapping[str, Any]
    leads: tuple[str, ...]
    length_mm: Floats
    area_mm2: Floats
    currents: LeadCurrents
    after: Downstream
    u_current: Floats

    def high(self, limit: str) -> float:
        """The upper limit of a figure."""
        high = self.limits[limit].high
        return float("inf") if high is None else float(high)

    @property
    def feeds(self) -> tuple[Feed, ...]:
        """The ways of power that the leads are part of, each once."""
        return tuple(dict.fromkeys(one for lead in self.leads for one in self.after.feeds[lead]))


def needs(case: Case) -> dict[str, Floats]:
    """Metal that each lead needs at least, mm2, (L), by what asks for it."""
    at = {lead: row for row, lead in enumerate(case.leads)}
    return {
        "drop": _drop(case, at),
        "volts": _volts(case),
        "load": _load(case),
        "size": np.array([_size(case, lead) for lead in case.leads]),
    }


def volt_a_mm(case: Case, at: Mapping[str, int], feed: Feed, stall_a: float = 0.0) -> float:
    """Current times length over all leads of a feed, A mm; `stall_a` is the least that each carries."""
    rows = [at[one] for one in feed.leads if one in at]
    return float((case.length_mm[rows] * np.maximum(case.currents.worst_a[rows], stall_a)).sum())


def _drop(case: Case, at: Mapping[str, int]) -> Floats:
    """All leads of a feed as thick as one another, so that together they drop no more than the limit."""
    strands = {one.leads: one for one in case.power.strands}
    stalls = {one.end: one.amperes("stall") for one in case.power.consumers}
    figures = case.moments.figures
    spread = {address.partition("@")[2]: u / value for address, value, u in
              zip(figures.addresses, figures.values.tolist(), figures.u.tolist(), strict=True)
              if address.startswith("power.lead-drop@") and value > 0.0}  # fmt: skip
    found = np.zeros(len(case.leads))
    for feed in case.feeds:
        strand = strands.get(feed.leads)
        rows = [at[one] for one in feed.leads if one in at]
        u = float(np.hypot(COPPER.u, case.u_current[rows].max()))
        whole = volt_a_mm(case, at, feed, stalls[strand.end] if strand else 0.0)
        limit = case.high("power.lead-drop" if strand else "power.feed-drop")
        sure = 1.0 + 2.0 * (spread.get(strand.end, u) if strand else u)
        found[rows] = np.maximum(found[rows], least_mm2(np.array(sure * whole), np.array(limit)))
    return found


def _volts(case: Case) -> Floats:
    """What may be lost beyond what is lost now, so that nothing after a lead leaves its limit.

    Leads in series share what is to spare; where nothing is, a lead must stay as thick as it is.
    """
    spare = _spare(case)
    now_v = 2e-3 * RESISTIVITY * case.length_mm * case.currents.worst_a / case.area_mm2
    series = np.array([case.after.series[one] for one in case.leads])
    most = now_v + np.maximum(spare, 0.0) / series
    bound = np.isfinite(most) & (case.currents.worst_a > 0.0)
    least = least_mm2(case.length_mm * case.currents.worst_a, np.where(bound, most, 1.0))
    return np.where(bound, least, 0.0)


def _spare(case: Case) -> Floats:
    """Volts to spare after each lead, less U, (L); infinite where nothing that is judged hangs on it."""
    figures, domain = case.moments.figures, {one.end: one.domain for one in case.power.consumers}
    found: dict[str, float] = {}
    for address, value, u in zip(figures.addresses, figures.values.tolist(), figures.u.tolist(),
                                 strict=True):  # fmt: skip
        code, _, end = address.partition("@")
        limit = case.limits.get(code) if code in _LOWEST else None
        if limit is not None and limit.low is not None:
            node = domain.get(end, end)
            found[node] = min(found.get(node, np.inf), value - 2.0 * u - limit.low)
    return np.array([min((found[one] for one in case.after.domains[lead] if one in found),
                         default=np.inf) for lead in case.leads])  # fmt: skip


def _load(case: Case) -> Floats:
    """What `harness.wire-load` asks for, with U."""
    lasting = np.array([case.supply.lasting_a.get(one, 0.0) for one in case.leads])
    share = 0.01 * case.high("harness.wire-load")
    return np.asarray(lasting * (1.0 + 2.0 * case.u_current) / (LASTING_A_MM2 * share))


def _size(case: Case, lead: str) -> float:
    row = case.net.leads[lead].row
    boxes, ports = case.net.boxes, case.net.ports
    on_pack = any(ports[feed.ends[0]].item in boxes and boxes[ports[feed.ends[0]].item].kind == "pack"
                  for feed in case.after.feeds[lead])  # fmt: skip
    return PACK_MM2 if on_pack and row.fuse_a is None else conductor_area_mm2(GAUGES[0])


def spread_of(supply: Supply, leads: Sequence[str]) -> tuple[Floats, Floats]:
    """Relative slopes of the leads' currents (L, inputs of the supply's figures), and relative u (L)."""
    figures = supply.figures
    row = {address: at for at, address in enumerate(figures.addresses)}
    slopes = np.zeros((len(leads), len(figures.inputs)))
    for at, lead in enumerate(leads):
        place = row.get(f"harness.wire-load@{lead}")
        if place is not None and figures.values[place] > 0.0:
            slopes[at] = figures.sensitivity[place] / figures.values[place]
    return slopes, np.sqrt(slopes**2 @ figures.input_u**2)
