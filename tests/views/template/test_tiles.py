"""Sheets join: each shows its part, neighbours share crosses, and together they show the whole."""

from collections.abc import Iterable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.views.drawing.paper import Paper
from hardstand.views.drawing.shapes import Circle, Group, Path, Point, flat
from hardstand.views.drawing.svg import Sheet
from hardstand.views.template.cuts import polygon_of
from hardstand.views.template.pages import pages
from hardstand.views.template.tiles import MARGIN_MM, OVERLAP_MM, tiling
from hardstand.views.template.value import Template
from tests.views.template.samples import cuts_of, of_demo, outline_of, sample

BOTH: tuple[Paper, ...] = ("A4", "Letter")
SIZES = st.floats(10.0, 3000.0)


@given(SIZES, SIZES, st.floats(-5000.0, 5000.0))
def test_sheets_cover_everything_and_overlap(wide: float, high: float, x: float) -> None:
    """Every point with its margin lies on a sheet, neighbours overlap, and no sheet is one too many."""
    found = tiling((x, -high / 2, x + wide, high / 2), (250.0, 150.0))
    tiles = {(one.column, one.row): one.box for one in found.tiles}
    assert tiles[0, 0][0] <= x - MARGIN_MM + 1e-6
    assert tiles[found.columns - 1, 0][2] >= x + wide + MARGIN_MM - 1e-6
    assert tiles[0, 0][3] >= high / 2 + MARGIN_MM - 1e-6
    assert tiles[0, found.rows - 1][1] <= -high / 2 - MARGIN_MM + 1e-6
    for column in range(found.columns - 1):
        assert tiles[column, 0][2] - tiles[column + 1, 0][0] == pytest.approx(OVERLAP_MM)
    assert (found.columns - 1) * 230.0 + OVERLAP_MM < wide + 2 * MARGIN_MM + 1e-6 or found.columns == 1


@given(SIZES, SIZES)
def test_every_cross_lies_on_exactly_the_two_sheets_that_it_names(wide: float, high: float) -> None:
    """Well inside both, so that it is printed whole; two for each seam, and no letter twice."""
    found = tiling((0.0, 0.0, wide, high), (250.0, 150.0))
    seams = (found.columns - 1) * found.rows + (found.rows - 1) * found.columns
    assert len(found.crosses) == 2 * seams
    assert len({one.letter for one in found.crosses}) == len(found.crosses)
    for cross in found.crosses:
        x, y = cross.at
        on = [one.number for one in found.tiles
              if one.box[0] + 5 < x < one.box[2] - 5 and one.box[1] + 5 < y < one.box[3] - 5]
        assert sorted(on) == sorted(cross.sheets)


def _tiles(made: Template, paper: Paper) -> list[Sheet]:
    return [one for one in pages(made, paper) if one.description.startswith("sheet")]


def _groups(sheet: Sheet, part: str) -> list[Group]:
    return [one for one in sheet.shapes if isinstance(one, Group) and one.part == part]


def _crosses(sheet: Sheet) -> dict[str, Point]:
    """The middle of each cross on a sheet, by its letter."""
    found = {}
    for group in _groups(sheet, "join"):
        level = next(one for one in group.shapes if isinstance(one, Path)).strokes[0]
        found[dict(group.data)["letter"]] = ((level[0][0] + level[1][0]) / 2, level[0][1])
    return found


def _joined(sheets: Iterable[Sheet]) -> dict[int, Point]:
    """By how much each sheet has to be shifted so that its crosses lie on those of the others."""
    sheets = list(sheets)
    marks = [_crosses(one) for one in sheets]
    shifts: dict[int, Point] = {0: (0.0, 0.0)}
    while len(shifts) < len(sheets):
        for k, mine in enumerate(marks):
            for j, (dx, dy) in list(shifts.items()):
                shared = sorted(set(mine) & set(marks[j]))
                if k not in shifts and shared:
                    x, y = marks[j][shared[0]]
                    shifts[k] = x + dx - mine[shared[0]][0], y + dy - mine[shared[0]][1]
    for k, mine in enumerate(marks):  # every cross lies on its partner, not only the first
        for j, others in enumerate(marks):
            for one in set(mine) & set(others):
                for axis in (0, 1):
                    assert mine[one][axis] + shifts[k][axis] == pytest.approx(
                        others[one][axis] + shifts[j][axis], abs=1e-9)  # fmt: skip
    return shifts


def _cut_lines(made: Template, paper: Paper) -> object:
    """All heavy lines of the joined sheets, in the place of the aeroplane."""
    from shapely import LineString, affinity, unary_union
    from shapely import Point as Spot

    sheets = _tiles(made, paper)
    shifts = _joined(sheets)
    lines = []
    for k, sheet in enumerate(sheets):
        for shape in flat(_groups(sheet, "cut")):
            if isinstance(shape, Circle):
                found: list[LineString] = [Spot(shape.centre).buffer(shape.radius, quad_segs=90).exterior]
            else:
                assert isinstance(shape, Path)
                found = [LineString((*one, one[0]) if shape.closed else one) for one in shape.strokes]
            lines += [affinity.translate(one, *shifts[k]) for one in found]
    whole = affinity.scale(unary_union(lines), 1.0, -1.0, origin=(0.0, 0.0))
    x0, y0, *_ = whole.bounds
    cuts = [polygon_of(one).bounds for one in cuts_of(made).values()]
    bx, by = min(one[0] for one in cuts), min(one[1] for one in cuts)
    return affinity.translate(whole, bx - x0, by - y0)


@pytest.mark.parametrize("paper", BOTH)
@pytest.mark.parametrize("name", ["nose-tray", "main-tray", "own", "gyro-plate"])
def test_joined_by_their_crosses_the_sheets_show_every_cut_unbroken(name: str, paper: Paper) -> None:
    """The heavy lines of all sheets together are the cuts: nothing is missing, nothing is doubled beside."""
    from shapely import unary_union

    made = sample(name)
    joined = _cut_lines(made, paper)
    wanted = unary_union([polygon_of(one).boundary for one in cuts_of(made).values()])
    assert joined.hausdorff_distance(wanted) < 0.005  # type: ignore[attr-defined]
    near = joined.buffer(0.002, quad_segs=1)  # type: ignore[attr-defined]
    assert near.covers(polygon_of(outline_of(made)).boundary)


def test_a_tray_that_fits_has_one_sheet_and_no_cross() -> None:
    """With the list that makes two pages."""
    sheets = pages(of_demo("gyro-plate"), "A4")
    assert [one.description for one in sheets] == ["list", "sheet 1 of 1, 1:1"]
    assert not _crosses(sheets[1])
