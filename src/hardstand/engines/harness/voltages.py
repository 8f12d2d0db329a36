"""The usual and the highest voltage of every domain, from the packs on."""

from __future__ import annotations

from collections.abc import Mapping

from hardstand.engines.harness.feeding import is_pack
from hardstand.engines.harness.model import Box, Feed, Netlist

# Per cell, under way and full at rest: values from memory.
CELL_V = {"li-po": (3.7, 4.2), "li-ion": (3.6, 4.2), "li-fe": (3.2, 3.6), "ni-mh": (1.2, 1.45)}
Volts = tuple[float, float]


def pack_volts(box: Box) -> Volts | None:
    """Usual voltage under way and full voltage of a pack: of its cells, else between empty and full.

    How far a pack sags under load is for the solved network to say.
    """
    part = box.part
    cell, count = CELL_V.get(part.chemistry or ""), part.cells or 0
    if cell is not None and count:
        full = part.high_v if part.high_v is not None else cell[1] * count
        return min(cell[0] * count, full), full
    if part.low_v is None or part.high_v is None:
        return None
    return (part.low_v + part.high_v) / 2.0, part.high_v


def voltages(net: Netlist, found: tuple[Feed, ...]) -> dict[str, Volts]:
    """Volts by domain; domains fed by packs of unknown voltage have none.

    Several feeds give the lowest and the highest of them. A regulator holds `set_v`, or as much less
    as its input gives; without a regulator the path's `drop_v` counts where there is one.
    """
    volts: dict[str, Volts] = {}
    for name, ends in net.domains.items():
        box = net.boxes.get(net.ports[ends[0]].item)
        if box is not None and box.kind == "pack" and (own := pack_volts(box)) is not None:
            volts[name] = own
    for _ in range(len(found) + 1):
        before = dict(volts)
        for target, sources in _by_target(found).items():
            given = [volts[feed.source] for feed in sources if feed.source in volts]
            if given and not is_pack(net, target):
                low, high = min(one[0] for one in given), max(one[1] for one in given)
                inside = any(not feed.leads for feed in sources)
                volts[target] = _through(net, target, low, high) if inside else (low, high)
        if volts == before:
            break
    return volts


def _by_target(found: tuple[Feed, ...]) -> Mapping[str, list[Feed]]:
    by: dict[str, list[Feed]] = {}
    for feed in found:
        by.setdefault(feed.target, []).append(feed)
    return by


def _through(net: Netlist, target: str, low: float, high: float) -> Volts:
    box = net.boxes[net.ports[net.domains[target][0]].item]
    drop = box.part.drop_v or 0.0
    low, high = max(low - drop, 0.0), max(high - drop, 0.0)
    return (low, high) if box.set_v is None else (min(low, box.set_v), min(high, box.set_v))
