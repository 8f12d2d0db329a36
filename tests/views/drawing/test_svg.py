"""The SVG that is written: sizes, ids, roles, and only the classes there are."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from functools import cache
from xml.etree import ElementTree as ET

import pytest

from hardstand.asbuilt import AsBuilt
from hardstand.assessment import Assessment
from hardstand.views.drawing import Wanted, draw
from hardstand.views.drawing.kinds import LETTERING, LINES, PAPER, SCREEN
from hardstand.views.drawing.shapes import Text, area, line
from hardstand.views.drawing.svg import Sheet, element

SVG = "{http://www.w3.org/2000/svg}"
Demo = tuple[AsBuilt, Assessment]
RootOf = Callable[[str, Wanted], ET.Element]
EVERY = [
    ("whole", Wanted(width_px=1440)),
    ("whole", Wanted(width_px=390)),
    ("whole", Wanted(paper="A4")),
    ("trays", Wanted(tray="main-tray", selected=("receiver-front",))),
    ("trays", Wanted(paper="Letter")),
    ("balance", Wanted(width_px=390)),
    ("balance", Wanted(paper="A4")),
    ("section", Wanted(x_mm=742)),
]
TEXT_CLASSES = {one.css for one in LETTERING.values()} | {"mid", "end", "halo", "quiet"}


@pytest.fixture(scope="module")
def root_of(demo: Demo) -> RootOf:
    """A drawing of the demo, written and read again, once for all tests that look at it."""
    return cache(lambda name, wanted: ET.fromstring(draw(name, *demo, wanted)))  # noqa: S314


@pytest.mark.parametrize("name, wanted", EVERY)
def test_a_drawing_is_xml_with_size_title_and_description(
    root_of: RootOf, name: str, wanted: Wanted
) -> None:
    """The text parses; the root has size, view box, role, and names its title and description."""
    root = root_of(name, wanted)
    _, _, wide, high = root.attrib["viewBox"].split()
    unit = "mm" if wanted.paper else ""
    assert (root.attrib["width"], root.attrib["height"]) == (wide + unit, high + unit)
    if wanted.paper == "A4":
        assert (wide, high) == ("297", "210")
    elif wanted.paper == "Letter":
        assert (wide, high) == ("279.4", "215.9")
    else:
        assert float(wide) == wanted.width_px
    assert root.attrib["role"] == "img"
    ids = {one.attrib["id"]: one.text for one in root.iter() if "id" in one.attrib}
    assert all(ids[one] for one in root.attrib["aria-labelledby"].split())


@pytest.mark.parametrize("name, wanted", EVERY)
def test_only_lines_and_lettering_of_the_closed_sets_are_used(
    root_of: RootOf, name: str, wanted: Wanted
) -> None:
    """Every path, circle and text has a class of the closed sets and no stroke of its own."""
    root = root_of(name, wanted)
    for tag in ("path", "circle"):
        for one in root.iter(SVG + tag):
            assert one.attrib["class"] in LINES.values()
            assert "style" not in one.attrib
    for one in root.iter(SVG + "text"):
        assert set(one.attrib["class"].split()) <= TEXT_CLASSES


def test_ids_are_unlike_in_all_drawings_of_a_page(demo: Demo) -> None:
    """All drawings together, one of them twice under another prefix, share no id."""
    texts = [draw(name, *demo, Wanted(x_mm=742), alone=False)
             for name in ("whole", "trays", "balance", "section")]  # fmt: skip
    texts.append(draw("whole", *demo, prefix="second", alone=False))
    roots = [ET.fromstring(text) for text in texts]  # noqa: S314 - our own text
    ids = Counter(one.attrib["id"] for root in roots for one in root.iter() if "id" in one.attrib)
    assert ids
    assert ids.most_common(1)[0][1] == 1


def test_only_a_drawing_that_stands_alone_has_its_style_inside(demo: Demo) -> None:
    """Alone it carries style and lettering and asks nothing of the net; in a page it carries none."""
    alone = draw("section", *demo, Wanted(x_mm=742))
    assert "data:font/woff2;base64," in alone
    assert "url(fonts" not in alone
    assert "<style>" not in draw("section", *demo, Wanted(x_mm=742), alone=False)


def test_a_text_with_a_character_xml_cannot_hold_is_still_written() -> None:
    """A control character in a name becomes a space, and signs of markup are quoted."""
    sheet = Sheet(10, 10, SCREEN, "a\x07b", "<c> & d", (Text("name", (0, 0), "e\x00<f>"),))
    root = ET.fromstring(ET.tostring(element(sheet, "x"), encoding="unicode"))  # noqa: S314
    assert [one.text for one in root.iter(SVG + "text")] == ["e <f>"]
    assert [one.text for one in root.iter(SVG + "title")] == ["a b"]


def test_paper_counts_in_millimetres() -> None:
    """A line 50 mm long on paper is 50 units long in a view box that counts in millimetres."""
    sheet = Sheet(297, 210, PAPER, "t", "d", (line("thin", (0, 0), (50, 0)), area("item", ((0, 0), (1, 0), (1, 1)))))
    root = element(sheet, "x")
    assert [one.attrib["d"] for one in root.iter("path")] == ["M0 0L50 0", "M0 0L1 0L1 1Z"]
    assert root.attrib["viewBox"] == "0 0 297 210"


def test_in_print_a_text_stands_on_paper_not_in_a_halo() -> None:
    """A halo is drawn letter by letter in print and cuts the letter before: there the ground is a box."""
    shapes = (Text("dimension", (50.0, 20.0), "500", "middle"),)
    for medium, boxes in ((SCREEN, 0), (PAPER, 1)):
        root = element(Sheet(100.0, 40.0, medium, "t", "d", shapes), "x")
        texts = [one for one in root.iter() if one.tag.endswith("text")]
        assert len([one for one in root.iter() if one.tag.endswith("rect")]) == boxes
        assert ("halo" in texts[0].get("class", "").split()) is (boxes == 0)
