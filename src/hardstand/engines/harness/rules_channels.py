"""Channels that move nothing, the wrong thing, or two things at once; surfaces that no channel moves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from hardstand.changes import AddRow, Change, RemoveRow
from hardstand.description.network import Channel
from hardstand.engines.harness.model import ChannelPlan, Netlist, PlannedChannel
from hardstand.engines.harness.saying import listed, said
from hardstand.engines.harness.signals import signal_mates
from hardstand.findings import Finding, Remedy

ASIDE_MM = 20.0  # nearer to the centreline than this, an item is on neither side
Rows = Mapping[str, Channel]


def channel_findings(net: Netlist, plan: ChannelPlan, rows: Rows) -> Iterator[Finding]:
    """What each channel says by itself, and against the others."""
    if not plan.channels:
        return
    outputs = outputs_of(net)
    yield from _surfaces(net, plan, outputs)
    wrong = {one.id: found for one in plan.channels
             if (found := _rightful(one, outputs)) is not None}  # fmt: skip
    for one in plan.channels:
        if one.id in wrong:
            yield _wrong_item(one, wrong, rows)
        elif (one.outputs and not one.reaches) or (not one.outputs and not one.drives):
            yield _empty(one, outputs, rows)
    yield from _shared(plan, outputs, rows)


def side_findings(net: Netlist, plan: ChannelPlan, rows: Rows) -> Iterator[Finding]:
    """Channels of one side that move what is on the other."""
    for one in plan.channels:
        yield from _wrong_side(net, one, plan, rows)


def outputs_of(net: Netlist) -> dict[str, tuple[str, ...]]:
    """By item, the outputs whose command reaches it."""
    found: dict[str, list[str]] = {}
    for port in net.ports.values():
        if port.signal == "gives" and port.form == "pulse" and port.end in net.at:
            for far in signal_mates(net, port.end):
                found.setdefault(far.item or far.end, []).append(port.end)
    return {item: tuple(dict.fromkeys(ends)) for item, ends in found.items()}


def at_change(row: Channel, new: list[str]) -> Change:
    """The outputs of a channel made others."""
    old = list(row.at) if "at" in row.model_fields_set else None
    return Change(f"channel.{row.id}.at", old, new)


def _surfaces(
    net: Netlist, plan: ChannelPlan, outputs: Mapping[str, tuple[str, ...]]
) -> Iterator[Finding]:
    obey = {item for one in plan.channels for item in (*one.reaches, *one.drives)}
    for box in net.boxes.values():
        if box.kind != "servo" or box.id in obey:
            continue
        ends = outputs.get(box.id, ())
        if any(net.boxes[net.ports[end].item].kind.endswith("controller") for end in ends):
            continue  # a controller moves it, and a channel the controller
        if f"{box.id}.lead" not in net.at and not any(
            net.ports[end].item == box.id for end in net.at):  # fmt: skip
            continue  # told of as unconnected
        remedy = None
        if ends:
            row = {"id": f"{box.id}-channel", "function": ["other"], "at": [ends[0]],
                   "drives": [box.id]}  # fmt: skip
            remedy = Remedy(f"add a channel at {ends[0]}, and name its function", (AddRow("channel", row),))
        where = f" through {ends[0]}" if ends else ""
        leads = [lead for end, ids in net.at.items() if net.ports[end].item == box.id for lead in ids]
        yield said("no-channel", "no-go", (box.id, *leads),
                   f"No channel moves {box.id}{where} ({', '.join(leads)}).", remedy)


def _rightful(
    one: PlannedChannel, outputs: Mapping[str, tuple[str, ...]]
) -> tuple[str, ...] | None:
    """Where a channel would have to come out to reach what it drives; None where it does reach it."""
    if not one.drives or not one.reaches or set(one.drives) <= set(one.reaches):
        return None
    return tuple(dict.fromkeys(end for item in one.drives for end in outputs.get(item, ())))


def _wrong_item(
    one: PlannedChannel, wrong: Mapping[str, tuple[str, ...]], rows: Rows
) -> Finding:
    changes = tuple(at_change(rows[name], list(ends)) for name, ends in wrong.items() if ends)
    remedy = Remedy("let each of these channels come out where its item is plugged in", changes)
    return said("wrong-item", "no-go", (one.id, *one.leads),
                f"Channel {one.id} is to move {listed(one.drives)}, and {listed(one.outputs)} goes to "
                f"{listed(one.reaches)} ({', '.join(one.leads)}).", remedy if changes else None)


def _empty(one: PlannedChannel, outputs: Mapping[str, tuple[str, ...]], rows: Rows) -> Finding:
    ends = [end for item in one.drives for end in outputs.get(item, ())]
    where = f" at {listed(one.outputs)}" if one.outputs else ""
    remedy = (Remedy(f"let it come out at {listed(ends)}", (at_change(rows[one.id], ends),)) if ends
              else Remedy("take the channel out", (RemoveRow("channel", one.id),)))  # fmt: skip
    return said("channel-empty", "caution", (one.id,),
                f"Channel {one.id}{where} moves nothing: no lead takes it to an item.", remedy)


def _wrong_side(
    net: Netlist, one: PlannedChannel, plan: ChannelPlan, rows: Rows
) -> Iterator[Finding]:
    sign = {"left": 1.0, "right": -1.0}.get(one.side)
    if sign is None:
        return
    across = [item for item in one.reaches or one.drives
              if item in net.boxes and net.boxes[item].y_mm * sign > ASIDE_MM]  # fmt: skip
    if not across:
        return
    other = next((two for two in plan.channels if two.functions == one.functions
                  and two.side not in (one.side, "whole")), None)  # fmt: skip
    remedy = None
    if other is not None and other.outputs:
        remedy = Remedy(f"exchange the outputs of {one.id} and {other.id}", (
            *_exchanged(rows[one.id], other), *_exchanged(rows[other.id], one)))  # fmt: skip
    else:
        way = "right" if one.side == "left" else "left"
        remedy = Remedy(f"call it {way}", (Change(f"channel.{one.id}.side", one.side, way),))
    yield said("wrong-side", "no-go", (one.id, *one.leads),
               f"Channel {one.id} is the {one.side} one, and {listed(one.outputs or ('it',))} moves "
               f"{listed(across)} on the other side: differential and trim go the wrong way.", remedy)


def _exchanged(row: Channel, other: PlannedChannel) -> tuple[Change, ...]:
    changes: tuple[Change, ...] = (at_change(row, list(other.outputs)),)
    if row.drives and other.drives:
        changes += (Change(f"channel.{row.id}.drives", list(row.drives), list(other.drives)),)
    return changes


def _shared(
    plan: ChannelPlan, outputs: Mapping[str, tuple[str, ...]], rows: Rows
) -> Iterator[Finding]:
    seen: dict[str, PlannedChannel] = {}
    for one in plan.channels:
        for end in one.outputs:
            if end not in seen:
                seen[end] = one
                continue
            own = [at for item in one.drives for at in outputs.get(item, ()) if at not in seen]
            remedy = (Remedy(f"let {one.id} come out at {listed(own)}", (at_change(rows[one.id], own),))
                      if own else Remedy(f"take {one.id} out", (RemoveRow("channel", one.id),)))
            yield said("output-shared", "no-go", (one.id, seen[end].id),
                       f"Channels {seen[end].id} and {one.id} both come out at {end} "
                       f"({', '.join(one.leads)}).", remedy)
