"""A template as SVG in millimetres for a cutter: one group a layer, lines as thin as a hair.

What is cut is red, what is engraved blue, what is only shown grey: a cutter's program tells them
apart by colour. Figures are strokes; only the grey names need a font.
"""

from __future__ import annotations

from collections.abc import Mapping
from xml.etree import ElementTree as ET

from hardstand.views.template.cuts import for_machine
from hardstand.views.template.value import LAYERS, Layer, Mark, Ring, Round, Slot, Template, Word

COLOURS: Mapping[Layer, str] = {"cut": "#ff0000", "engrave": "#0000ff", "reference": "#808080"}
HAIRLINE_MM, MARGIN_MM, NAME_MM = 0.01, 5.0, 3.5
_NAMESPACE = "http://www.w3.org/2000/svg"


def template_svg(made: Template) -> str:
    """The template as SVG text: x to the right is aft, up is to starboard, as it is seen from above.

    Assumptions and validity: one user unit is 1 mm; the view box is the template with 5 mm around it.
    """
    made = for_machine(made)
    x0, y0, x1, y1 = made.bounds()
    wide, high = x1 - x0 + 2.0 * MARGIN_MM, y1 - y0 + 2.0 * MARGIN_MM
    root = ET.Element("svg", {"xmlns": _NAMESPACE, "width": f"{_number(wide)}mm", "height": f"{_number(high)}mm",
                              "viewBox": f"0 0 {_number(wide)} {_number(high)}"})  # fmt: skip
    ET.SubElement(root, "title").text = f"{made.aeroplane}: template of {made.name}"
    about = f"{made.thickness_mm:g} mm thick, kerf {made.kerf_mm:g} mm, 1 unit is 1 mm. "
    ET.SubElement(root, "desc").text = about + " ".join(made.remarks)
    at = (MARGIN_MM - x0, MARGIN_MM + y1)
    for layer in reversed(LAYERS):  # a cutter keeps this order: what is cut comes last
        group = ET.SubElement(root, "g", {"id": layer, "fill": "none", "stroke": COLOURS[layer],
                                          "stroke-width": str(HAIRLINE_MM)})  # fmt: skip
        for mark in made.of(layer):
            _write(group, mark, at)
    ET.indent(root, " ")
    return ET.tostring(root, encoding="unicode") + "\n"


def _write(group: ET.Element, mark: Mark, at: tuple[float, float]) -> None:
    def on(point: tuple[float, float]) -> str:
        return f"{_number(at[0] + point[0])} {_number(at[1] - point[1])}"

    about = {"data-about": mark.about}
    if isinstance(mark, Round):
        x, y = on(mark.centre).split()
        ET.SubElement(group, "circle", {**about, "cx": x, "cy": y, "r": _number(mark.diameter / 2.0)})
    elif isinstance(mark, Slot):
        first, second, third, fourth = map(on, mark.corners())
        bend = f"A{_number(mark.width / 2.0)} {_number(mark.width / 2.0)} 0 0 0 "
        ET.SubElement(group, "path", {**about, "d": f"M{first}L{second}{bend}{third}L{fourth}{bend}{first}Z"})
    elif isinstance(mark, Word):
        turn = {"transform": f"rotate(-90 {on(mark.at)})"} if mark.upright else {}
        x, y = on(mark.at).split()
        style = {"font-family": "sans-serif", "font-size": str(NAME_MM), "text-anchor": "middle",
                 "dominant-baseline": "central", "fill": COLOURS[mark.layer], "stroke": "none"}  # fmt: skip
        ET.SubElement(group, "text", {**about, "x": x, "y": y, **style, **turn}).text = _plain(mark.text)
    else:
        ends = "Z" if isinstance(mark, Ring) else ""
        ET.SubElement(group, "path", {**about, "d": "M" + "L".join(map(on, mark.points)) + ends})


def _number(value: float) -> str:
    """A coordinate to a ten-thousandth of a millimetre."""
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _plain(text: str) -> str:
    return "".join(one if one.isprintable() else " " for one in text)
