"""Sources joined that should not be: rails into one another, packs in series, unlike packs."""

from __future__ import annotations

from collections.abc import Iterator

from hardstand.changes import Change
from hardstand.description.electrics import EMPTY
from hardstand.engines.harness.feeding import is_pack
from hardstand.engines.harness.model import Netlist, Supply
from hardstand.engines.harness.netlist import pole_of
from hardstand.engines.harness.saying import change, leads_on, listed, said, taken_out
from hardstand.engines.harness.wires import plug_pins
from hardstand.findings import Finding, Remedy


def pack_findings(net: Netlist, supply: Supply) -> Iterator[Finding]:
    """What is wrong with how sources are joined."""
    yield from series(net)
    yield from _backfeed(net)
    yield from _unlike(net, supply)


def series(net: Netlist) -> Iterator[Finding]:
    """Packs whose plus meets the minus of another: their voltages add."""
    for one in net.nets:
        poles: dict[str, set[str]] = {}
        for end, pin in one.pins:
            port = net.ports[end]
            if port.domain is not None and is_pack(net, port.domain) and port.power == "gives":
                poles.setdefault(pole_of(pin), set()).add(port.item)
        plus, minus = poles.get("plus", set()), poles.get("minus", set())
        leads = leads_on(net, one.conductors)
        if plus and minus and plus != minus and leads:
            packs = sorted(plus | minus)
            yield said("packs-series", "no-go", (*leads, *packs),
                       f"{', '.join(leads)} joins the plus of {listed(sorted(plus))} to the minus of "
                       f"{listed(sorted(minus))}: the packs are in series, and all that they feed gets "
                       "their voltages together.",
                       Remedy(f"take {leads[0]} out", taken_out(net, leads[0])))


def _backfeed(net: Netlist) -> Iterator[Finding]:
    """Islands of plus copper on which two sources of their own give."""
    islands: dict[str, str] = {}

    def top(domain: str) -> str:
        while islands.setdefault(domain, domain) != domain:
            domain = islands[domain]
        return domain

    touching: list[tuple[str, int]] = []
    for number, one in enumerate(net.nets):
        rails = [str(net.ports[end].domain) for end, pin in one.pins
                 if pole_of(pin) == "plus" and net.ports[end].power in ("gives", "both")]  # fmt: skip
        for rail in rails:
            islands[top(rail)] = top(rails[0])
            touching.append((rail, number))
    groups: dict[str, list[str]] = {}
    for rail in islands:
        if any(net.ports[end].power == "gives" for end in net.domains[rail]):
            groups.setdefault(top(rail), []).append(rail)
    for name, rails in groups.items():
        if len(rails) > 1:
            numbers = [number for rail, number in touching if top(rail) == name]
            yield _joined(net, sorted(rails), list(dict.fromkeys(numbers)))


def _joined(net: Netlist, rails: list[str], numbers: list[int]) -> Finding:
    wires = [net.conductors[wire] for number in numbers for wire in net.nets[number].conductors]
    last = rails[-1]
    leads = leads_on(net, [wire for number in numbers for wire in net.nets[number].conductors])
    cut = next((wire.lead for wire in wires if wire.lead
                and last in (net.ports[wire.a[0]].domain, net.ports[wire.b[0]].domain)),
               leads[-1])  # fmt: skip
    lead = net.leads[cut]
    names = {pole_of(net.conductors[number].name) for number in lead.conductors}
    stand = plug_pins(lead.row, 1, net.ports[lead.ends[1]])
    pins = [EMPTY if pole_of(one) == "plus" else one for one in stand]
    if names == {"plus", "minus"} or pins == list(stand):
        remedy = Remedy(f"take {cut} out", taken_out(net, cut))
    else:
        remedy = Remedy(f"leave the plus wire out of {cut}: signal and minus are enough",
                        (change(lead.row, "to_pins", pins),))  # fmt: skip
    packs = all(is_pack(net, one) for one in rails)
    why = ("the fuller charges the emptier through bare wire" if packs else
           "each feeds the other, and one that fails pulls both down")  # fmt: skip
    return said("backfeed", "no-go", leads,
                f"{', '.join(leads)} joins the plus of {listed(rails)}: {why}.", remedy)


def _unlike(net: Netlist, supply: Supply) -> Iterator[Finding]:
    seen: set[tuple[str, ...]] = set()
    tied = {link.item for link in net.links if link.how == "tie"}
    direct = {link.target for link in net.links if link.how != "tie"}
    for domain in sorted(direct):
        packs = supply.packs.get(domain, ())
        kinds = {(net.boxes[one].part.chemistry, net.boxes[one].part.cells) for one in packs}
        if len(kinds) < 2 or packs in seen or domain.partition(".")[0] in tied:
            continue
        seen.add(packs)
        first, other = packs[0], next(
            one for one in packs if (net.boxes[one].part.chemistry, net.boxes[one].part.cells)
            != (net.boxes[packs[0]].part.chemistry, net.boxes[packs[0]].part.cells))  # fmt: skip
        was, new = net.boxes[other].part.id, net.boxes[first].part.id
        yield said("packs-unlike", "no-go", packs,
                   f"{listed(packs)} feed {domain} together and differ in chemistry or cells "
                   f"({_kind(net, first)}, {_kind(net, other)}): the one with more volts carries all, "
                   "and the other is no reserve.",
                   Remedy(f"use the same kind for both: {new} for {other}",
                          (Change(f"item.{other}.part", was, new),)))


def _kind(net: Netlist, pack: str) -> str:
    part = net.boxes[pack].part
    return f"{part.chemistry or 'unknown'} of {part.cells or '?'} cells"
