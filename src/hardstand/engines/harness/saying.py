"""Small helpers of the rules: a change of a lead with what stands there now, a free port, a list."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from typing import Any

from hardstand.changes import AnyChange, Change, RemoveRow
from hardstand.description.items import Lead
from hardstand.engines.harness.model import HarnessPort, Netlist
from hardstand.findings import Finding, Remedy, Severity

SIDES = ("from", "to")


def said(
    slug: str, severity: Severity, about: Iterable[str], text: str, remedy: Remedy | None = None
) -> Finding:
    """A finding of the harness without a figure."""
    return Finding(f"harness.{slug}", severity, tuple(about), text, remedy=remedy)


def change(lead: Lead, field: str, new: Any) -> Change:
    """A field of a lead made another: what stands there now, as the file has it, and the new value.

    >>> change(Lead.model_validate({"id": "L", "from": "a.b", "to": "c.d"}), "awg", 20)
    Change(address='lead.L.awg', old=None, new=20)
    """
    name = "from_" if field == "from" else field
    old = getattr(lead, name) if name in lead.model_fields_set else None
    return Change(f"lead.{lead.id}.{field}", list(old) if isinstance(old, tuple) else old, new)


def free_like(
    net: Netlist, port: HarnessPort, taken: Container[str] = (), item: str = ""
) -> HarnessPort | None:
    """An empty port that does what a port does, on its own item or on another one."""
    return next(
        (
            one
            for one in net.ports.values()
            if one.item == (item or port.item)
            and one.end != port.end
            and one.end not in net.at
            and one.end not in taken
            and (one.kind, one.power, one.signal, one.form, len(one.pins))
            == (port.kind, port.power, port.signal, port.form, len(port.pins))
        ),
        None,
    )


def side_of(net: Netlist, lead: str, end: str) -> str:
    """Whether an end is a lead's "from" or its "to"."""
    return SIDES[net.leads[lead].ends.index(end)]


def listed(names: Iterable[str]) -> str:
    """Names as a sentence has them.

    >>> listed(["a", "b", "c"]), listed(["a"])
    ('a, b and c', 'a')
    """
    known = list(names)
    return "".join(known) if len(known) < 2 else f"{', '.join(known[:-1])} and {known[-1]}"


def moved(net: Netlist, lead: str, side: str, end: str) -> tuple[Change, ...]:
    """An end of a lead at another port: a branch by itself, any other with all that branches from it."""
    row = net.leads[lead].row
    changes = (change(row, side, end),)
    if side == "from" and row.branch_of is not None:
        return (*changes, change(row, "branch_of", None))
    tails = [one.row for one in net.leads.values() if one.row.branch_of == lead]
    return (*changes, *(change(one, side, end) for one in tails)) if side == "from" else changes


def taken_out(net: Netlist, lead: str) -> tuple[AnyChange, ...]:
    """A lead taken out; what branched from it or ran in its cable stands by itself from then on."""
    loose = [change(one.row, field, None) for one in net.leads.values()
             for field in ("branch_of", "cable") if getattr(one.row, field) == lead]  # fmt: skip
    return (*loose, RemoveRow("lead", lead))


def leads_on(net: Netlist, numbers: Iterable[int]) -> list[str]:
    """The leads that conductors belong to, each once; the copper of plug pairs belongs to none."""
    found = dict.fromkeys(net.conductors[number].lead for number in numbers)
    return [one for one in found if one]


def both_ends(net: Netlist) -> Iterator[tuple[str, HarnessPort, HarnessPort]]:
    """Every lead with the ports at both of its ends."""
    for lead in net.leads.values():
        yield lead.id, net.ports[lead.ends[0]], net.ports[lead.ends[1]]
