"""How much metal each lead needs at least: for drop, for the volts after it, for its load, and to last."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Feed
from hardstand.engines.power.choice.case import Case
from hardstand.engines.power.choice.choose import least_mm2
from hardstand.engines.power.choice.sizes import GAUGES
from hardstand.engines.power.choice.spare import volts_mm2
from hardstand.engines.power.defaults import COPPER, LASTING_A_MM2, PACK_MM2
from hardstand.standards.wire_resistance import conductor_area_mm2

Floats = NDArray[np.float64]


def needs(case: Case) -> dict[str, Floats]:
    """Metal that each lead needs at least, mm2, (L), by what asks for it."""
    at = {lead: row for row, lead in enumerate(case.leads)}
    return {
        "drop": _drop(case, at),
        "volts": volts_mm2(case),
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
