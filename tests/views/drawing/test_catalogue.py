"""The sheets of the demo: legible, complete, and true to scale."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pytest

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing import DRAWINGS, Wanted, draw, sheet_set
from hardstand.views.drawing.boxes import bounds, crossed, stacked, text_box
from hardstand.views.drawing.shapes import Group, Path, Shape, Text, flat
from hardstand.views.drawing.standalone import svg_text
from hardstand.views.drawing.svg import Sheet
from tests.views.drawing.conftest import assessed_demo
from tests.views.drawing.legible import clashes, off_the_sheet

Demo = tuple[AsBuilt, Assessment]
MakeSheet = Callable[..., Sheet]
SHEETS: list[tuple[str, str, dict[str, Any]]] = [
    (moment, name, how | options)
    for moment in ("s0", "s1", "s2")
    for name, options in (
        ("whole", {}),
        ("trays", {}),
        ("trays", {"tray": "main-tray", "selected": ("receiver-front",)}),
        ("trays", {"tray": "nose-tray", "selected": ("gear-pack",)}),
        ("trays", {"tray": "gyro-plate"}),
        ("balance", {}),
        ("section", {"x_mm": 742.0}),
        ("whole", {"sections": (742.0, 1310.0)}),
        ("trays", {"tray": "main-tray", "sections": (742.0,)}),
        ("items", {}),
        ("notes", {}),
    )
    for how in ({"width_px": 1440.0}, {"width_px": 1000.0}, {"width_px": 390.0}, {"paper": "A4"}, {"paper": "Letter"})
    if not (name == "notes" and "paper" not in how)
    if moment == "s1" or how in ({"width_px": 1440.0}, {"paper": "A4"})
]  # fmt: skip


def groups(shapes: tuple[Shape, ...]) -> Iterator[Group]:
    """All groups, inner ones too."""
    for one in shapes:
        if isinstance(one, Group):
            yield one
            yield from groups(one.shapes)


@pytest.mark.parametrize("moment, name, options", SHEETS)
def test_no_text_lies_on_another_or_off_the_sheet(
    sheet: MakeSheet, moment: str, name: str, options: dict[str, Any]
) -> None:
    """The boxes of all texts, less half a pixel of air, are apart and inside the sheet or border."""
    found = sheet(moment, name, **options)
    assert clashes(found) == []
    assert off_the_sheet(found) == []


@pytest.mark.parametrize("moment, name, options", SHEETS)
def test_no_leader_crosses_a_name(
    sheet: MakeSheet, moment: str, name: str, options: dict[str, Any]
) -> None:
    """No leader of a name or of a finding's mark runs through another's name."""
    found = sheet(moment, name, **options)
    labels = [one for one in groups(found.shapes) if one.part.endswith("-label")]
    assert labels or name in ("items", "notes")
    marks = [one for one in groups(found.shapes) if one.part == "finding"]
    boxes = stacked(text_box(text, found.medium) for one in labels for text in one.shapes
                    if isinstance(text, Text))  # fmt: skip
    for k, one in enumerate([*labels, *marks]):
        leader = next((path for path in one.shapes if isinstance(path, Path) and path.line == "thin"), None)
        if leader is None:
            continue
        (x0, y0), (x1, y1) = leader.strokes[0]
        hit = crossed(boxes, np.array([[x0, y0, x1, y1]]))[:, 0]
        if k < len(labels):
            hit[k] = False
        assert not hit.any(), one.about


@pytest.mark.parametrize("options", [{"width_px": 1440.0}, {"width_px": 390.0}, {"paper": "A4"}])
def test_every_item_stands_in_plan_and_elevation(
    demo: Demo, sheet: MakeSheet, options: dict[str, Any]
) -> None:
    """Each item of the demo has one group in the plan and one in the elevation, by its address."""
    found = list(groups(sheet("s1", "whole", **options).shapes))
    for view in ("plan", "elevation"):
        drawn = [one.about for one in found if one.part == view and one.about.startswith("item.")]
        assert sorted(drawn) == sorted(f"item.{item.id}" for item in demo[0].items)


def test_a_wide_sheet_names_every_item(demo: Demo, sheet: MakeSheet) -> None:
    """At 1440 px the demo's items all have their names, and so have CG and neutral point."""
    found = [one.about for one in groups(sheet("s1", "whole", width_px=1440.0).shapes)
             if one.part == "plan-label"]  # fmt: skip
    assert len(found) == len(demo[0].items) + 2


@pytest.mark.parametrize("options", [{"width_px": 390.0}, {"paper": "A4"}, {"width_px": 1440.0}])
def test_every_number_in_the_plan_is_in_the_list(demo: Demo, sheet: MakeSheet, options: dict[str, Any]) -> None:
    """Each item is named or numbered in the plan; the list gives each number its item's name."""
    found = list(groups(sheet("s1", "whole", **options).shapes))
    said = {one.about: next(text.text for text in one.shapes if isinstance(text, Text))
            for one in found if one.part == "plan-label"}  # fmt: skip
    rows = {one.about: [text.text for text in one.shapes if isinstance(text, Text)]
            for one in found if one.part == "row"}  # fmt: skip
    for item in demo[0].items:
        words = said[f"item.{item.id}"]
        assert words == item.name or rows[f"item.{item.id}"] == [words, item.name]


@pytest.mark.parametrize("tray, scale", [("main-tray", 1 / 5), ("gyro-plate", 1 / 2)])
def test_paper_is_true_to_scale(demo: Demo, sheet: MakeSheet, tray: str, scale: float) -> None:
    """On paper a tray's outline is as long as its millimetres times the scale in the title block."""
    found = sheet("s1", "trays", paper="A4", tray=tray)
    said = next(one.text for one in flat(found.shapes) if isinstance(one, Text) and ":" in one.text
                and one.text.replace(":", "").isdigit())  # fmt: skip
    over, under = said.split(":")
    assert int(over) / int(under) == pytest.approx(scale)
    outline = next(one for one in groups(found.shapes)
                   if one.about == f"tray.{tray}" and one.part == "plan").shapes[0]  # fmt: skip
    assert isinstance(outline, Path)
    left, _, right, _ = bounds(outline.strokes[0])
    xs = [x for x, _ in next(one for one in demo[0].trays if one.id == tray).outline_mm]
    assert right - left == pytest.approx((max(xs) - min(xs)) * scale, rel=1e-9)


def test_a_printed_whole_aeroplane_is_in_first_angle(sheet: MakeSheet) -> None:
    """The elevation stands above the plan, and the view from the nose to the right of it."""
    found = list(groups(sheet("s1", "whole", paper="A4").shapes))

    def middle(part: str) -> tuple[float, float]:
        paths = [p for one in found if one.part == part for p in flat(one.shapes) if isinstance(p, Path)]
        box = bounds(point for path in paths for stroke in path.strokes for point in stroke)
        return (box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0

    side, plan, nose = middle("elevation"), middle("plan"), middle("from-the-nose")
    assert side[1] < plan[1]
    assert nose[0] > side[0]
    assert abs(nose[1] - side[1]) < 15.0


def test_a4_and_letter_have_one_scale(sheet: MakeSheet) -> None:
    """What is drawn lies at the same place on both papers; only border and title block move."""
    one, other = (
        [g.shapes for g in groups(sheet("s1", "whole", paper=paper).shapes) if g.part == "elevation"]
        for paper in ("A4", "Letter")
    )
    assert one == other


def test_every_finding_about_a_thing_in_the_drawing_has_its_zone(demo: Demo, sheet: MakeSheet) -> None:
    """A mark carries number, code and zone; the note with the same number ends with that zone."""
    found = list(groups(sheet("s1", "whole", width_px=1440.0).shapes))
    marks = {dict(one.data)["finding"]: dict(one.data) for one in found if one.part == "finding"}
    notes = {dict(one.data)["finding"]: one for one in found if one.part == "note"}
    assert marks
    assert len(notes) == len(demo[1].findings)
    for number, data in marks.items():
        assert data["code"] == demo[1].findings[int(number) - 1].code
        assert data["zone"] in [one.text for one in notes[number].shapes if isinstance(one, Text)]


def test_what_is_selected_shows_its_station_and_its_edges(sheet: MakeSheet) -> None:
    """A selected item is drawn on the accent in both views, with dimensions to its tray's edges."""
    found = list(groups(sheet("s1", "trays", tray="main-tray", selected=("receiver-front",)).shapes))
    mine = [one for one in found if one.about == "item.receiver-front"]
    for view in ("plan", "elevation"):
        assert any(p.line == "selected" for one in mine if one.part == view
                   for p in flat(one.shapes) if isinstance(p, Path))  # fmt: skip
    edges = [one.text for one in flat(next(g for g in mine if g.part == "dimension").shapes)
             if isinstance(one, Text)]  # fmt: skip
    # tray x 480 to 830, y -90 to 90; box 52 x 28 about x 742, y -62
    assert sorted(edges) == sorted(["236", "62", "14", "138"])


@pytest.mark.parametrize("moment", ["s0", "s1", "s2"])
def test_paper_loses_no_note(moment: str) -> None:
    """The sheets of notes hold every finding once, in order, with all its words."""
    asbuilt, assessment = assessed_demo(moment)
    numbers, words = [], []
    for one in sheet_set(asbuilt, assessment, Wanted(paper="A4"), ["notes"]):
        notes = [group for group in groups(DRAWINGS["notes"].make(asbuilt, assessment, one.wanted).shapes)
                 if group.part == "note"]  # fmt: skip
        numbers += [int(dict(group.data)["finding"]) for group in notes]
        words += [" ".join(text.text for text in flat(group.shapes)
                           if isinstance(text, Text) and text.use == "note") for group in notes]  # fmt: skip
    assert numbers == list(range(1, len(assessment.findings) + 1))
    assert words == [" ".join(finding.text.split()) for finding in assessment.findings]


def test_nothing_says_that_it_is_safe(sheet: MakeSheet) -> None:
    """The word stands only where the sheet says what it never states."""
    for name in ("whole", "balance", "trays"):
        for options in ({"width_px": 1440.0}, {"paper": "A4"}):
            text = svg_text(sheet("s1", name, **options), name, alone=False)
            assert text.count("safe") == text.count("Never states that an aircraft is safe")


def test_a_name_that_is_not_there_is_told_with_those_that_are(demo: Demo) -> None:
    """An unknown drawing or tray, and a station off the aeroplane, are errors in plain words."""
    with pytest.raises(KeyError, match="whole, trays, balance, section"):
        draw("gear", *demo)
    with pytest.raises(KeyError, match="main-tray"):
        draw("trays", *demo, Wanted(tray="none"))
    with pytest.raises(ValueError, match="nothing is described at station 9000"):
        draw("section", *demo, Wanted(x_mm=9000.0))
    with pytest.raises(ValueError, match="needs its station"):
        draw("section", *demo)


def test_each_drawing_has_its_line() -> None:
    """The list of drawings tells each in one line without a full stop."""
    assert list(DRAWINGS) == ["whole", "trays", "balance", "section", "items", "notes"]
    for one in DRAWINGS.values():
        assert one.line
        assert not one.line.endswith(".")
