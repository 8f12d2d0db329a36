"""Signals that cannot be understood: a bus into a pulse input, two that speak on one wire."""

from __future__ import annotations

from collections.abc import Iterator

from hardstand.engines.harness.model import HarnessPort, Netlist
from hardstand.engines.harness.netlist import pole_of
from hardstand.engines.harness.saying import leads_on, moved, said, side_of, taken_out
from hardstand.engines.harness.signals import leads_between, signal_mates
from hardstand.findings import Finding, Remedy

_FORMS = {"pulse": "pulses", "bus": "a bus", "sensor": "sensor data", "switch": "a switch",
          "data": "data"}  # fmt: skip


def signal_findings(net: Netlist) -> Iterator[Finding]:
    """Every way of a signal on which the two ends speak differently, or on which two speak."""
    for port in net.ports.values():
        if port.signal == "gives" and port.form is not None:
            for far in signal_mates(net, port.end):
                if far.form is not None and far.form != port.form:
                    yield _unlike(net, port, far)
    yield from _two_speak(net)


def _unlike(net: Netlist, port: HarnessPort, far: HarnessPort) -> Finding:
    leads = leads_between(net, port.end, far.end)
    remedy = None
    for here, there, lead in ((far, port, leads[-1:]), (port, far, leads[:1])):
        free = next((one for one in net.ports.values() if one.item == here.item
                     and one.end not in net.at and one.form == there.form
                     and one.signal == here.signal), None)  # fmt: skip
        if free is not None and lead:
            side = side_of(net, lead[0], here.end)
            remedy = Remedy(f"plug {lead[0]} into {free.end}",
                            moved(net, lead[0], side, free.end))
            break
    return said("signal-form", "no-go", leads,
                f"{port.end} gives {_FORMS[str(port.form)]}, and {far.end} takes "
                f"{_FORMS[str(far.form)]}: nothing that it commands would answer.", remedy)


def _two_speak(net: Netlist) -> Iterator[Finding]:
    for one in net.nets:
        speak = [end for end, pin in one.pins
                 if net.ports[end].signal == "gives" and pole_of(pin) == "signal"]  # fmt: skip
        leads = leads_on(net, one.conductors)
        if len(speak) > 1 and leads:
            last = leads[-1]
            yield said("two-drivers", "no-go", leads,
                       f"{' and '.join(speak)} both give a signal on one wire ({', '.join(leads)}).",
                       Remedy(f"take {last} out", taken_out(net, last)))
