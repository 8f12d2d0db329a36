"""A template on paper: a sheet with the whole of it and the list of openings, then the tiles at 1:1."""

from __future__ import annotations

from collections.abc import Sequence

from hardstand.views.drawing.headings import remarks
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.lettering import wrapped
from hardstand.views.drawing.paper import SCALES, Paper, scale_text
from hardstand.views.drawing.shapes import Group, Path, Placement, Point, Shape, Text, area
from hardstand.views.drawing.svg import Sheet
from hardstand.views.drawing.table import Row, table
from hardstand.views.drawing.title_block import NO_ISSUE, Issue
from hardstand.views.notice import NOTICE
from hardstand.views.template.field import field_shapes
from hardstand.views.template.form import SheetForm, form_shapes, sheet_form
from hardstand.views.template.tiles import Tile, Tiling, tiling
from hardstand.views.template.value import Box, Opening, Template

_LIST_MM, _ROWS, _ARM = 108.0, 17, 5.0
HEADS = ("No. and opening", "cut", "x", "y", "leads", "needs Ø")
HOW = (
    "Print every sheet at 100 %, with no scaling and no fitting to the page.",
    "Measure both bars on every sheet: 100.0 mm each. If one is not, do not cut: set the printer right.",
    "Sheets that join show the same crosses. Lay cross on cross, by letter, against a window, and tape.",
    "Hold the template into the airframe before cutting, and mark the openings through it.",
    "The heavy line is cut. Thin lines are marks; grey ones show where equipment stands.",
)


def pages(made: Template, paper: Paper, issue: Issue = NO_ISSUE) -> tuple[Sheet, ...]:
    """All sheets of a template on a paper: the list, more of it where it is long, and the tiles."""
    form = sheet_form(paper)
    left, top, right, bottom = form.field
    spread = tiling(made.bounds(), (right - left, bottom - top))
    parts = [made.openings[k : k + _ROWS] for k in range(0, max(len(made.openings), 1), _ROWS)]
    sheets = [_list(form, made, spread, part, number, len(parts), issue)
              for number, part in enumerate(parts, 1)]  # fmt: skip
    return (*sheets, *(_tile(form, made, spread, one, issue) for one in spread.tiles))


def _tile(form: SheetForm, made: Template, spread: Tiling, tile: Tile, issue: Issue) -> Sheet:
    left, top, _, _ = form.field
    on = Placement(1.0, (left - tile.box[0], top + tile.box[3]))
    name = f"{tile.number} of {len(spread.tiles)}"
    shapes = (*field_shapes(made, tile.box, on), *_crosses(spread, tile, on), *_neighbours(form, spread, tile),
              *form_shapes(form, made, spread, name, tile.number, "1:1", issue))  # fmt: skip
    return _sheet(form, made, f"sheet {name}, 1:1", shapes)


def _sheet(form: SheetForm, made: Template, what: str, shapes: tuple[Shape, ...]) -> Sheet:
    title = f"{made.aeroplane}: template of {made.name}, {what}"
    return Sheet(form.frame.width, form.frame.height, PAPER, title, what, shapes, fine=True)


def _crosses(spread: Tiling, tile: Tile, on: Placement) -> list[Shape]:
    """The crosses that a sheet shares with its neighbours, each with its letter."""
    shapes: list[Shape] = []
    for one in spread.crosses:
        if tile.number in one.sheets:
            x, y = on.point(*one.at)
            cross = Path("thin", (((x - _ARM, y), (x + _ARM, y)), ((x, y - _ARM), (x, y + _ARM))))
            text = Text("dimension", (x + 1.4, y - 1.4), one.letter, halo=False)
            shapes.append(Group("", "join", (cross, text), data=(("letter", one.letter),)))
    return shapes


def _neighbours(form: SheetForm, spread: Tiling, tile: Tile) -> list[Shape]:
    """At each edge that joins, the number of the sheet beyond it."""
    left, top, right, bottom = form.field
    spots = {(-1, 0): (left + 3.5, (top + bottom) / 2.0, True), (1, 0): (right - 1.0, (top + bottom) / 2.0, True),
             (0, -1): ((left + right) / 2.0, top + 3.5, False),
             (0, 1): ((left + right) / 2.0, bottom - 1.0, False)}  # fmt: skip
    by_place = {(one.column, one.row): one.number for one in spread.tiles}
    found: list[Shape] = []
    for (across, down), (x, y, upright) in spots.items():
        number = by_place.get((tile.column + across, tile.row + down))
        if number is not None:
            found.append(Text("micro", (x, y), f"joins sheet {number}", "middle", halo=False, upright=upright))
    return found


def _list(form: SheetForm, made: Template, spread: Tiling, openings: Sequence[Opening], number: int,
          count: int, issue: Issue) -> Sheet:  # fmt: skip
    """The list of openings beside the whole template with its sheets, and how to go about it."""
    left, top, right, _ = form.field
    column = right - _LIST_MM
    drawn, low, scale = _whole(made, spread, (left + 2.0, top + 8.0, column - 6.0, top + 74.0))
    shapes: list[Shape] = [Text("head", (left + 2.0, top + 5.0), made.name, halo=False),
                           *drawn]  # fmt: skip
    shapes += _how((left + 2.0, low + 9.0), column - left - 10.0)
    end = top
    if made.openings:
        listed, end = table(HEADS, _rows(openings), (column, top), _LIST_MM - 1.0, PAPER)
        shapes.append(Group("", "list", listed))
    shapes += remarks((column, end + 6.0), [*made.remarks, NOTICE], PAPER, _LIST_MM - 2.0)
    name = "list" if count == 1 else f"list {number}"
    return _sheet(form, made, name, (*shapes, *form_shapes(form, made, spread, name, None, scale_text(scale), issue)))


def _how(at: Point, measure: float) -> list[Shape]:
    """How to go about it, step by step, the figures standing out."""
    shapes: list[Shape] = []
    y = at[1]
    for number, step in enumerate(HOW, 1):
        shapes.append(Text("micro", (at[0], y), str(number), halo=False))
        for row in wrapped(step, "micro", PAPER, measure - 5.0):
            shapes.append(Text("micro", (at[0] + 5.0, y), row, halo=False))
            y += 4.1
        y += 0.8
    return shapes


def _rows(openings: Sequence[Opening]) -> list[Row]:
    rows = []
    for one in openings:
        needs = "–" if one.needed_mm is None else f"{one.needed_mm:.1f}" + (" !" if one.too_narrow else "")
        x, y = (f"{value:.1f}".removesuffix(".0").replace("-", "−") for value in one.at)
        leads = str(one.leads) if one.leads else "–" if one.purpose == "leads" else one.purpose
        rows.append(Row(f"hole.{one.id}", (f"{one.number}  {one.id}", one.cut, x, y, leads, needs)))
    return rows


def _whole(made: Template, spread: Tiling, room: Box) -> tuple[tuple[Shape, ...], float, float]:
    """The whole template, reduced, with the sheets that it is spread over; where it ends, its scale."""
    x0, y0 = (min(one.box[k] for one in spread.tiles) for k in (0, 1))
    x1, y1 = (max(one.box[k] for one in spread.tiles) for k in (2, 3))
    ratio = min((room[2] - room[0]) / (x1 - x0), (room[3] - room[1]) / (y1 - y0))
    scale = next((one for one in SCALES if one <= min(ratio, 1.0)), SCALES[-1])
    on = Placement(scale, (room[0] - x0 * scale, room[1] + y1 * scale))
    shapes = list(field_shapes(made, (x0, y0, x1, y1), on, words=False))
    for one in spread.tiles:
        left, low, right, high = one.box
        corners = on.points(((left, low), (right, low), (right, high), (left, high)))
        shapes.append(area("phantom", corners))
        shapes.append(Text("micro", (corners[3][0] + 1.5, corners[3][1] + 3.8), f"sheet {one.number}"))
    return tuple(shapes), room[1] + (y1 - y0) * scale, scale
