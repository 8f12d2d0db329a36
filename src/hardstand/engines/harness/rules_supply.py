"""What is fed wrongly or not at all: voltage, nothing plugged in, gear on the flight packs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from hardstand.changes import Change
from hardstand.description.parts import Part
from hardstand.engines.harness.adding import (
    lead_between,
    main_lead,
    mate_for,
    supply_for,
    volts_fit,
)
from hardstand.engines.harness.model import ChannelPlan, Feed, HarnessPort, Netlist, Supply
from hardstand.engines.harness.saying import change, listed, said
from hardstand.findings import Finding, Remedy

NEAR_V = 0.05  # what a voltmeter cannot tell apart
_ELECTRIC = ("power", "signal", "both", "motor")


def supply_findings(
    net: Netlist, supply: Supply, plan: ChannelPlan, on_hand: Mapping[str, Part]
) -> Iterator[Finding]:
    """Everything about who is fed with what."""
    for domain in net.domains:
        yield from _voltage(net, supply, domain, on_hand)
    yield from _without(net, supply)
    yield from _empty(net)
    yield from _gear(net, supply, plan)


def _voltage(
    net: Netlist, supply: Supply, domain: str, on_hand: Mapping[str, Part]
) -> Iterator[Finding]:
    volts = supply.volts.get(domain)
    ports = [net.ports[end] for end in net.domains[domain]
             if net.ports[end].power in ("takes", "both")]  # fmt: skip
    if volts is None or not ports:
        return
    high = min((one.high_v for one in ports if one.high_v is not None), default=None)
    low = max((one.low_v for one in ports if one.low_v is not None), default=None)
    packs = supply.packs.get(domain, ())
    if high is not None and volts[1] > high + NEAR_V:
        yield _volt_finding(net, supply, domain, ports[0], ("high", volts[1], high), on_hand, packs)
    elif low is not None and volts[0] < low - NEAR_V:
        yield _volt_finding(net, supply, domain, ports[0], ("low", volts[0], low), on_hand, packs)


def _volt_finding(
    net: Netlist, supply: Supply, domain: str, port: HarnessPort,
    what: tuple[str, float, float], on_hand: Mapping[str, Part], packs: tuple[str, ...],
) -> Finding:  # fmt: skip
    side, is_v, may_v = what
    into = next((feed for feed in supply.feeds if feed.target == domain), None)
    leads = into.leads if into is not None else ()
    box = net.boxes.get((into.source if into else domain).partition(".")[0])
    remedy = None
    if box is not None and box.set_v is not None and box.kind != "pack":
        remedy = Remedy(f"set {box.id} to {may_v:g} V",
                        (Change(f"item.{box.id}.set_v", box.own_set_v, may_v),))  # fmt: skip
    else:
        fits = next((part for part in on_hand.values() if _fits(part, port)), None)
        if fits is not None:
            remedy = Remedy(f"use {fits.id}, which is on hand, instead",
                            tuple(Change(f"item.{one}.part", net.boxes[one].part.id, fits.id)
                                  for one in packs))  # fmt: skip
    bound = (f"stands at most {may_v:g} V and gets up to {is_v:.2f} V" if side == "high" else
             f"needs {may_v:g} V and gets {is_v:.2f} V from a pack under way")  # fmt: skip
    return said(f"voltage-{side}", "no-go", (*leads, port.item or port.end),
                f"{port.end} {bound}{f' through {listed(leads)}' if leads else ''}.", remedy)


def _fits(part: Part, port: HarnessPort) -> bool:
    return part.high_v is not None and part.low_v is not None and (
        port.high_v is None or part.high_v <= port.high_v + NEAR_V
    ) and (port.low_v is None or part.high_v > port.low_v)  # fmt: skip


def _without(net: Netlist, supply: Supply) -> Iterator[Finding]:
    """Items that no lead touches, and those that no pack reaches."""
    fed = {domain.partition(".")[0] for domain in supply.packs}
    used = {net.ports[end].item for end in net.at}
    for box in net.boxes.values():
        ports = [one for one in net.ports.values() if one.item == box.id and one.kind in _ELECTRIC
                 and one.form != "data"]  # fmt: skip
        if not ports:
            continue
        if box.id not in used:
            yield said("unconnected", "caution", (box.id,),
                       f"No lead ends at {box.id}: its ports {listed([one.end for one in ports][:4])} "
                       "are all empty.", _plug_in(net, ports))
            continue
        dead = _dead(net, supply, ports, fed=box.id in fed)
        if dead is not None:
            row = supply_for(net, supply, dead)
            remedy = None if row is None else Remedy(f"feed it from {row.row['from']}", (row,))
            at = net.at.get(dead.end, ())
            yield said("unpowered", "no-go", (box.id, *at),
                       f"No pack feeds {box.id}: nothing that gives power reaches {dead.end}"
                       f"{f' over {listed(at)}' if at else ''}.", remedy)


def _dead(
    net: Netlist, supply: Supply, ports: list[HarnessPort], *, fed: bool
) -> HarnessPort | None:
    """The port through which an item should be fed and is not: of a fed one, where a lead ends."""
    takes = [one for one in ports if one.power == "takes" or (one.power == "both" and not fed)]
    if fed:
        takes = [one for one in takes if one.end in net.at and one.domain not in supply.packs]
    return next((one for one in takes if one.needed and one.power == "takes"),
                next(iter(takes), None))  # fmt: skip


def _plug_in(net: Netlist, ports: list[HarnessPort]) -> Remedy | None:
    for port in ports:
        mate = mate_for(net, port)
        if mate is not None:
            return Remedy(f"lead {port.end} to {mate.end}", (lead_between(net, mate, port),))
    return None


def _empty(net: Netlist) -> Iterator[Finding]:
    rows: dict[str, list[HarnessPort]] = {}
    used = {net.ports[end].item for end in net.at}
    for port in net.ports.values():
        if port.needed and port.item in used:
            rows.setdefault(port.row, []).append(port)
    for row, ports in rows.items():
        empty = [one for one in ports if one.end not in net.at]
        partly = 0 < len(empty) < len(ports)
        if not empty or (partly and net.boxes[ports[0].item].kind != "distribution"):
            continue
        why = ("what it is there to back up has nothing behind it" if partly else
               "the unit cannot work without it")  # fmt: skip
        yield said("port-empty", "caution" if partly else "no-go", (ports[0].item,),
                   f"{listed([one.end for one in empty])} {'is' if len(empty) == 1 else 'are'} empty: "
                   f"{why} (row {row}).", _plug_in(net, empty))


def _gear(net: Netlist, supply: Supply, plan: ChannelPlan) -> Iterator[Finding]:
    """Motors of the gear that share a pack with the surfaces."""
    flying = {item for one in plan.channels if {"pitch", "roll"} & set(one.functions)
              for item in (*one.reaches, *one.drives)}  # fmt: skip
    flight = {pack for domain, packs in supply.packs.items()
              if domain.partition(".")[0] in flying for pack in packs}  # fmt: skip
    motors = [feed for feed in supply.feeds if flight & set(supply.packs.get(feed.target, ()))
              and net.ports[net.domains[feed.target][0]].kind == "motor"
              and net.boxes[feed.target.partition(".")[0]].kind == "retract"]  # fmt: skip
    units: dict[str, list[str]] = {}
    for feed in motors:
        units.setdefault(feed.source.partition(".")[0], []).append(feed.target.partition(".")[0])
    for unit, legs in units.items():
        into = [one for one in supply.feeds if one.leads
                and one.target.partition(".")[0] == unit]  # fmt: skip
        for feed in into:
            shared = sorted(flight & set(supply.packs.get(feed.target, ())))
            if shared:
                yield said("gear-on-flight-rail", "caution", (feed.leads[0], unit),
                           f"{feed.leads[0]} feeds the motors of {listed(sorted(legs))} at "
                           f"{feed.ends[-1]} from {listed(shared)}, which the flight servos hang on: "
                           "a leg that stalls pulls their rail down.",
                           _other_pack(net, supply, feed, flight))  # fmt: skip


def _other_pack(net: Netlist, supply: Supply, feed: Feed, flight: set[str]) -> Remedy | None:
    """The same lead from a pack that feeds neither flight nor turbine, as a branch where it must be."""
    starting = {pack for domain, packs in supply.packs.items() for pack in packs
                if getattr(net.boxes.get(domain.partition(".")[0]), "kind", "")
                == "turbine-controller"}  # fmt: skip
    lead, taker = net.leads[feed.leads[0]].row, net.ports[feed.ends[-1]]
    port = next((one for one in net.ports.values() if one.item and one.power == "gives"
                 and one.item not in flight | starting and net.boxes[one.item].kind == "pack"
                 and volts_fit(supply, one, taker)), None)  # fmt: skip
    if port is None:
        return None
    main = main_lead(net, port.end)
    if lead.from_ != feed.ends[0] or (main is None and port.end in net.at):
        return None
    changes: tuple[Any, ...] = (change(lead, "from", port.end),)
    if main is not None or lead.branch_of is not None:
        changes += (change(lead, "branch_of", main),)
    return Remedy(f"feed it from {port.end}", changes)
