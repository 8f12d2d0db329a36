"""What every sheet of a template has: border, two bars to measure, map, how to print, title block."""

from __future__ import annotations

from dataclasses import dataclass, replace

from hardstand.views.drawing.frame import Frame, frame_shapes, paper_frame
from hardstand.views.drawing.kinds import PAPER
from hardstand.views.drawing.lettering import wrapped
from hardstand.views.drawing.paper import PAPERS, Paper
from hardstand.views.drawing.shapes import Group, Path, Point, Shape, Text, area, line
from hardstand.views.drawing.title_block import PAPER_SIZE_MM, Issue, TitleBlock, paper_title_block
from hardstand.views.template.tiles import Tiling
from hardstand.views.template.value import Box, Template

BAR_MM = 100.0
CAUTION = "Caution: blades cut, lasers burn and blind, dust harms lungs."
_COLUMN_MM, _GAP_MM, _MAP_MM = 14.0, 2.0, (30.0, 13.0)


@dataclass(frozen=True, slots=True)
class SheetForm:
    """The parts of a template's sheet on one paper: its frame, and the field for the drawing."""

    frame: Frame
    field: Box


def sheet_form(paper: Paper) -> SheetForm:
    """The form of a sheet: the field lies above the foot and left of the upright bar."""
    frame = paper_frame(*PAPERS[paper])
    left, top, right, bottom = frame.border
    return SheetForm(frame, (left + _GAP_MM, top + _GAP_MM, right - _COLUMN_MM,
                             bottom - PAPER_SIZE_MM[1] - _GAP_MM))


def form_shapes(
    form: SheetForm, made: Template, tiling: Tiling, sheet: str, at: int | None, scale: str, issue: Issue
) -> tuple[Shape, ...]:
    """The form drawn. `sheet` is its name, `at` the number of the tile that it shows, None of the list."""
    left, top, right, bottom = form.frame.border
    foot = bottom - PAPER_SIZE_MM[1]
    column = right - _COLUMN_MM + _GAP_MM
    block = TitleBlock(made.aeroplane, f"Template: {made.name}",
                       f"{made.size_mm[0]:g} × {made.size_mm[1]:g}, {made.thickness_mm:g} thick",
                       scale, sheet, issue)  # fmt: skip
    middle = (top + foot) / 2.0
    return (
        *frame_shapes(form.frame, PAPER),
        line("thin", (left, foot), (right, foot)),
        line("thin", (column, top), (column, foot)),
        Group("", "bar", _level((left + 8.0, foot + 10.5))),
        Group("", "bar", _upright((right - 4.5, middle - BAR_MM / 2.0))),
        Group("", "map", _map(tiling, (left + 4.0, foot + 17.5), at)),
        *_how((left + 38.0, foot + 19.0), right - PAPER_SIZE_MM[0] - left - 40.0, made),
        Group("", "title-block", paper_title_block(block, right, bottom)),
    )


def _level(at: Point) -> tuple[Shape, ...]:
    x, y = at
    said = "Measure this bar and the upright one before cutting: 100.0 mm each."
    return (Text("micro", (x - 4.0, y - 4.8), said, halo=False), _bar(at, (1.0, 0.0)))


def _upright(at: Point) -> tuple[Shape, ...]:
    x, y = at
    text = "100.0 mm"
    return (Text("micro", (x - 2.9, y + BAR_MM / 2.0), text, "middle", halo=False, upright=True),
            _bar(at, (0.0, 1.0)))


def _bar(at: Point, way: Point) -> Path:
    """A bar of 100 mm: long ends to lay a rule against, a tick every 10 mm."""
    x, y = at
    across = (way[1], way[0])
    strokes = [((x, y), (x + way[0] * BAR_MM, y + way[1] * BAR_MM))]
    for number in range(11):
        reach = 2.5 if number in (0, 10) else 1.2
        sx, sy = x + way[0] * number * 10.0, y + way[1] * number * 10.0
        strokes.append(((sx - across[0] * reach, sy - across[1] * reach),
                        (sx + across[0] * reach, sy + across[1] * reach)))  # fmt: skip
    return Path("thin", tuple(strokes))


def _map(tiling: Tiling, at: Point, number: int | None) -> tuple[Shape, ...]:
    """Which sheet goes where, the present one with a heavy edge."""
    shapes: list[Shape] = []
    x0, y0 = (min(one.box[k] for one in tiling.tiles) for k in (0, 1))
    x1, y1 = (max(one.box[k] for one in tiling.tiles) for k in (2, 3))
    scale = min(_MAP_MM[0] / (x1 - x0), _MAP_MM[1] / (y1 - y0))
    for one in sorted(tiling.tiles, key=lambda tile: tile.number == number):
        left, low, right, high = one.box
        corners = tuple((at[0] + (x - x0) * scale, at[1] + (y1 - y) * scale)
                        for x, y in ((left, low), (right, low), (right, high), (left, high)))  # fmt: skip
        shapes.append(area("outline" if one.number == number else "thin", corners))
        middle = ((corners[0][0] + corners[1][0]) / 2.0, (corners[0][1] + corners[2][1]) / 2.0 + 0.9)
        shapes.append(Text("tick", middle, str(one.number), "middle", halo=False))
    return tuple(shapes)


def _how(at: Point, measure: float, made: Template) -> tuple[Shape, ...]:
    """How it is printed and lies, and the caution, in rows under the bar."""
    told = ["Print at 100 %, no scaling. Seen from above, nose to the left.",
            f"Material, {made.thickness_mm:g} mm thick: ____________________", CAUTION]  # fmt: skip
    rows = [row for one in told for row in wrapped(one, "micro", PAPER, measure)]
    return tuple(replace(Text("micro", (at[0], at[1] + 3.6 * k), row), halo=False)
                 for k, row in enumerate(rows))
