"""The plan of channels: each followed from where it comes out to what obeys it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from hardstand.description.network import Channel
from hardstand.engines.harness.model import ChannelPlan, Netlist, PlannedChannel
from hardstand.engines.harness.signals import (
    leads_between,
    signal_mates,
    signal_ways,
    sources,
    upstream,
)
from hardstand.engines.harness.single import takes


def channels(slices: Any, earlier: Any) -> ChannelPlan:
    """Every channel followed, and what takes a whole axis when it alone fails."""
    net: Netlist = earlier["harness.circuit"]
    ways = signal_ways(net)
    planned = tuple(_planned(net, ways, one) for one in slices.channels)
    return ChannelPlan(planned, takes(net, ways, _surfaces(net, planned)))


def _planned(
    net: Netlist, ways: dict[str, list[tuple[str, str, str]]], channel: Channel
) -> PlannedChannel:
    outputs = tuple(end for end in channel.at if end in net.ports)
    leads: dict[str, None] = {}
    reaches: dict[str, None] = {}
    for end in outputs:
        for far in signal_mates(net, end):
            reaches[far.item or far.end] = None
            leads |= dict.fromkeys(leads_between(net, end, far.end))
    items = [net.ports[end].item for end in outputs if net.ports[end].item]
    behind = upstream(ways, items or channel.drives)
    return PlannedChannel(
        channel.id, channel.number, channel.name or channel.id, channel.function, channel.side,
        outputs, tuple(leads), tuple(reaches), channel.drives,
        tuple(one for one in sources(net) if one in behind),
    )  # fmt: skip


def _surfaces(net: Netlist, planned: Iterable[PlannedChannel]) -> dict[str, tuple[str, ...]]:
    """The items that move each axis, of those axes that have several."""
    found: dict[str, dict[str, None]] = {"pitch": {}, "roll": {}}
    for channel in planned:
        for axis in set(channel.functions) & found.keys():
            obey = [one for one in channel.reaches or channel.drives if one in net.boxes]
            found[axis] |= dict.fromkeys(obey)
    return {axis: tuple(items) for axis, items in found.items() if len(items) > 1}
