"""Leads that would mend the harness: what a port could be plugged to, as a row to add."""

from __future__ import annotations

from itertools import count
from typing import Any

from hardstand.changes import AddRow
from hardstand.engines.harness.model import HarnessPort, Netlist, Supply

_ANSWERS = {"gives": ("takes", "both"), "takes": ("gives", "both"), "both": ("gives", "takes", "both")}


def mate_for(net: Netlist, port: HarnessPort) -> HarnessPort | None:
    """An empty port of another item that this one could be plugged to."""
    return next((one for one in net.ports.values() if one.item and one.item != port.item
                 and one.end not in net.at and _go(one, port)), None)  # fmt: skip


def _go(one: HarnessPort, other: HarnessPort) -> bool:
    kinds = {one.kind, other.kind}
    if ("motor" in kinds and len(kinds) > 1) or kinds == {"power", "signal"} or kinds & {"fuel", "air"}:
        return False
    if one.form != other.form or len(one.pins) != len(other.pins):
        return False
    if other.kind == "power":
        return {one.power, other.power} == {"gives", "takes"}
    return one.signal in _ANSWERS.get(other.signal, ()) and (one.power, other.power) not in (
        ("gives", "gives"), ("takes", "takes"))  # fmt: skip


def new_lead_id(net: Netlist) -> str:
    """An id for a lead that no lead has."""
    return next(name for number in count(1) if (name := f"new-{number}") not in net.leads)


def lead_between(net: Netlist, giver: HarnessPort, taker: HarnessPort) -> AddRow:
    """A lead from what gives to what takes; its wire and length are the builder's to say."""
    first, second = (giver, taker) if "gives" in (giver.signal, giver.power) else (taker, giver)
    return AddRow("lead", {"id": new_lead_id(net), "from": first.end, "to": second.end})


def supply_for(net: Netlist, supply: Supply, port: HarnessPort) -> AddRow | None:
    """A lead that feeds a port: from an empty port that gives power, else a branch from a pack."""
    givers = [one for one in net.ports.values() if one.item and one.item != port.item
              and one.power == "gives" and one.domain in supply.packs
              and (one.kind == port.kind or "motor" not in (one.kind, port.kind))
              and volts_fit(supply, one, port)]  # fmt: skip
    givers.sort(key=lambda one: (one.kind != port.kind, len(one.pins) != len(port.pins)))
    for one in givers:
        if one.end not in net.at:
            return lead_between(net, one, port)
    for one in givers:
        main = main_lead(net, one.end)
        if net.boxes[one.item].kind == "pack" and main is not None:
            row: dict[str, Any] = lead_between(net, one, port).row
            return AddRow("lead", {**row, "branch_of": main})
    return None


def main_lead(net: Netlist, end: str) -> str | None:
    """The lead that begins at a port and is no branch itself: another may branch from it."""
    rows = (net.leads[one].row for one in net.at.get(end, ()))
    return next((row.id for row in rows if row.from_ == end and row.branch_of is None), None)


def volts_fit(supply: Supply, giver: HarnessPort, taker: HarnessPort) -> bool:
    """Whether what a port gives is within what another stands and needs; unknown volts are let pass."""
    volts = supply.volts.get(giver.domain or "")
    if volts is None:
        return True
    return (taker.high_v is None or volts[1] <= taker.high_v + 0.05) and (
        taker.low_v is None or volts[0] >= taker.low_v - 0.05)  # fmt: skip
