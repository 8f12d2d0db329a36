"""A template as DXF in millimetres, for cutters and drawing programs: one layer a purpose."""

from __future__ import annotations

import io
from collections.abc import Mapping
from typing import TYPE_CHECKING

from hardstand.views.template.cuts import for_machine
from hardstand.views.template.value import LAYERS, Layer, Mark, Ring, Round, Slot, Template, Word

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

NAMES: Mapping[Layer, str] = {"cut": "CUT", "engrave": "ENGRAVE", "reference": "REFERENCE"}
_COLOURS: Mapping[Layer, int] = {"cut": 1, "engrave": 5, "reference": 8}  # red, blue, grey
_HAIRLINE, _NAME_MM, _WIDTH = 0, 3.5, 0.6  # line weight in 1/100 mm; a letter's width by its height
_HALF_CIRCLE = 1.0  # the bulge of a line that is a half circle


def template_dxf(made: Template) -> bytes:
    """The template as DXF R2010 in the aeroplane's own x and y: closed lines, circles, texts.

    Assumptions and validity: the unit is the millimetre ($INSUNITS 4). Slots are closed lines with
    half circles for ends. The same template gives the same bytes.

    Source: DXF Reference, group codes of LWPOLYLINE (bulge 42) and header variable $INSUNITS.
    """
    from ezdxf import new, options, units  # type: ignore[attr-defined] # public by its manual

    made = for_machine(made)
    kept = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no time, no name of who wrote it
    try:
        document = new("R2010", units=units.MM)
        for layer in LAYERS:
            document.layers.add(NAMES[layer], color=_COLOURS[layer], lineweight=_HAIRLINE)
        space = document.modelspace()
        for layer in reversed(LAYERS):  # a cutter keeps this order: what is cut comes last
            for mark in made.of(layer):
                _add(space, mark)
        x0, y0, x1, y1 = made.bounds()
        document.header["$EXTMIN"], document.header["$EXTMAX"] = (x0, y0, 0.0), (x1, y1, 0.0)
        out = io.StringIO(newline="\n")
        document.write(out)
    finally:
        options.write_fixed_meta_data_for_testing = kept
    return out.getvalue().encode("utf-8")


def _add(space: Modelspace, mark: Mark) -> None:
    style = {"layer": NAMES[mark.layer]}
    if isinstance(mark, Round):
        space.add_circle(mark.centre, mark.diameter / 2.0, dxfattribs=style)
    elif isinstance(mark, Slot):
        first, second, third, fourth = mark.corners()
        points = [(*first, 0.0), (*second, _HALF_CIRCLE), (*third, 0.0), (*fourth, _HALF_CIRCLE)]
        space.add_lwpolyline(points, format="xyb", close=True, dxfattribs=style)
    elif isinstance(mark, Word):
        from ezdxf.enums import TextEntityAlignment

        height = min(_NAME_MM, mark.room / max(len(mark.text), 1) / _WIDTH)
        turn = {"rotation": 90.0} if mark.upright else {}
        words = "".join(one if one.isprintable() else " " for one in mark.text)
        text = space.add_text(words, height=round(max(height, 0.5), 3), dxfattribs={**style, **turn})
        text.set_placement(mark.at, align=TextEntityAlignment.MIDDLE_CENTER)
    else:
        space.add_lwpolyline(mark.points, close=isinstance(mark, Ring), dxfattribs=style)
