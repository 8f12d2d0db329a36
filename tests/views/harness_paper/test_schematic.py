"""The harness drawing: every lead drawn from box to box, crossings counted right and kept few."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hardstand.engines.harness.model import Netlist
from hardstand.views.drawing.paper import PAPERS, Paper
from hardstand.views.drawing.shapes import Group, Text, flat
from hardstand.views.drawing.title_block import Issue
from hardstand.views.harness_paper.drawing import schematic_sheets, schematics
from hardstand.views.harness_paper.files import WHAT, harness_sheets
from hardstand.views.harness_paper.schematic import BOX, Laid, crossings, laid_out
from tests.engines.harness.test_routes import demo, demo_built


@cache
def whole() -> Laid:
    """The schematic of the whole demo."""
    net = demo("as-built").results["harness.netlist"]
    assert isinstance(net, Netlist)
    return schematics(demo_built("as-built"), net)[0][1]


def test_every_lead_runs_from_the_edge_of_a_box_to_the_edge_of_another() -> None:
    """Each line has only level and upright pieces, and both its ends lie on edges of boxes."""
    laid = whole()
    edges = {(round(laid.columns[one.column] + side, 3), one.top, one.top + one.height)
             for one in laid.blocks if not one.lead for side in (0.0, BOX)}  # fmt: skip
    net = demo("as-built").results["harness.netlist"]
    assert laid.lines.keys() == net.leads.keys()
    for points in laid.lines.values():
        assert all(abs(a[0] - b[0]) < 1e-6 or abs(a[1] - b[1]) < 1e-6 for a, b in pairwise(points))
        for x, y in (points[0], points[-1]):
            assert any(abs(x - at) < 1e-2 and low < y < high for at, low, high in edges)


def test_no_line_runs_through_a_box_and_no_two_boxes_overlap() -> None:
    """Boxes of a column stand apart; upright pieces lie in the gaps between columns."""
    laid = whole()
    for column, left in enumerate(laid.columns):
        own = sorted((one for one in laid.blocks if one.column == column), key=lambda one: one.top)
        assert all(a.top + a.height <= b.top + 1e-9 for a, b in pairwise(own))
        for points in laid.lines.values():
            for a, b in pairwise(points):
                if abs(a[0] - b[0]) < 1e-6:
                    assert not left < a[0] < left + BOX


def test_crossings_are_fewer_than_of_the_boxes_as_they_come() -> None:
    """The kept order crosses less than a lead in three ways on average, and its count is told."""
    laid = whole()
    assert laid.crossings == crossings(laid.lines)
    assert laid.crossings < 2 * len(laid.lines)


def test_a_ladder_needs_no_crossing() -> None:
    """Pairs joined one to one can be drawn without any crossing, and are."""
    wires = [(f"w{k}", f"a{k}.p", f"b{(k * 3) % 7}.p") for k in range(7)]
    owners = {end: end.partition(".")[0] for one in wires for end in one[1:]}
    x = {one: 0.0 if one.startswith("a") else 100.0 for one in owners.values()}
    assert laid_out(wires, owners, x, 2).crossings == 0


@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9), st.integers(1, 9)), min_size=1, max_size=8))
def test_crossings_agree_with_shapely(rows: list[tuple[int, int, int]]) -> None:
    """A level and an upright line cross as often as the geometry library finds."""
    shapely = pytest.importorskip("shapely", reason="shapely is not installed")
    lines = {f"l{k}": [(x + 0.5, float(y)), (x + n + 0.5, float(y))] if k % 2 else
             [(float(x), y + 0.5), (float(x), y + n + 0.5)] for k, (x, y, n) in enumerate(rows)}  # fmt: skip
    made = [shapely.LineString(one) for one in lines.values()]
    expected = sum(a.crosses(b) for k, a in enumerate(made) for b in made[k + 1 :])
    assert crossings(lines) == expected


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_is_printed_outside_its_border(paper: Paper) -> None:
    """Every line and word of every sheet lies on the sheet, and all leads have both labels."""
    assessment, asbuilt = demo("as-built"), demo_built("as-built")
    for what, sheets in harness_sheets(asbuilt, assessment, WHAT, paper, Issue())[0]:
        assert sheets, what
        for sheet in sheets:
            for one in flat(sheet.shapes):
                for x, y in getattr(one, "strokes", ((),))[0]:
                    assert 0.0 <= x <= sheet.width - 7.4, (what, x)
                    assert 0.0 <= y <= sheet.height, (what, y)
    labels = dict(harness_sheets(asbuilt, assessment, ["labels"], paper, Issue())[0])["labels"]
    groups = [one for sheet in labels for one in sheet.shapes if isinstance(one, Group)]
    leads = assessment.results["harness.netlist"].leads
    assert sorted(one.about for one in groups) == sorted(f"lead.{one}" for one in leads for _ in range(2))
    first = [one.text for one in groups[0].shapes if isinstance(one, Text)]
    assert first[0] == "H01"
    assert first[2:] == ["this end: rx-pack-left.lead", "other end: distribution-unit.pack-1"]
    laid = schematics(asbuilt, assessment.results["harness.netlist"])
    assert len(schematic_sheets(asbuilt, laid, paper, Issue())) == len(laid)
