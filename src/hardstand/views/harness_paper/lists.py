"""The cut list and the bill of material as sheets with a border and a title block."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hardstand.engines.harness.model import Making, Makings
from hardstand.views.drawing.frame import frame_shapes, paper_frame
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.lettering import shortened, wrapped
from hardstand.views.drawing.paper import PAPERS, Paper
from hardstand.views.drawing.shapes import Group, Shape, Text, line
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, Issue, TitleBlock, paper_title_block

ROW_MM, HEAD_MM, GAP_MM = 5.4, 5.0, 4.0
CUT_HEADS = ("Lead", "from", "to", "wire", "wires", "way", "needs", "cut", "or buy", "plugs")
CUT_WIDE = (20.0, 42.0, 42.0, 19.0, 11.0, 13.0, 13.0, 13.0, 14.0, 58.0)
BILL_HEADS = ("What", "amount", "for")
BILL_WIDE = (78.0, 24.0, 143.0)
_FIGURES = {"wires", "way", "needs", "cut", "or buy", "amount"}
CUT_NOTE = ("Needs: the way, the allowance for loop and strain relief, less the items' own leads. Cut: as "
            "described, else what it needs. Lay a string along the way before cutting: a computed way "
            "is known to 15 mm and 5 %, in a wing to 15 %. No pack is plugged in while a pin is open.")
BILL_NOTE = ("Wire is the sum of all conductors, rounded up to 0.1 m, with nothing for waste. Plugs: one for "
             "each end, a branch's shared end once.")


@dataclass(frozen=True, slots=True)
class _List:
    title: str
    heads: tuple[str, ...]
    wide: tuple[float, ...]
    note: str


def cut_sheets(made: Makings, aeroplane: str, paper: Paper, issue: Issue) -> list[Sheet]:
    """Every lead by gauge, thickest first: wire, way, what it needs, what to cut, what to buy instead."""
    order = sorted(made.leads, key=lambda one: (one.wire == "", one.wire, one.lead))
    rows = [(f"lead.{one.lead}", _cut_row(one)) for one in order]
    return _sheets(_List("Cut list", CUT_HEADS, CUT_WIDE, CUT_NOTE), rows, aeroplane, paper, issue)


def bill_sheets(made: Makings, aeroplane: str, paper: Paper, issue: Issue) -> list[Sheet]:
    """Wire by gauge, plugs by class, adapters and labels, each with the leads that it is for."""
    rows = []
    for one in made.bill:
        amount = f"{one.amount:.1f} m" if one.unit == "m" else f"{one.amount:.0f}"
        leads = wrapped(", ".join(one.leads), "name", PAPER, BILL_WIDE[2] - 2.0) or [""]
        rows.append(("", (one.what, amount, leads[0])))
        rows += [("", ("", "", more)) for more in leads[1:]]
    return _sheets(_List("Bill of material", BILL_HEADS, BILL_WIDE, BILL_NOTE), rows, aeroplane, paper, issue)


def _cut_row(one: Making) -> tuple[str, ...]:
    first, second = one.plugs
    plugs = _both(first, second)
    figures = (one.way_mm, one.needed_mm, one.cut_mm, one.buy_mm)
    return (one.label, *one.ends, one.wire or "as supplied", str(one.conductors or ""),
            *("–" if value is None else f"{value:.0f}" for value in figures), plugs)  # fmt: skip


def _both(first: str, second: str) -> str:
    """The plugs at both ends; of one class it is said once.

    >>> _both("2-pole, pin", "2-pole, socket"), _both("2-pole", "2-pole")
    ('2-pole, pin / socket', '2-pole')
    """
    one, other = first.rpartition(", "), second.rpartition(", ")
    if first == second:
        return first
    return f"{first} / {other[2]}" if one[0] and one[0] == other[0] else f"{first} / {second}"


def _sheets(what: _List, rows: Sequence[tuple[str, tuple[str, ...]]], aeroplane: str, paper: Paper,
            issue: Issue) -> list[Sheet]:  # fmt: skip
    frame = paper_frame(*PAPERS[paper])
    left, top, right, bottom = frame.border
    room = bottom - PAPER_SIZE_MM[1] - GAP_MM - top - HEAD_MM - GAP_MM
    most = int(room // ROW_MM)
    parts = [rows[k : k + most] for k in range(0, max(len(rows), 1), most)]
    sheets = []
    for number, part in enumerate(parts, 1):
        block = TitleBlock(aeroplane, "Harness", what.title, "–", f"{number} of {len(parts)}", issue)
        notes = wrapped(what.note, "micro", PAPER, right - left - PAPER_SIZE_MM[0] - 8.0)
        shapes = (*frame_shapes(frame, PAPER), *_table(what, part, (left + 2.0, top + GAP_MM)),
                  *(Text("micro", (left + 3.0, bottom - PAPER_SIZE_MM[1] + 5.0 + 4.0 * k), row, halo=False)
                    for k, row in enumerate(notes)),
                  Group("", "title-block", paper_title_block(block, right, bottom)))  # fmt: skip
        title = f"{aeroplane}: {what.title.lower()}, sheet {number} of {len(parts)}"
        sheets.append(Sheet(frame.width, frame.height, PAPER, title, what.title, shapes, fine=True))
    return sheets


def _table(what: _List, rows: Sequence[tuple[str, tuple[str, ...]]], at: tuple[float, float]) -> list[Shape]:
    x, y = at[0], at[1] + HEAD_MM
    whole = sum(what.wide)
    shapes: list[Shape] = [*_row(what, what.heads, x, y - 1.4, "key"), line("thin", (x, y), (x + whole, y))]
    for about, cells in rows:
        y += ROW_MM
        shapes.append(Group(about, "row", (*_row(what, cells, x, y - 1.5, "name"),
                                           line("rule", (x, y), (x + whole, y)))))  # fmt: skip
    return shapes


def _row(what: _List, cells: Sequence[str], x: float, y: float, use: str) -> list[Shape]:
    shapes: list[Shape] = []
    for head, wide, cell in zip(what.heads, what.wide, cells, strict=True):
        text = shortened(cell, use, PAPER, wide - 2.0)  # type: ignore[arg-type]
        right = head in _FIGURES
        at = (x + wide - 3.0, y) if right else (x, y)
        if text:
            shapes.append(Text(use, at, text, "end" if right else "start", halo=False))  # type: ignore[arg-type]
        x += wide
    return shapes
