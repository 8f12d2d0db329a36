"""What draws current: every port with a load, its functions, and the voltage that it needs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from hardstand.description.network import Channel
from hardstand.description.network import Load as LoadRow
from hardstand.engines.harness.model import ChannelPlan, HarnessPort, Netlist, Supply
from hardstand.engines.power.defaults import RESET_V
from hardstand.engines.power.model import Consumer
from hardstand.engines.power.network.elements import GROUND, Law, Load
from hardstand.figures import Input

USUAL = {"lamp": "lights", "light-controller": "lights", "turbine-controller": "throttle"}
SENSIBLE = ("servo", "receiver", "gyro")
# What these have as their peak is what they pass on, not what they draw; of the first all but rest.
PASSING = ("switch", "regulator", "distribution")
DRIVING = ("gear-controller", "brake-controller", "light-controller")
BY_ITSELF = ("turbine-controller",)  # its current holds that of what it drives


def consumers(
    net: Netlist, supply: Supply, plan: ChannelPlan, rows: Iterable[Channel]
) -> tuple[Consumer, ...]:
    """Every port with a load that a lead or an item's own rail may feed, in the order of the ports."""
    by_lead, by_item = _commanded(plan, rows)
    over = {feed.target: feed for feed in supply.feeds if feed.leads}
    found = []
    for port in net.ports.values():
        load = _drawn(net, port)
        if port.domain is None or not load:
            continue
        feed = over.get(port.domain)
        source = feed.source.partition(".")[0] if feed is not None else ""
        if source and source in net.boxes and net.boxes[source].kind in BY_ITSELF:
            continue
        found.append(_consumer(net, port, load, _functions(port, feed, source, by_lead, by_item)))
    return tuple(found)


def _commanded(
    plan: ChannelPlan, rows: Iterable[Channel]
) -> tuple[Mapping[str, list[str]], Mapping[str, list[str]]]:
    """Functions by the last lead of a channel, and by the item that it drives or reaches."""
    by_lead: dict[str, list[str]] = {}
    by_item: dict[str, list[str]] = {}
    wanted = {row.id: row.drives for row in rows}
    for one in plan.channels:
        for lead in one.leads:
            by_lead.setdefault(lead, []).extend(one.functions)
        for item in {*one.reaches, *wanted.get(one.id, ())}:
            by_item.setdefault(item, []).extend(one.functions)
    return by_lead, by_item


def _functions(
    port: HarnessPort, feed: object, source: str,
    by_lead: Mapping[str, list[str]], by_item: Mapping[str, list[str]],
) -> tuple[str, ...]:  # fmt: skip
    leads = getattr(feed, "leads", ())
    told = [name for lead in leads for name in by_lead.get(lead, ())]
    mine = told or by_item.get(source, []) if port.kind == "motor" or not port.item else told
    if not mine:
        mine = by_item.get(port.item, []) or by_item.get(source, [])
    return tuple(dict.fromkeys(mine))


def _drawn(net: Netlist, port: HarnessPort) -> Mapping[str, Input]:
    """What a port draws itself, without what it only passes on."""
    box = net.boxes.get(port.item)
    if box is not None and box.kind in PASSING:
        return {state: one for state, one in port.load.items() if one.address.endswith(".idle_a")}
    if box is not None and box.kind in DRIVING:
        return {state: one for state, one in port.load.items() if not one.address.endswith(".peak_a")}
    return port.load


def _consumer(
    net: Netlist, port: HarnessPort, load: Mapping[str, Input], functions: tuple[str, ...]
) -> Consumer:
    box = net.boxes.get(port.item)
    kind = box.kind if box is not None else "lamp"
    functions = functions or ((USUAL[kind],) if kind in USUAL else ())
    low = box.part.low_v if box is not None else None
    reset = box.part.reset_v if box is not None else None
    resets = reset is not None or kind in SENSIBLE
    usual = RESET_V.value if resets else low
    return Consumer(port.end, port.item or port.end, str(port.domain), kind, functions, load,
                    usual if reset is None else reset,
                    box.part.high_v if box is not None else None, resets, reset is not None or not resets)


def load_elements(
    net: Netlist, found: Iterable[Consumer], rows: Iterable[LoadRow],
    volts: Mapping[str, tuple[float, float]],
) -> Iterator[Load]:  # fmt: skip
    """Every consumer as a load of the network: its law as described, else the same at any voltage."""
    forms = {row.at: row.form for row in rows}
    for one in found:
        box = net.boxes.get(one.item)
        law: Law = forms.get(one.end) or (box.part.load if box is not None else None) or "current"
        stall = one.amperes("stall")
        yield Load(
            id=one.end, start=one.domain, end=GROUND, draw_a=one.amperes("idle"), law=law,
            at_v=max(volts.get(one.domain, (7.0, 0.0))[0], 1.0),
            stuck_a=stall if one.kind == "servo" and stall > 0.0 else None,
        )  # fmt: skip
