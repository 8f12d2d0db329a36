"""Labels for both ends of every lead: id, what it does, this end, the other end; three by eight a sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hardstand.engines.harness.model import Making
from hardstand.views.drawing.kinds import PAPER, Use
from hardstand.views.drawing.lettering import shortened
from hardstand.views.drawing.paper import PAPERS, Paper
from hardstand.views.drawing.shapes import Group, Path, Point, Shape, Text
from hardstand.views.drawing.svg import Sheet

COLUMNS, ROWS = 3, 8
MARGIN_MM, FOOT_MM, TICK_MM, PAD_MM = 12.0, 6.0, 3.0, 3.0
# Base lines down a label, mm: id, function, this end, the other end.
_LINES: tuple[tuple[float, Use], ...] = ((7.0, "head"), (13.0, "name"), (19.5, "name"), (25.0, "name"))


def label_sheets(made: Sequence[Making], aeroplane: str, paper: Paper) -> list[Sheet]:
    """Sheets of labels, upright, two labels a lead side by side in their order; empty without leads."""
    labels = list(_labels(made))
    each = COLUMNS * ROWS
    parts = [labels[k : k + each] for k in range(0, len(labels), each)]
    return [_sheet(part, aeroplane, paper, number, len(parts)) for number, part in enumerate(parts, 1)]


def _labels(made: Sequence[Making]) -> Iterator[tuple[str, str, str, str, str]]:
    for one in made:
        for here, far in (one.ends, one.ends[::-1]):
            yield one.lead, one.label, one.function, f"this end: {here}", f"other end: {far}"


def _sheet(part: Sequence[tuple[str, ...]], aeroplane: str, paper: Paper, number: int, count: int) -> Sheet:
    high, wide = PAPERS[paper]
    cell = (wide - 2.0 * MARGIN_MM) / COLUMNS, (high - 2.0 * MARGIN_MM - FOOT_MM) / ROWS
    shapes: list[Shape] = [_cuts(cell)]
    for place, (lead, *texts) in enumerate(part):
        x = MARGIN_MM + place % COLUMNS * cell[0] + PAD_MM
        y = MARGIN_MM + place // COLUMNS * cell[1]
        rows = [Text(use, (x, y + down), shortened(text, use, PAPER, cell[0] - 2.0 * PAD_MM), halo=False)
                for (down, use), text in zip(_LINES, texts, strict=True)]
        shapes.append(Group(f"lead.{lead}", "label", tuple(rows)))
    foot = f"{aeroplane}, labels, sheet {number} of {count}. Print at 100 %. Cut between the marks."
    shapes.append(Text("key", (MARGIN_MM, high - MARGIN_MM + 3.0), foot, halo=False))
    title = f"{aeroplane}: labels of the leads, sheet {number} of {count}"
    return Sheet(wide, high, PAPER, title, "labels for both ends of every lead", tuple(shapes), fine=True)


def _cuts(cell: Point) -> Path:
    """A small cross at every corner of the labels."""
    strokes: list[tuple[Point, ...]] = []
    for column in range(COLUMNS + 1):
        for row in range(ROWS + 1):
            x, y = MARGIN_MM + column * cell[0], MARGIN_MM + row * cell[1]
            strokes += [((x - TICK_MM, y), (x + TICK_MM, y)), ((x, y - TICK_MM), (x, y + TICK_MM))]
    return Path("thin", tuple(strokes))
