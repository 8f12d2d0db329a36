"""Switches: which pole they break, and what they do when they themselves break."""

from __future__ import annotations

from collections.abc import Iterator

from hardstand.changes import Change
from hardstand.engines.harness.model import Box, Netlist
from hardstand.engines.harness.saying import said
from hardstand.findings import Finding, Remedy


def switch_findings(net: Netlist) -> Iterator[Finding]:
    """Every switch in use that breaks minus, or that is off when its lead or contact fails."""
    used = {net.ports[end].item for end in net.at}
    for box in net.boxes.values():
        if box.part.breaks != "minus" and box.part.when_broken != "off":
            continue
        leads = [lead for end, ids in net.at.items() if net.ports[end].item == box.id
                 for lead in ids]  # fmt: skip
        if box.id not in used:
            continue
        if box.part.breaks == "minus":
            yield said("switch-leg", "caution", (box.id, *leads),
                       f"{box.id} ({', '.join(leads)}) breaks the minus: switched off, everything "
                       "still stands on plus, and current finds its way back over signal leads.",
                       _exchange(net, box))
        if box.part.when_broken == "off":
            yield said("switch-fails-off", "no-go", (box.id, *leads),
                       f"{box.id} ({', '.join(leads)}) is off when its lead or its contact breaks: "
                       "one loose plug takes the supply.", _exchange(net, box))


def _exchange(net: Netlist, box: Box) -> Remedy | None:
    """An electronic switch of the catalogue for as many packs, where its ports have the same names."""
    names = {end.partition(".")[2] for end, port in net.ports.items() if port.item == box.id}
    for new, ports in (("switch-electronic-1-pack", {"pack", "out"}),
                       ("switch-electronic-2-pack", {"pack-1", "pack-2", "out-1", "out-2"})):
        if names == ports:
            return Remedy(f"use one like {new}, that breaks plus and stays on",
                          (Change(f"item.{box.id}.part", box.part.id, new),))
    return None
