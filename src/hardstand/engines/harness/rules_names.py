"""Names: ends that nobody knows, labels that two leads share, tables that are not there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hardstand.description.items import UNKNOWN
from hardstand.engines.harness.model import Netlist
from hardstand.engines.harness.saying import change, listed, said
from hardstand.findings import Finding, Remedy


def name_findings(net: Netlist, channels: Any) -> Iterator[Finding]:
    """What is not known, or not known apart."""
    yield from _unknown(net)
    yield from _labels(net)
    if net.leads and not channels:
        yield said("missing", "measure", ("channel",),
                   "No [[channel]] is described, so nothing says which output moves what: give each "
                   "channel with its function, its output and what it drives.")
    bare = [one.id for one in net.leads.values() if not one.row.direct and not one.row.connector
            and not one.row.from_connector and not one.row.to_connector]  # fmt: skip
    if bare:
        yield said("assumption", "note", ("lead",),
                   f"{len(bare)} leads name no connector ({listed(bare[:6])}"
                   f"{' and others' if len(bare) > 6 else ''}): plugs that fit both ports are taken.")


def _unknown(net: Netlist) -> Iterator[Finding]:
    """Unknown ends, those that may be the same things told of together."""
    groups: dict[tuple[str, ...], list[str]] = {}
    for lead in net.leads.values():
        if UNKNOWN in (lead.row.from_, lead.row.to):
            groups.setdefault(lead.row.may_be, []).append(lead.id)
    for may_be, leads in groups.items():
        left = [end for end in may_be if end not in net.at]
        other = [next(end for end in net.leads[one].ends if " " not in end) for one in leads
                 if any(" " not in end for end in net.leads[one].ends)]  # fmt: skip
        remedy = None
        if len(left) == 1 and len(leads) == 1:
            row = net.leads[leads[0]].row
            side = "to" if row.to == UNKNOWN else "from"
            remedy = Remedy(f"it can only be {left[0]}: label it so", (
                change(row, side, left[0]), change(row, "may_be", None)))  # fmt: skip
        which = "it" if len(leads) == 1 else "each"
        could = f"; {which} may be {listed(left[:9])}" if left else ""
        yield said("unknown-end", "measure", leads,
                   f"Nobody knows where {listed(leads)} ({', '.join(other)}) "
                   f"{'ends' if len(leads) == 1 else 'end'}{could}. Try each with a diode test or a "
                   "supply limited to 20 mA, the pack unplugged, and label both ends.", remedy)


def _labels(net: Netlist) -> Iterator[Finding]:
    seen: dict[str, str] = {}
    for lead in net.leads.values():
        seen.setdefault((lead.row.label or lead.id).strip().casefold(), lead.id)
    for lead in net.leads.values():
        label = (lead.row.label or lead.id).strip()
        first = seen[label.casefold()]
        if first != lead.id:
            row = lead if lead.row.label else net.leads[first]
            yield said("label-twice", "caution", (lead.id, first),
                       f"{lead.id} ({' to '.join(lead.ends)}) and {first} are both labelled {label}: "
                       "one will be plugged in the other's place.",
                       Remedy(f"label {row.id} with its own id", (change(row.row, "label", None),)))
