"""The harness drawing: one for the whole aeroplane, one for each tray, on sheets as large as they need."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from hardstand.asbuilt import AsBuilt
from hardstand.engines.harness.model import Netlist
from hardstand.views.drawing.frame import frame_shapes, paper_frame
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.lettering import shortened
from hardstand.views.drawing.paper import PAPERS, Paper
from hardstand.views.drawing.shapes import Group, Path, Shape, Text, rectangle
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, Issue, TitleBlock, paper_title_block
from hardstand.views.harness_paper.schematic import (
    BOX,
    HEAD,
    LABEL,
    ROW,
    Block,
    Laid,
    Wire,
    laid_out,
)

# Larger sheets, landscape, mm: ISO 216 A3, A2, A1; what is larger still stands on a sheet of its own size.
LARGER = ((420.0, 297.0), (594.0, 420.0), (841.0, 594.0))
MARGIN_MM = 6.0


def schematics(asbuilt: AsBuilt, net: Netlist) -> list[tuple[str, Laid]]:
    """What is drawn: the whole, then every tray with what its items are joined to; with leads only."""
    wires = [(one.id, *one.ends) for one in net.leads.values() if not one.row.direct]
    on = {item.id: item.on for item in asbuilt.items}
    groups: list[tuple[str, list[Wire]]] = [("whole aeroplane", wires)]
    for tray in asbuilt.trays:
        own = [one for one in wires if any(on.get(_owner(net, end)) == tray.id for end in one[1:])]
        groups.append((tray.name or tray.id, own))
    return [(name, _laid(asbuilt, net, own)) for name, own in groups if own]


def schematic_sheets(asbuilt: AsBuilt, laid: Sequence[tuple[str, Laid]], paper: Paper,
                     issue: Issue) -> list[Sheet]:  # fmt: skip
    """A sheet for each schematic, on the paper if it has room there, else on a larger one."""
    return [_sheet(asbuilt, name, one, paper, issue, f"{number} of {len(laid)}")
            for number, (name, one) in enumerate(laid, 1)]


def _owner(net: Netlist, end: str) -> str:
    port = net.ports[end]
    return port.item or (end.partition(".")[0] if port.where == "joint" else end)


def _laid(asbuilt: AsBuilt, net: Netlist, wires: Sequence[Wire]) -> Laid:
    owners = {end: _owner(net, end) for one in wires for end in one[1:]}
    x = _stations(asbuilt, wires, owners)
    boxes = len(set(owners.values()))
    return min((laid_out(wires, owners, x, count) for count in range(2, 7) if count <= boxes),
               key=lambda one: (sum(not _fits(one, size) for size in (*PAPERS.values(), *LARGER)), one.crossings))


def _fits(laid: Laid, size: tuple[float, float]) -> bool:
    """Whether a schematic has room on a sheet, with border, margins and title block."""
    wide, high = laid.size[0] + 30.0 + 2.0 * MARGIN_MM, laid.size[1] + 20.0 + PAPER_SIZE_MM[1] + 2.0 * MARGIN_MM
    return size[0] >= wide and size[1] >= high


def _stations(asbuilt: AsBuilt, wires: Iterable[Wire], owners: Mapping[str, str]) -> dict[str, float]:
    """The station of every box; a free end stands just behind what it is joined to."""
    x = {item.id: item.centre_mm[0] for item in asbuilt.items}
    x |= {joint.id: joint.at_mm[0] for joint in asbuilt.joints if joint.at_mm is not None}
    for _, one, other in wires:
        for end, far in ((one, other), (other, one)):
            if owners[end] not in x:
                x[owners[end]] = x.get(owners[far], 0.0) + 1.0
    return x


def _sheet(asbuilt: AsBuilt, name: str, laid: Laid, paper: Paper, issue: Issue,
           number: str) -> Sheet:  # fmt: skip
    size = next((one for one in (PAPERS[paper], *LARGER) if _fits(laid, one)),
                (max(laid.size[0] + 60.0, 841.0), max(laid.size[1] + 90.0, 594.0)))  # fmt: skip
    frame = paper_frame(*size)
    left, top, right, bottom = frame.border
    room = right - left - laid.size[0], bottom - PAPER_SIZE_MM[1] - top - laid.size[1]
    at = left + room[0] / 2.0, top + room[1] / 2.0
    aeroplane = asbuilt.aeroplane.name
    block = TitleBlock(aeroplane, "Harness", name, "–", number, issue)
    said = (f"{len(laid.lines)} leads, {laid.crossings} crossings. Left is forward. "
            "No scale: see the cut list for lengths.")
    shapes = (*frame_shapes(frame, PAPER), *_drawn(asbuilt, laid, at),
              Text("micro", (left + 3.0, bottom - 4.0), said, halo=False),
              Group("", "title-block", paper_title_block(block, right, bottom)))  # fmt: skip
    return Sheet(*size, PAPER, f"{aeroplane}: harness, {name}", said, shapes, fine=True)


def _drawn(asbuilt: AsBuilt, laid: Laid, at: tuple[float, float]) -> list[Shape]:
    def moved(x: float, y: float) -> tuple[float, float]:
        return at[0] + x, at[1] + y

    names = {item.id: item.name for item in asbuilt.items} | {one.id: one.name for one in asbuilt.joints if one.name}
    shapes: list[Shape] = [Group(f"lead.{lead}", "lead", (Path("outline", (tuple(moved(*p) for p in points),)),))
                           for lead, points in laid.lines.items()]
    for one in laid.blocks:
        if not one.lead:
            x, y = moved(laid.columns[one.column], one.top)
            shapes.append(Group(f"item.{one.id}", "item", tuple(_box(one, names.get(one.id, one.id), x, y))))
    return shapes


def _box(one: Block, name: str, x: float, y: float) -> list[Shape]:
    """A box with its name, the ports inside its edges, and the lead at each line's end outside."""
    shapes: list[Shape] = [rectangle("item", x, y, x + BOX, y + one.height),
                           Text("name", (x + BOX / 2.0, y + 4.2), shortened(name, "name", PAPER, BOX - 3.0),
                                "middle", halo=False)]  # fmt: skip
    for rows, side in ((one.left, -1.0), (one.right, 1.0)):
        for number, (lead, end) in enumerate(rows):
            base = y + HEAD + ROW * (number + 0.5)
            edge = x if side < 0.0 else x + BOX
            anchor = "start" if side < 0.0 else "end"
            port = end.partition(".")[2]
            if port:
                text = shortened(port, "key", PAPER, BOX / 2.0 - 2.0)
                shapes.append(Text("key", (edge - side * 1.2, base + 0.9), text, anchor, halo=False))  # type: ignore[arg-type]
            out = "end" if side < 0.0 else "start"
            text = shortened(lead, "key", PAPER, LABEL + 2.0)
            shapes.append(Text("key", (edge + side * 0.8, base - 0.6), text, out, halo=False))  # type: ignore[arg-type]
    return shapes
