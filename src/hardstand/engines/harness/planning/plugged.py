"""What is plugged into outputs now, and may be plugged into others."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from hardstand.engines.harness.demand import Demand, Sum, demand
from hardstand.engines.harness.feeding import feeds, power_ways
from hardstand.engines.harness.model import HarnessPort, Netlist
from hardstand.engines.harness.signals import leads_between, signal_mates

UNITS = ("receiver", "distribution")  # the kinds of items whose outputs any channel may come out of


@dataclass(frozen=True, slots=True)
class Plugged:
    """A lead at an output with all that branches from it there, and what it is for.

    `id` is its first lead; `far` the ports that obey it. `ma` is its lasting current, `stuck_ma` its
    highest, both with the expanded uncertainty on top; `length_mm` that of the first lead where known,
    `to_mm` where it ends.
    """

    id: str
    leads: tuple[str, ...]
    end: str
    far: tuple[HarnessPort, ...]
    ma: int
    stuck_ma: int
    length_mm: float | None
    to_mm: tuple[float, float, float] | None

    @property
    def items(self) -> tuple[str, ...]:
        """The items that obey it."""
        return tuple(dict.fromkeys(one.item or one.end for one in self.far))


def is_output(net: Netlist, port: HarnessPort) -> bool:
    """Whether a port is an output of a receiver or of a distribution unit."""
    return (port.item in net.boxes and net.boxes[port.item].kind in UNITS
            and port.signal == "gives" and port.form == "pulse")  # fmt: skip


def plugged(net: Netlist, split: Collection[str] = ()) -> tuple[Plugged, ...]:
    """Everything that may move, in the order of the ports. What `split` names is taken lead by lead.

    A lead whose far end is another unit's or gives power stays out: it is part of what feeds and
    commands the outputs, not of what hangs on them.
    """
    found: list[Plugged] = []
    ways = feeds(net, power_ways(net))
    both = demand(net, ways, "moving"), demand(net, ways, "stall")
    for port in net.ports.values():
        if not is_output(net, port):
            continue
        for leads in _bunches(net, port.end):
            one = _one(net, both, port.end, leads)
            if one is None:
                continue
            if len(leads) > 1 and {*leads, *one.items} & set(split):
                parts = [_one(net, both, port.end, (lead,)) for lead in leads]
                found += [part for part in parts if part is not None]
            else:
                found.append(one)
    return tuple(found)


def _bunches(net: Netlist, end: str) -> list[tuple[str, ...]]:
    """The leads at an output: each main lead with its branches."""
    here = net.at.get(end, ())
    bunches: dict[str, list[str]] = {}
    for lead in here:
        main = net.leads[lead].row.branch_of
        bunches.setdefault(main if main in here else lead, []).append(lead)
    return [tuple(sorted(leads, key=lambda one: one != main)) for main, leads in bunches.items()]


def _one(
    net: Netlist, both: tuple[Demand, Demand], end: str, leads: tuple[str, ...]
) -> Plugged | None:
    far = tuple(port for port in signal_mates(net, end)
                if leads_between(net, end, port.end)[:1] in [(one,) for one in leads])  # fmt: skip
    units = any(net.boxes[one.item].kind in UNITS for one in far if one.item in net.boxes)
    ends = [_other_end(net, lead, end) for lead in leads]
    feeds = any(net.ports[one].power == "gives" for one in ends)
    if not far or units or feeds:
        return None
    first = net.leads[leads[0]]
    ma, stuck_ma = (_drawn(of, leads, far) for of in both)
    return Plugged(leads[0], leads, end, far, ma, stuck_ma, first.length_mm, net.ports[ends[0]].at_mm)


def _drawn(of: Demand, leads: tuple[str, ...], far: tuple[HarnessPort, ...]) -> int:
    """What its leads carry; where nothing feeds them now, what its ports would draw."""
    fed = [of.leads[lead] for lead in leads if lead in of.leads]
    own = [of.domains[one.domain] for one in far
           if one.domain is not None and one.power == "takes"]  # fmt: skip
    return milliamperes(fed or own, of)


def _other_end(net: Netlist, lead: str, end: str) -> str:
    return next((one for one in net.leads[lead].ends if one != end), end)


def milliamperes(sums: Collection[Sum], lasting: Demand) -> int:
    """What sums come to with two standard uncertainties on top, added straight, in whole mA upward.

    Straight addition is never less than what the uncertainties come to if they are independent.
    """
    total = sum(count * (lasting.inputs[address].value + 2.0 * lasting.inputs[address].u)
                for one in sums for address, count in one.items())  # fmt: skip
    return -int(-1000.0 * total // 1)
