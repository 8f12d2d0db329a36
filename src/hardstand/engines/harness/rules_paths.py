"""Ways that should be two or should be apart: unlike functions, the throttle, single failures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import count

from hardstand.changes import AddRow, AnyChange
from hardstand.description.network import Channel
from hardstand.engines.harness.model import ChannelPlan, HarnessPort, Netlist, PlannedChannel
from hardstand.engines.harness.rules_channels import at_change
from hardstand.engines.harness.saying import free_like, listed, moved, said
from hardstand.engines.harness.signals import leads_between, signal_mates
from hardstand.findings import Finding, Remedy

_GROUP = {
    "pitch": "surfaces", "roll": "surfaces", "yaw": "yaw", "flaps": "surfaces",
    "speed-brake": "surfaces", "steering": "steering", "throttle": "engine", "engine-aux": "engine",
    "gear": "gear", "doors": "gear", "brakes": "brakes", "lights": "lights", "gyro-gain": "gyro",
    "gyro-mode": "gyro",
}  # fmt: skip
_KIND = {"brake-controller": "brakes", "brake": "brakes", "gear-controller": "gear",
         "light-controller": "lights", "lamp": "lights", "turbine-controller": "engine"}  # fmt: skip
_TOGETHER = ({"surfaces", "yaw"}, {"yaw", "steering"})  # one stick, one output: usual
_FUNCTION = {"brakes": "brakes", "gear": "gear", "lights": "lights", "engine": "engine-aux"}


def path_findings(
    net: Netlist, plan: ChannelPlan, rows: Mapping[str, Channel]
) -> Iterator[Finding]:
    """What shares a way that it should not share."""
    for one in plan.channels:
        yield from _mixed(net, one)
    yield from _throttle(net, plan)
    yield from _single(net, plan, rows)


def _mixed(net: Netlist, one: PlannedChannel) -> Iterator[Finding]:
    groups = {_GROUP[name] for name in one.functions if name in _GROUP}
    kinds = {item: _KIND[net.boxes[item].kind] for item in one.reaches
             if item in net.boxes and net.boxes[item].kind in _KIND}  # fmt: skip
    found = groups | set(kinds.values())
    if len(found) < 2 or found in _TOGETHER:
        return
    odd = next((item for item, group in kinds.items() if group not in groups), None)
    way = None if odd is None else _moved(net, one, odd, kinds[odd])
    reached = f", {listed(one.reaches)}" if one.reaches else ""
    yield said("output-mixed", "no-go", (one.id, *one.leads),
               f"{listed(one.outputs or (one.id,))} commands {listed(sorted(found))} at once "
               f"({', '.join(one.leads)}{reached}): no pilot wants the one whenever the other.", way)


def _moved(net: Netlist, one: PlannedChannel, odd: str, group: str) -> Remedy | None:
    """The odd item's lead at an empty output, with a channel of its own."""
    for end in one.outputs:
        far = next((port for port in signal_mates(net, end) if port.item == odd), None)
        free = free_like(net, net.ports[end])
        leads = leads_between(net, end, far.end) if far is not None else ()
        if free is not None and leads:
            row = {"id": f"{odd}-channel", "function": [_FUNCTION[group]], "at": [free.end],
                   "drives": [odd]}  # fmt: skip
            side = "from" if net.leads[leads[0]].ends[0] == end else "to"
            changes: list[AnyChange] = [*moved(net, leads[0], side, free.end), AddRow("channel", row)]
            return Remedy(f"give {odd} an output and a channel of its own: {free.end}", tuple(changes))
    return None


def _throttle(net: Netlist, plan: ChannelPlan) -> Iterator[Finding]:
    """Control units of the turbine that hear of a stop by one lead only, with no valve by hand."""
    by_hand = any(box.kind == "valve" for box in net.boxes.values())
    for box in net.boxes.values():
        mine = [port for port in net.ports.values()
                if port.item == box.id and port.signal == "takes" and port.form == "pulse"]  # fmt: skip
        used = [port for port in mine if port.end in net.at]
        if box.kind != "turbine-controller" or by_hand or len(used) != 1 or not plan.channels:
            continue
        lead = net.at[used[0].end][0]
        yield said("throttle-path", "caution", (box.id, lead),
                   f"{box.id} is told to stop through {lead} at {used[0].end} alone: with that lead off "
                   "it stops only if it notices, and nothing else stops the fuel.",
                   _second_way(net, lead, mine))


def _second_way(net: Netlist, lead: str, mine: list[HarnessPort]) -> Remedy | None:
    source = next((net.ports[end] for end in net.leads[lead].ends
                   if net.ports[end].signal == "gives"), None)  # fmt: skip
    free = free_like(net, source) if source is not None else None
    empty = next((port for port in mine if port.end not in net.at), None)
    if free is None or empty is None:
        return None
    name = next(name for number in count(1) if (name := f"new-{number}") not in net.leads)
    rows = (AddRow("lead", {"id": name, "from": free.end, "to": empty.end}),
            AddRow("channel", {"id": "cut-off", "function": ["engine-aux"], "at": [free.end],
                               "drives": [empty.item]}))  # fmt: skip
    return Remedy(f"add a cut-off channel from {free.end} to {empty.end}, or a valve by hand", rows)


def _single(
    net: Netlist, plan: ChannelPlan, rows: Mapping[str, Channel]
) -> Iterator[Finding]:
    for name, axes in plan.takes.items():
        severe = "pitch" in axes
        through = ""
        if name in net.leads:
            through = f" ({' to '.join(net.leads[name].ends)})"
        yield said("single-failure", "no-go" if severe else "caution", (name,),
                   f"When {name}{through} fails, {listed(sorted(axes))} "
                   f"{'goes' if len(axes) == 1 else 'go'} with it: every surface hangs on it alone.",
                   _divided(net, plan, name, rows))  # fmt: skip


def _divided(
    net: Netlist, plan: ChannelPlan, name: str, rows: Mapping[str, Channel]
) -> Remedy:
    """The right half of what hangs on a unit moved to another unit of its kind, where one has room."""
    box = net.boxes.get(name)
    others = [one.id for one in net.boxes.values()
              if box is not None and one.kind == box.kind and one.id != name]  # fmt: skip
    changes: list[AnyChange] = []
    taken: set[str] = set()
    for one in plan.channels:
        if one.side != "right" or not {"pitch", "roll"} & set(one.functions):
            continue
        for end in one.outputs:
            lead = next((lead for lead in one.leads if end in net.leads[lead].ends), None)
            free = next((found for other in others
                         if (found := free_like(net, net.ports[end], taken, other))), None)  # fmt: skip
            if net.ports[end].item == name and lead is not None and free is not None:
                taken.add(free.end)
                side = "from" if net.leads[lead].ends[0] == end else "to"
                changes += [*moved(net, lead, side, free.end), at_change(rows[one.id], [free.end])]
    if not changes:
        return Remedy("let two of its kind share the surfaces, left on one and right on the other, each "
                      "with a pack; or take it on by name with [[accept]]")  # fmt: skip
    return Remedy(f"move the right half to {listed(others)}", tuple(changes))
