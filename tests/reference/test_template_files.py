"""The files for cutters, read back by programs that share nothing with what wrote them.

Reference: GDAL's DXF driver (through pyogrio), and an SVG read by its grammar here (W3C, Scalable
Vector Graphics 1.1, chapter 8 paths, F.6.5 arcs). Grade: seen.
"""

from __future__ import annotations

import math
import re
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest

from hardstand.views.template import Template
from hardstand.views.template.cuts import for_machine, polygon_of
from hardstand.views.template.dxf import template_dxf
from hardstand.views.template.svg import MARGIN_MM, template_svg
from hardstand.views.template.value import Round, Slot
from tests.views.template.samples import TRAYS, cuts_of, own, sample

NS = "{http://www.w3.org/2000/svg}"
each = pytest.mark.parametrize("name", [*TRAYS, "own", "own 0.2"])


def read_dxf(made: Template, folder: Path) -> list[tuple[str, Any]]:
    """Layer and geometry of each entity, as GDAL reads them."""
    pyogrio = pytest.importorskip("pyogrio", reason="pyogrio is not installed")
    import shapely

    path = folder / "tray.dxf"
    path.write_bytes(template_dxf(made))
    _, _, shapes, fields = pyogrio.raw.read(path, columns=["Layer"])
    return list(zip(fields[0].tolist(), shapely.from_wkb(shapes).tolist(), strict=True))


@each
def test_dxf_has_the_same_cuts(name: str, tmp_path: Path) -> None:
    """Outlines and straight edges within 0.001 mm, circles and slots within the reader's own chords."""
    made = sample(name)
    wanted = cuts_of(for_machine(made))
    found = [shape for layer, shape in read_dxf(made, tmp_path) if layer == "CUT"]
    assert len(found) == len(wanted)
    for cut in wanted.values():
        edge = polygon_of(cut).boundary
        nearest = min(found, key=lambda shape, edge=edge: float(shape.hausdorff_distance(edge)))  # type: ignore[misc]
        assert nearest.is_closed if nearest.geom_type == "LineString" else nearest.exterior.is_closed
        # a circle is read as chords of 4 degrees: short of it by 1 - cos 2 degrees of its radius
        radius = cut.diameter / 2 if isinstance(cut, Round) else cut.width / 2 if isinstance(cut, Slot) else 0.0
        assert nearest.hausdorff_distance(edge) < 0.001 + radius * (1.0 - math.cos(math.radians(2.0))) * 1.05
        assert nearest.bounds == pytest.approx(edge.bounds, abs=0.001 + 0.0007 * radius)


@each
def test_dxf_keeps_its_layers_apart(name: str, tmp_path: Path) -> None:
    """Each layer has as many entities as the template has marks, and no other layer any."""
    made = sample(name)
    layers = [layer for layer, _ in read_dxf(made, tmp_path)]
    for written, layer in (("CUT", "cut"), ("ENGRAVE", "engrave"), ("REFERENCE", "reference")):
        assert layers.count(written) == len(made.of(layer))  # type: ignore[arg-type]
    assert set(layers) == {"CUT", "ENGRAVE", "REFERENCE"}


def test_dxf_counts_in_millimetres_and_is_always_the_same(tmp_path: Path) -> None:
    """$INSUNITS is 4; twice the same template is twice the same bytes."""
    made = own()
    text = template_dxf(made).decode()
    assert re.search(r"\$INSUNITS\s+70\s+4\s", text)
    assert re.search(r"\$ACADVER\s+1\s+AC1024\s", text)
    assert template_dxf(made) == template_dxf(made)


def _arc(start: tuple[float, float], radius: float, sweep: bool, end: tuple[float, float]) -> list[Any]:
    """Points of a half circle, by the end-point form of an arc (SVG 1.1, F.6.5)."""
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    assert math.dist(start, end) == pytest.approx(2 * radius, abs=5e-4)
    first = math.atan2(start[1] - middle[1], start[0] - middle[0])
    turn = math.pi if sweep else -math.pi
    angles = [first + turn * k / 180 for k in range(1, 181)]
    return [(middle[0] + radius * math.cos(one), middle[1] + radius * math.sin(one)) for one in angles]


def _path(text: str) -> list[tuple[float, float]]:
    points: list[tuple[float, float]] = []
    for command, rest in re.findall(r"([MLAZ])([^MLAZ]*)", text):
        numbers = [float(one) for one in rest.split()]
        if command == "A":
            points += _arc(points[-1], numbers[0], numbers[4] == 1.0, (numbers[5], numbers[6]))
        elif numbers:
            points.append((numbers[0], numbers[1]))
    return points


@each
def test_svg_has_the_same_cuts(name: str) -> None:
    """Every cut within 0.001 mm, in a picture whose unit is the millimetre."""
    from shapely import Point, Polygon

    made = sample(name)
    root = ET.fromstring(template_svg(made))  # noqa: S314 it is our own
    box = [float(one) for one in root.attrib["viewBox"].split()]
    assert (root.attrib["width"], root.attrib["height"]) == tuple(f"{one:.10g}mm" for one in box[2:])
    moved = for_machine(made)
    x0, _, _, y1 = moved.bounds()
    group = next(one for one in root.findall(f"{NS}g") if one.get("id") == "cut")
    assert group.attrib["stroke"] == "#ff0000"
    wanted = cuts_of(moved)
    assert len(group) == len(wanted)
    for one in group:
        if one.tag == f"{NS}circle":
            x, y, r = (float(one.attrib[name]) for name in ("cx", "cy", "r"))
            found = Point(x + x0 - MARGIN_MM, y1 + MARGIN_MM - y).buffer(r, quad_segs=90)
        else:
            points = _path(one.attrib["d"])
            found = Polygon([(x + x0 - MARGIN_MM, y1 + MARGIN_MM - y) for x, y in points])
        edge = polygon_of(wanted[one.attrib["data-about"]]).boundary
        assert found.boundary.hausdorff_distance(edge) < 0.001


def test_svg_cuts_last_and_the_outline_last_of_all() -> None:
    """So that what is being cut still hangs in the sheet; lines are thin as a hair, none is filled."""
    root = ET.fromstring(template_svg(own()))  # noqa: S314 it is our own
    groups = root.findall(f"{NS}g")
    assert [one.get("id") for one in groups] == ["reference", "engrave", "cut"]
    assert groups[-1][-1].get("data-about") == "tray.ell"
    assert {(one.get("fill"), one.get("stroke-width")) for one in groups} == {("none", "0.01")}
