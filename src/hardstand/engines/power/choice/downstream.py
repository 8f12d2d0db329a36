"""What hangs on each lead: the domains after it, their consumers, and how many leads are in series."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from hardstand.engines.harness.model import Feed, Supply
from hardstand.engines.power.model import PowerNetwork


@dataclass(frozen=True, eq=False)
class Downstream:
    """By lead: `domains` after it, `loads` (leads, consumers) among them, its `feeds`, leads in `series`.

    `series` counts the leads on the longest way from a pack to a consumer that goes through it.
    """

    domains: Mapping[str, frozenset[str]]
    loads: NDArray[np.bool_]
    feeds: Mapping[str, tuple[Feed, ...]]
    series: Mapping[str, int]


def downstream(power: PowerNetwork, supply: Supply, leads: tuple[str, ...]) -> Downstream:
    """Follow the feeds from each lead outward; ties that go both ways are followed once."""
    after: dict[str, list[Feed]] = {}
    before: dict[str, list[Feed]] = {}
    of_lead: dict[str, list[Feed]] = {one: [] for one in leads}
    for feed in supply.feeds:
        after.setdefault(feed.source, []).append(feed)
        before.setdefault(feed.target, []).append(feed)
        for lead in feed.leads:
            if lead in of_lead:
                of_lead[lead].append(feed)
    reached: dict[str, frozenset[str]] = {}
    domains = {lead: frozenset().union(*(_reach(one.target, after, reached) for one in of_lead[lead]))
               for lead in leads}  # fmt: skip
    loads = np.array([[one.domain in domains[lead] for one in power.consumers] for lead in leads], bool)
    series = {lead: max((len(one.leads) + _depth(one.source, before, "source", frozenset())
                         + _depth(one.target, after, "target", frozenset())
                         for one in of_lead[lead]), default=1) for lead in leads}  # fmt: skip
    return Downstream(domains, loads.reshape(len(leads), len(power.consumers)),
                      {lead: tuple(found) for lead, found in of_lead.items()}, series)  # fmt: skip


def _reach(
    domain: str, after: Mapping[str, list[Feed]], known: dict[str, frozenset[str]]
) -> frozenset[str]:
    if domain not in known:
        seen, left = {domain}, [domain]
        while left:
            for feed in after.get(left.pop(), ()):
                if feed.target not in seen:
                    seen.add(feed.target)
                    left.append(feed.target)
        known[domain] = frozenset(seen)
    return known[domain]


def _depth(domain: str, ways: Mapping[str, list[Feed]], side: str, seen: frozenset[str]) -> int:
    """The most leads in series from a domain on, one way."""
    if domain in seen:
        return 0
    seen = seen | {domain}
    return max((len(feed.leads) + _depth(getattr(feed, side), ways, side, seen)
                for feed in ways.get(domain, ())), default=0)  # fmt: skip
