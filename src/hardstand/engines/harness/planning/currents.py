"""What carries the current of the outputs: rails, leads and pins on the way, and what is to be even."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from hardstand.engines.harness.demand import Demand, demand
from hardstand.engines.harness.feeding import feeds, packs_of, power_ways
from hardstand.engines.harness.model import Feed, Netlist
from hardstand.engines.harness.planning.outputs import Outputs
from hardstand.engines.harness.planning.plugged import milliamperes
from hardstand.engines.harness.planning.problem import PARTS, Capacity, Share
from hardstand.engines.harness.supply import WIRE_A_MM2
from hardstand.findings import Limit


def capacities(
    bare: Netlist, found: Outputs, whole_ma: int, limits: Mapping[str, Limit]
) -> tuple[Capacity, ...]:
    """The rails, wires and pins that could be loaded too much by all plugs, `whole_ma` together.

    `bare` is the netlist without the plugs. What is loaded too much already without them is left
    out: no plan could help there.
    """
    ways = feeds(bare, power_ways(bare))
    lasting = demand(bare, ways, "moving")
    below = _below(ways)
    made: dict[str, Capacity] = {}
    for slug, about, words, base, most_a, domains in _carriers(bare, ways, lasting):
        reach = set().union(*(below.get(one, {one}) for one in domains))
        places = frozenset(c for c, place in enumerate(found.places) if place.domain in reach)
        most = int(1000.0 * most_a * (limits[f"harness.{slug}"].high or 100.0) / 100.0)
        if places and base <= most < base + whole_ma:
            made.setdefault(f"{slug}@{about}", Capacity(about, words, base, most, places))
    return tuple(made.values())


def wires_ma(bare: Netlist, found: Outputs) -> dict[int, int]:
    """By place what the thinnest wire on the way from a pack carries for long, mA, where known."""
    ways = feeds(bare, power_ways(bare))
    below = _below(ways)
    least: dict[int, int] = {}
    for one in ways:
        areas = [area for lead in one.leads if (area := bare.leads[lead].area_mm2) is not None]
        if areas:
            for c, place in enumerate(found.places):
                if place.domain in below[one.target]:
                    ma = int(1000.0 * WIRE_A_MM2 * min(areas))
                    least[c] = min(least.get(c, ma), ma)
    return least


Carrier = tuple[str, str, str, int, float, list[str]]


def _carriers(bare: Netlist, ways: tuple[Feed, ...], lasting: Demand) -> Iterator[Carrier]:
    for domain in bare.domains:
        item = domain.partition(".")[0]
        box = bare.boxes.get(item)
        gives = any(bare.ports[end].power == "gives" for end in bare.domains[domain])
        if box is not None and box.part.rated_a and gives:
            base = milliamperes([lasting.domains.get(domain, {})], lasting)
            words = f"{domain} carries no more than {box.part.rated_a:g} A for long"
            yield "rail-load", domain, words, base, box.part.rated_a, [domain]
    for lead in bare.leads.values():
        targets = [one.target for one in ways if lead.id in one.leads]
        if lead.area_mm2 is not None and targets:
            most = WIRE_A_MM2 * lead.area_mm2
            base = milliamperes([lasting.leads.get(lead.id, {})], lasting)
            yield ("wire-load", lead.id, f"lead {lead.id} carries no more than {most:.1f} A for long",
                   base, most, targets)
    for end in dict.fromkeys(end for one in ways for end in one.ends):
        most = bare.ports[end].current_a or 0.0
        targets = [one.target for one in ways if end in one.ends]
        if most:
            base = milliamperes([lasting.ports.get(end, {})], lasting)
            yield ("pin-load", end, f"the pins of {end} carry no more than {most:g} A for long",
                   base, most, targets)


def _below(ways: tuple[Feed, ...]) -> dict[str, set[str]]:
    """Every domain that power comes to from a domain, itself included."""
    out: dict[str, set[str]] = {}
    for one in ways:
        out.setdefault(one.source, set()).add(one.target)
        out.setdefault(one.target, set())
    found: dict[str, set[str]] = {}
    for domain in out:
        seen, waiting = {domain}, [domain]
        while waiting:
            more = out[waiting.pop()] - seen
            seen |= more
            waiting += more
        found[domain] = seen
    return found


def balances(bare: Netlist, found: Outputs) -> tuple[tuple[Share, ...], ...]:
    """Distribution units among one another, and packs: each carries what hangs on its own outputs.

    A rail's current is shared evenly by the packs that feed it other than over a tie.
    """
    ways = feeds(bare, power_ways(bare))
    base = {one: milliamperes([sums], lasting) for lasting in (demand(bare, ways, "moving"),)
            for one, sums in lasting.domains.items()}  # fmt: skip
    rails = list(dict.fromkeys(place.domain for place in found.places
                               if bare.boxes[place.item].kind == "distribution"))  # fmt: skip
    units: dict[str, list[str]] = {}
    for rail in rails:
        units.setdefault(rail.partition(".")[0], []).append(rail)
    untied = replace(bare, links=tuple(one for one in bare.links if one.how != "tie"))
    packs: dict[str, list[str]] = {}
    fed = packs_of(untied, feeds(untied, power_ways(untied)))
    for rail in rails:
        for pack in fed.get(rail, ()):
            packs.setdefault(pack, []).append(rail)
    count = {rail: min(len(fed.get(rail, ())) or 1, PARTS) for rail in rails}
    hubs = tuple(Share(unit, sum(base.get(one, 0) for one in own), {
        c: PARTS for c, place in enumerate(found.places) if place.domain in own
    }) for unit, own in units.items())  # fmt: skip
    shares = tuple(Share(pack, sum(base.get(one, 0) // count[one] for one in own), {
        c: PARTS // count[place.domain] for c, place in enumerate(found.places) if place.domain in own
    }) for pack, own in packs.items())  # fmt: skip
    return tuple(family for family in (hubs, shares) if len(family) > 1)
