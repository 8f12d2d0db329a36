"""Too much current for a wire, a pin or a rail; too short a lead; fuses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from hardstand.engines.harness.model import Lengths, Netlist, Supply
from hardstand.engines.harness.saying import change, moved, said
from hardstand.engines.harness.supply import WIRE_A_MM2
from hardstand.engines.harness.wires import section_mm2
from hardstand.figures import Figure, FigureSet
from hardstand.findings import Finding, Limit, Outcome, Remedy, judge

# Blade fuses: ISO 8820-3, value from memory.
FUSES_A = (1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0)
THIN_MM2 = 0.5  # thinner than this, a wire on a pack burns before its plug does; common practice
GAUGES = range(26, 3, -2)
_WORDS = {
    "wire-load": "{subject} carries {value:.0f} % of what its wire carries for long{plus}: it gets "
                 "hot, and drops voltage.",
    "pin-load": "{subject} carries {value:.0f} % of the current that its pins stand for long{plus}: "
                "they heat, and let go.",
    "pin-peak": "At its highest {subject} carries {value:.0f} % of what its pins stand for long{plus}.",
    "rail-load": "{subject} carries {value:.0f} % of what the unit is rated for{plus}.",
    "spare-length": "{subject} has {value:.0f} mm to spare over the straight line between its ends"
                    "{plus}: pulled tight, a plug comes out.",
}  # fmt: skip


def load_findings(
    net: Netlist, supply: Supply, limits: Mapping[str, Limit]
) -> Iterator[Finding]:
    """Currents that are too high, and the fuses."""
    yield from _judged(net, supply.figures, limits)
    yield from _fuses(net, supply)


def length_findings(
    net: Netlist, lengths: Lengths, limits: Mapping[str, Limit]
) -> Iterator[Finding]:
    """Leads that are too short for the straight line between their ends."""
    yield from _judged(net, lengths.figures, limits)


def _judged(
    net: Netlist, figures: FigureSet, limits: Mapping[str, Limit]
) -> Iterator[Finding]:
    for address, value, u in zip(figures.addresses, figures.values, figures.u, strict=True):
        code, _, subject = address.partition("@")
        limit = limits[code]
        outcome = judge(float(value), float(u), limit)
        if outcome != "inside":
            figure = figures.figure(address)
            yield _finding(net, figure, limit, outcome, subject)


def _finding(
    net: Netlist, figure: Figure, limit: Limit, outcome: Outcome, subject: str
) -> Finding:
    slug = limit.id.partition(".")[2]
    at = net.at.get(subject, ())
    shown = f"{subject} ({', '.join(at)})" if at else subject
    spread = f" (± {2.0 * figure.u:.0f})" if figure.u > 0.0 else ""
    text = _WORDS[slug].format(subject=shown, value=figure.value, plus=spread)
    about = (subject,) if subject in net.leads else (*at, subject.partition(".")[0])
    if outcome == "between":
        text += " Measure it to decide."
        return Finding(limit.id, "measure", about, text, figure, limit)
    remedy = _remedy(net, slug, subject, figure, limit)
    severity = "caution" if slug in ("spare-length", "pin-peak") else "no-go"
    return Finding(limit.id, severity, about, text, figure, limit, remedy)  # type: ignore[arg-type]


def _remedy(
    net: Netlist, slug: str, subject: str, figure: Figure, limit: Limit
) -> Remedy | None:
    lead = net.leads[subject].row if subject in net.leads else None
    if slug == "spare-length" and lead is not None:
        lacking = (limit.low or 0.0) + 2.0 * figure.u - figure.value
        new = 10.0 * (((lead.length_mm or 0.0) + lacking) // 10.0 + 1.0)
        return Remedy(f"make it {new:.0f} mm, or longer where its route is",
                      (change(lead, "length_mm", new),))  # fmt: skip
    if slug == "wire-load" and lead is not None:
        area = section_mm2(lead) or 0.0
        needed = area * (figure.value + 2.0 * figure.u) / (limit.high or 100.0)
        gauge = next((one for one in GAUGES if _section(one) > needed), None)
        if gauge is not None:
            thin = (change(lead, "area_mm2", None),) if lead.area_mm2 is not None else ()
            return Remedy(f"use gauge {gauge}", (*thin, change(lead, "awg", gauge)))
    if slug.startswith("pin-"):
        return _stronger(net, subject, figure)
    return None


def _section(awg: int) -> float:
    from math import pi

    from hardstand.standards.wire import conductor_diameter_mm

    return pi / 4.0 * conductor_diameter_mm(awg) ** 2


def _stronger(net: Netlist, end: str, figure: Figure) -> Remedy | None:
    """The same lead at an empty port of the item whose pins carry it."""
    port = net.ports[end]
    needed = (port.current_a or 0.0) * (figure.value + 2.0 * figure.u) / 100.0
    free = next((one for one in net.ports.values() if one.item == port.item and one.end not in net.at
                 and (one.power, one.signal) == (port.power, port.signal)
                 and (one.current_a or 0.0) > needed), None)  # fmt: skip
    if free is None or not net.at.get(end):
        return None
    lead = net.leads[net.at[end][0]]
    side = "from" if lead.ends[0] == end else "to"
    return Remedy(f"plug {lead.id} into {free.end}", moved(net, lead.id, side, free.end))


def _fuses(net: Netlist, supply: Supply) -> Iterator[Finding]:
    for feed in supply.feeds:
        leads = [net.leads[one] for one in feed.leads]
        fused = [one for one in leads if one.row.fuse_a is not None]
        asks = next((net.ports[end].fuse_a for end in feed.ends
                     if net.ports[end].fuse_a is not None), None)  # fmt: skip
        at_pack = bool(leads) and net.boxes.get(net.ports[feed.ends[0]].item) is not None and (
            net.boxes[net.ports[feed.ends[0]].item].kind == "pack")  # fmt: skip
        thin = [one for one in leads if at_pack and (one.area_mm2 or THIN_MM2) < THIN_MM2]
        for lead in fused:
            most = min([one for one in (asks, WIRE_A_MM2 * lead.area_mm2 if lead.area_mm2 else None)
                        if one is not None], default=None)  # fmt: skip
            if most is not None and (lead.row.fuse_a or 0.0) > most:
                yield said("fuse-large", "no-go", (lead.id,),
                           f"{lead.id} at {feed.ends[0]} has a fuse of {lead.row.fuse_a:g} A, and may "
                           f"carry {most:.1f} A: the wire burns before the fuse.",
                           _fuse(lead.row, most, "change the fuse"))
        if not fused and leads and (asks is not None or thin):
            lead = (thin or leads)[0]
            most = asks if asks is not None else WIRE_A_MM2 * (lead.area_mm2 or 0.0)
            why = ("the maker asks for one" if asks is not None else
                   "it is thin, and a pack gives hundreds of amperes into a short")  # fmt: skip
            yield said("fuse-missing", "caution", (lead.id,),
                       f"{lead.id} from {feed.ends[0]} to {feed.ends[-1]} has no fuse: {why}.",
                       _fuse(lead.row, most, "put one in at the pack"))


def _fuse(row: object, most: float, words: str) -> Remedy | None:
    from hardstand.description.items import Lead

    fits = [one for one in FUSES_A if one <= most]
    if not fits or not isinstance(row, Lead):
        return None
    return Remedy(f"{words}: {fits[-1]:g} A", (change(row, "fuse_a", fits[-1]),))
